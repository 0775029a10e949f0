import { codeIn, type Pixels } from "../../jobs/codes/readCode.ts";

/** Runs as a worker, so that looking at a picture never holds up the screen. Each picture is answered, in order. */
addEventListener("message", ({ data }: MessageEvent<Pixels>) => {
  postMessage(codeIn(data));
});
