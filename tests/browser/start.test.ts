import { type ChildProcess, spawn } from "node:child_process";
import { createServer } from "node:http";
import { afterEach, expect, it } from "vitest";

const children: ChildProcess[] = [];
afterEach(() => {
  for (const child of children.splice(0)) child.kill();
});

/** Runs `npm start`'s script until it prints an address. */
function start(): Promise<string> {
  const child = spawn(process.execPath, ["scripts/start.mjs"], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  children.push(child);
  return new Promise((resolve, reject) => {
    child.stdout?.on("data", (data) => {
      const found = /http:\/\/localhost:\d+/.exec(String(data));
      if (found) resolve(found[0]);
    });
    child.once("exit", (code) => reject(new Error(`ended with ${code}`)));
  });
}

it("serves the build with its policy, on the next port when one is taken", async () => {
  const blocker = createServer();
  // 4173 may be somebody else's already; either way it is taken now.
  await new Promise<void>((resolve) => {
    blocker.once("error", () => resolve());
    blocker.listen(4173, "localhost", () => resolve());
  });
  try {
    const address = await start();
    expect(Number(new URL(address).port)).toBeGreaterThan(4173);
    const response = await fetch(address);
    const policy = response.headers.get("content-security-policy") ?? "";
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toContain("unsafe");
    const page = await response.text();
    expect(page).toContain('http-equiv="Content-Security-Policy"');
    expect(page).not.toMatch(/https?:\/\/(?!localhost)/);
    // A place inside the app is the app; a file that is not there is not.
    expect(await (await fetch(`${address}/jobs/any/run`)).text()).toBe(page);
    expect((await fetch(`${address}/assets/not-there.js`)).status).toBe(404);
  } finally {
    blocker.close();
  }
});
