import { createServer } from "node:http";
import sirv from "sirv";
import { headerPolicy } from "./contentSecurityPolicy.mjs";

const headers = {
  "Content-Security-Policy": headerPolicy,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Permissions-Policy": "geolocation=(), microphone=()",
};

/**
 * Serves the production build.
 *
 * @param {string} folder the build
 * @param {number} port   first port to try; the next free one is taken when it is in use, 0 for any
 * @returns {Promise<{ server: import("node:http").Server, address: string }>}
 */
export async function serve(folder, port) {
  const files = sirv(folder, {
    single: true,
    etag: true,
    setHeaders(response, path) {
      for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
      // Only files with a hash in their name never change; the worker and the page are asked for anew.
      const lasting = path.startsWith("/assets/");
      response.setHeader(
        "Cache-Control",
        lasting ? "public, max-age=31536000, immutable" : "no-cache",
      );
    },
  });
  const server = createServer((request, response) => {
    files(request, response, () => {
      response.writeHead(404).end("Not found");
    });
  });
  const taken = await listen(server, port);
  return { server, address: `http://localhost:${taken}` };
}

function listen(server, port) {
  return new Promise((resolve, reject) => {
    server.once("error", (error) => {
      if (error.code !== "EADDRINUSE" || port === 0 || port > 65_000) reject(error);
      else resolve(listen(server, port + 1));
    });
    server.listen(port, "localhost", () => resolve(server.address().port));
  });
}
