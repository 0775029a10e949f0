import { spawn } from "node:child_process";
import { ensureInstalled } from "./ensureInstalled.mjs";

ensureInstalled();
const { dist, ensureBuilt } = await import("./build.mjs");
const { serve } = await import("./serve.mjs");
await ensureBuilt();
const { address } = await serve(dist, 4173);
process.stdout.write(
  `Latchline is at ${address}\nIt opens on invented demonstration jobs. Once loaded, it works without this server. Ctrl+C stops it.\n`,
);
if (process.stdout.isTTY && !process.env.CI) openBrowser(address);

/** Shows the page where there is a desktop; where there is none, the address above is enough. */
function openBrowser(url) {
  const [command, ...args] =
    process.platform === "darwin"
      ? ["open", url]
      : process.platform === "win32"
        ? ["cmd", "/c", "start", "", url]
        : ["xdg-open", url];
  const child = spawn(command, args, { stdio: "ignore", detached: true });
  child.on("error", () => {});
  child.unref();
}
