import { TableSession } from "../../jobs/tables/session.ts";
import { answering } from "../workerClient.ts";
import type { TableRequest } from "./tableClient.ts";

/** Reads tables beside the screen, so that a large one does not hold it up. */
const session = new TableSession();

answering<TableRequest>((asked, onProgress) => {
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
        onProgress,
      });
  }
});
