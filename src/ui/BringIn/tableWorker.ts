import { TableSession } from "../../jobs/tables/session.ts";
import type { Asked, Said } from "./tableClient.ts";

/** Reads tables beside the screen, so that a large one does not hold it up. */
const session = new TableSession();
const say = (said: Said) => postMessage(said);

async function answer(asked: Asked): Promise<unknown> {
  switch (asked.do) {
    case "open":
      return session.open(asked.source);
    case "look":
      return session.look(asked.sheet, asked.kept, asked.header, asked.kind);
    case "study":
      return session.study(asked.mapping);
    case "read":
      return session.read(asked.mapping, asked.library, asked.kept, {
        newId: () => crypto.randomUUID(),
        onProgress: (done, of) => say({ id: asked.id, is: "progress", done, of }),
      });
  }
}

self.onmessage = async ({ data }: MessageEvent<Asked>) => {
  try {
    say({ id: data.id, is: "done", result: await answer(data) });
  } catch (error) {
    say({ id: data.id, is: "failed", why: error instanceof Error ? error.message : String(error) });
  }
};
