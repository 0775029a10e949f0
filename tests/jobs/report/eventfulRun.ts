import {
  closeContingency,
  noteContingency,
  openContingency,
} from "../../../src/jobs/commands/contingency.ts";
import { goBack } from "../../../src/jobs/commands/goBack.ts";
import { addPhotograph } from "../../../src/jobs/commands/photograph.ts";
import { answerQuestion, askQuestion } from "../../../src/jobs/commands/questions.ts";
import { addNote, correct, grantException } from "../../../src/jobs/commands/run.ts";
import { latestReading } from "../../../src/jobs/state/jobState.ts";
import { type Picture, pictureHash } from "../../../src/jobs/store/picture.ts";
import { engineer, supervisor, Tablet } from "../demo.ts";
import { greyJpeg } from "./jpeg.ts";

/** A run in which a good deal happened; invented, and proof of no number. */

const bytes = greyJpeg(640, 480);
export const kept: Picture = { sha256: pictureHash(bytes), type: "image/jpeg", bytes };
/** named by the log and on no tablet */
export const LOST = "ab".repeat(32);

export const LONG_NOTE = `${"The wire was looked at over its last hundred feet, foot by foot. ".repeat(40)}Nothing was found on it.`;

/** Went back, dealt with something, over a limit, corrected, let pass, photographed, closed, asked and answered. */
export function eventfulRun(tablet: Tablet = new Tablet()): Tablet {
  const answers = {
    shear: { "shear-largest": { text: "1200", unit: "lbf" } },
    account: {
      "nothing-left": { text: "something" },
      "left-words": { text: "A broken pin, <2 mm, in the sump & no more" },
    },
  };
  tablet.start().runTo("jar-out");
  tablet.act((s) => openContingency(s, "will-not-come"));
  const casing = latestReading(tablet.state, "level-last-casing")?.value;
  if (casing?.kind !== "quantity") throw new Error("no casing pressure");
  const still = { text: String(casing.value), unit: casing.unit };
  tablet.act((s) => noteContingency(s, { "come-casing": still }, s.now));
  tablet.act((s) =>
    closeContingency(s, { option: undefined, outcome: "It came.", rejoin: "jar-out" }),
  );
  tablet.runTo("drive");
  tablet.act((s) => goBack(s, "enter", "The string was pulled up by mistake."));
  tablet.runTo("account", answers, "harder than meant");
  const line = latestReading(tablet.state, "line-cut");
  if (!line) throw new Error("no line cut");
  tablet.act((s) => correct(s, line, { text: "65", unit: "ft" }, "Measured again"));
  tablet.act((s) => addNote(s, LONG_NOTE));
  for (const [picture, caption] of [
    [kept.sha256, "Groove across the seat"],
    [LOST, "The same from the side"],
  ] as const) {
    tablet.act((s) =>
      addPhotograph(s, { picture, width: 640, height: 480, caption, at: "inspect" }),
    );
  }
  tablet.runTo("handover-hold", answers, "as it is");
  tablet.act((s) =>
    grantException(s, "handover-hold", "accounted", "The sump takes it; it does no harm.", {
      name: "L. Ashgrove",
      role: "production engineer",
    }),
  );
  tablet.runTo(undefined, answers);
  tablet.close("Done, but for the pin.");
  tablet.actor = engineer;
  tablet.act((s) => askQuestion(s, { kind: "item", item: "shear" }, "Which gauge was that?"));
  const [question] = tablet.state.questions;
  if (!question) throw new Error("no question");
  tablet.actor = supervisor;
  tablet.act((s) => answerQuestion(s, question.event.hash, "The load cell at the hay pulley."));
  return tablet;
}
