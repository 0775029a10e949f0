import {
  adverse,
  answer,
  barriers,
  choice,
  hold,
  mustBeYes,
  quantity,
  signature,
  step,
  words,
} from "../parts.ts";
import type { Phase } from "../sheet.ts";
import { goesIn, type SheetOptions } from "./options.ts";

/** The stack off, the well back to its field operator, everything accounted for. */
export const handBack = (options: SheetOptions): Phase => {
  const { pockets } = options;
  const what = goesIn({
    work: pockets?.some((each) => goesIn(each) === "valve") ? "change out" : options.work,
  });
  return {
    id: "hand-back",
    title: "Hand back",
    items: [
      ...barriers("fifth", "the stack comes off", "stack-off"),
      step({
        id: "stack-off",
        title: "Rig down",
        instruction:
          "Drain, break and lay down the stack. Cap back and tested, tree valves as found or as told, safety valve back on its control line, trips back.",
        caution: "Lifting. Trapped pressure in every pocket of the stack.",
        fields: [
          mustBeYes(
            "cap-tested",
            "Cap tested",
            "The cap was not tested. Test it before the well is left.",
          ),
        ],
      }),
      step({
        id: "injection",
        title: "Return to injection, gently",
        instruction:
          "Whoever locked the gas takes the lock off. Flowline open, lowest back-pressure. Raise the casing slowly: 50 psi in 8 to 10 min up to 400 psi, then 100 psi in 8 to 10 min (API RP 11V5 as commonly quoted, from memory). Watch the casing every 10 min.",
        expect:
          what === "dummy"
            ? "The dummied pocket passes no gas: the casing settles on the next valve below that takes it."
            : "Casing settles on the operating valve.",
        caution:
          "Liquid driven through a valve too fast cuts its seat for good. Slugs of gas to the separator.",
        fields: [
          choice("lock-off", "Lock on the injection gas", [
            ["off", "Taken off by its owner"],
            ["stays", "Stays on, handed over so", adverse],
          ]),
          quantity("final-casing", "Casing pressure when left", "pressure"),
          quantity("final-wellhead", "Wellhead pressure when left", "pressure"),
          quantity("final-gas", "Injection gas rate when left", "gas rate", { optional: true }),
          quantity("final-liquid", "Liquid rate when left", "liquid rate", { optional: true }),
        ],
        optional: true,
      }),
      step({
        id: "line-left",
        title: "Line cut and left",
        instruction: "Note what was cut off the wire and where it was jarred most.",
        fields: [
          quantity("line-cut", "Line cut off", "length"),
          quantity("line-on-drum", "Line left on the drum", "length", { optional: true }),
          words("line-remarks", "Remarks", true),
        ],
      }),
      step({
        id: "account",
        title: "Account for everything",
        instruction:
          "Every tool, pin, ring and packing that went in came out or is named here. Site clear.",
        fields: [
          choice("nothing-left", "Left in the hole", [
            ["nothing", pockets ? "Nothing but what was set" : `Nothing but the new ${what}`],
            ["something", "Something: see remarks", adverse],
          ]),
          words("left-words", "Remarks", true),
          choice(
            "well-status",
            "The well when left",
            [
              ["injecting", "On injection"],
              ["flowing", "Flowing, without injection"],
              ["shut in", "Shut in"],
              ["waits", "Waits for somebody: see remarks"],
            ],
            true,
          ),
        ],
      }),
      hold({
        id: "handover-hold",
        title: "Handover",
        purpose: "Before the crew leaves the well.",
        conditions: [
          answer(
            "cap-ok",
            "cap-tested",
            ["yes"],
            "Cap tested",
            "The cap was not tested. Test it before the well is left.",
          ),
          answer(
            "accounted",
            "nothing-left",
            ["nothing"],
            "Nothing left in the hole",
            "Something is left in the hole: the well is not handed over as normal. The engineer decides.",
            ["production engineer"],
          ),
          signature("field operator", "Field operator takes the well over"),
        ],
        releasedBy: ["wireline supervisor"],
        guards: "left-location",
      }),
      step({
        id: "left-location",
        title: "Leave the location",
        instruction: "The crew leaves the well. Then the run is closed and goes to the engineer.",
        fields: [],
      }),
    ],
  };
};
