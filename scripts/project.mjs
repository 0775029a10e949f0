import { fileURLToPath } from "node:url";

/** The project's root folder, wherever the command was called from. */
export const root = fileURLToPath(new URL("..", import.meta.url));

/** Where scripts keep what they can make again; gone with the next install. */
export const cacheFolder = `${root}node_modules/.cache/latchline/`;
