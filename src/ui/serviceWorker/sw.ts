import {
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  precacheAndRoute,
} from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { keepShared, SHARE_ADDRESS } from "../Packs/sharedPack.ts";

declare const self: ServiceWorkerGlobalScope & {
  readonly __WB_MANIFEST: { url: string; revision: string | null }[];
};

/**
 * Keeps the whole app on the tablet. Installation is all or nothing: one file that does not come, and
 * the old version stays. A new version waits until somebody accepts it.
 */
precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html")));

// A pack that another app shares: no server sees it. The page that opens then takes it.
registerRoute(
  ({ url }) => url.pathname === SHARE_ADDRESS,
  async ({ request }) => {
    const shared = await request
      .formData()
      .then(keepShared)
      .then(
        (count) => (count > 0 ? "here" : "nothing"),
        () => "failed",
      );
    return Response.redirect(`/?shared=${shared}`, 303);
  },
  "POST",
);

self.addEventListener("message", (event) => {
  if ((event.data as { type?: string } | null)?.type === "SKIP_WAITING") void self.skipWaiting();
});

// The first version takes the page that installed it at once, so that it works offline without a reload.
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
