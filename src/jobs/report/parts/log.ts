import { brokenInWords } from "../../brokenInWords.ts";
import { lastOfEach } from "../../log/heads.ts";
import { closingHash } from "../../state/closingHash.ts";
import type { Block, Part } from "../document.ts";
import type { Reported } from "../reported.ts";
import { shortfall } from "../stageInWords.ts";
import { whenInFull } from "../when.ts";

/** What anybody can hold this report against: how long the log is, whether it holds, and where it ends. */
export function logPart({ state, record, programme }: Reported): Part {
  const { events, decidedBy } = state;
  const { broken } = record;
  const holds: Block =
    broken.length === 0
      ? {
          kind: "words",
          text: `The log has ${events.length} events. Every device's chain of hashes holds, and none that another names is missing.`,
        }
      : {
          kind: "list",
          items: broken.map((link) => ({
            tone: "problem" as const,
            text: `The log does not hold. ${brokenInWords(link, state)}`,
          })),
        };
  const lacks = broken.length > 0 ? undefined : shortfall(state, broken);
  return {
    id: "log",
    title: "The log",
    blocks: [
      holds,
      ...(lacks ? [{ kind: "words" as const, text: lacks, tone: "problem" as const }] : []),
      {
        kind: "table",
        caption: "Last event of each device",
        columns: [
          { title: "Device", share: 2.4 },
          { title: "Events", align: "right", share: 0.7 },
          { title: "Last", share: 1.4 },
          { title: "Hash of the last", share: 4.2 },
        ],
        rows: [...lastOfEach(events)].map(([device, event]) => [
          device,
          String(event.sequence),
          whenInFull(event.at),
          event.hash,
        ]),
      },
      {
        kind: "facts",
        rows: [
          ["Job in the log", events[0]?.job ?? programme.job.id],
          [
            "Closing hash",
            broken.length > 0
              ? "none: the log does not hold"
              : (closingHash(state) ?? "none: no event"),
          ],
          ["Hash of the decision's event", decidedBy?.event.hash ?? "none: not decided"],
        ],
      },
      {
        kind: "words",
        tone: "soft",
        text: "The closing hash is the SHA-256 of the canonical JSON of the job's id and of the hash of every device's last event: what an approval signs. A hash is the SHA-256 of an event's canonical JSON (RFC 8785) without the hash itself; each event holds the hash of its device's event before it. The record as JSON has every event, so that anybody can check this. A log whose end was cut off holds as well: only a closing hash that was kept elsewhere shows it.",
      },
    ],
  };
}
