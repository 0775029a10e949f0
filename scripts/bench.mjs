import { ensureInstalled } from "./ensureInstalled.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

ensureInstalled();
await importTypeScript("tests/bench/bench.ts");
