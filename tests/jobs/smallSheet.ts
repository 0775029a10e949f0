import type { Programme } from "../../src/jobs/records/programme.ts";
import {
  answer,
  choice,
  count,
  hold,
  quantity,
  signature,
  step,
  words,
} from "../../src/jobs/sheet/parts.ts";
import type { Sheet, Step } from "../../src/jobs/sheet/sheet.ts";
import { readyProgramme } from "./demo.ts";

/** A sheet made for tests: every kind of condition, no calculation, and few enough items to follow by hand. */
const plain = (id: string, fields: Step["fields"]): Step => ({
  id,
  title: `Step ${id}`,
  instruction: "Do it.",
  fields,
});

const yesOrNo = (id: string) =>
  choice(id, `Answer ${id}`, [
    ["yes", "Yes"],
    ["no", "No"],
  ]);

export const smallSheet: Sheet = {
  id: "small",
  version: 1,
  title: "Small",
  phases: [
    {
      id: "first",
      title: "First",
      items: [
        step(
          plain("a", [
            yesOrNo("a-answer"),
            quantity("a-pressure", "Pressure a", "pressure"),
            words("a-note", "Note a", true),
          ]),
        ),
        hold({
          id: "h1",
          title: "Hold one",
          purpose: "Before b.",
          conditions: [
            answer("a-yes", "a-answer", ["yes"], "Answer a is yes", "Answer a is no."),
            {
              kind: "within",
              id: "a-inside",
              text: "Pressure a is inside",
              field: "a-pressure",
              least: 0,
              most: 100,
              unit: "psig",
              otherwise: "It is not inside.",
              exceptionBy: ["production engineer"],
            },
            signature("field operator", "The field operator signs"),
          ],
          releasedBy: ["wireline supervisor"],
          guards: "b",
        }),
        step(plain("b", [count("b-count", "Count b")])),
      ],
    },
    {
      id: "second",
      title: "Second",
      items: [
        step(plain("c", [yesOrNo("c-answer"), words("c-note", "Note c", true)])),
        hold({
          id: "h2",
          title: "Hold two",
          purpose: "Before e.",
          conditions: [
            answer("a-still-yes", "a-answer", ["yes"], "Answer a is yes", "Answer a is no."),
            answer("c-yes", "c-answer", ["yes"], "Answer c is yes", "Answer c is no."),
            { kind: "reading", id: "c-noted", text: "Note c is there", field: "c-note" },
          ],
          releasedBy: ["wireline supervisor", "winch operator"],
          guards: "e",
        }),
        step({ ...plain("d", []), optional: true }),
        step(plain("e", [])),
      ],
    },
  ],
  contingencies: [
    {
      id: "k",
      title: "Something went wrong",
      stop: "Stop.",
      makeSafe: ["Hold still."],
      tell: ["Supervisor."],
      options: [
        { id: "on", label: "Go on", says: "It holds again.", rejoins: [] },
        { id: "again", label: "Again", says: "From b.", rejoins: ["b"] },
      ],
      fields: [quantity("k-pressure", "Pressure k", "pressure"), words("k-seen", "Seen", true)],
      near: ["b"],
    },
  ],
};

export const smallProgramme = (): Programme => ({ ...readyProgramme(), sheet: smallSheet });
