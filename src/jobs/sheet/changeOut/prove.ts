import { answer, bothGauges, check, fluidLevelAnew, hold, signature, step } from "../parts.ts";
import type { Condition, Phase, SheetItem } from "../sheet.ts";
import { goesIn, type PocketOptions } from "./options.ts";

/** One proof: a difference made across what was set, and read again after the watch. */
function proof(name: string, make: string, instruction: string): SheetItem[] {
  return [
    step({
      id: `${name}-start`,
      title: make,
      instruction: `${instruction} What is bled moves the fluid level: find it anew. Read both gauges at one moment.`,
      caution: "Bleed only where the permit allows. H2S, ignition, freezing at the choke.",
      figures: ["proof-difference", "watch"],
      fields: [fluidLevelAnew(`${name}-start`), ...bothGauges(`${name}-start`)],
      startsEmpty: true,
    }),
    step({
      id: `${name}-end`,
      title: "Read again after the watch",
      instruction: "Watch both gauges, then read them at one moment.",
      expect: "No change. A move of either gauge means packing, latch or seat leaks.",
      figures: ["watch"],
      answers: [name === "proof" ? "proof of seat" : "proved both ways"],
      fields: bothGauges(`${name}-end`),
      startsEmpty: true,
    }),
  ];
}

const readingsOf = (name: string) => ({
  "start casing": `${name}-start-casing`,
  "start wellhead": `${name}-start-wellhead`,
  "end casing": `${name}-end-casing`,
  "end wellhead": `${name}-end-wellhead`,
});

/**
 * What was set is proved before anything above it comes off: a valve one way, a dummy both.
 *
 * @param guards the step before which it has to be proved
 * @param before what comes then
 */
export function prove(
  options: PocketOptions,
  guards: string,
  before = "the stack comes off and the well goes back to injection",
): Phase {
  const what = goesIn(options);
  const isDummy = what === "dummy";
  const proofs: SheetItem[] = isDummy
    ? [
        ...proof(
          "proof",
          "Make a difference, tubing above",
          "Bleed the annulus slowly, as far as the dummy is rated for: the tubing stands above.",
        ),
        ...proof(
          "proof-back",
          "Make a difference, annulus above",
          "Now the other way: bleed the tubing slowly until the annulus stands above.",
        ),
      ]
    : proof(
        "proof",
        "Make a difference across the valve",
        "By the agreed plan of equalising bleed one side, slowly. A check or orifice holds with the tubing above only, a closed valve both ways as far as rated.",
      );
  const back: Condition[] = isDummy
    ? [
        check(
          "holds-back",
          "proof of seat",
          "The dummy holds the second difference",
          readingsOf("proof-back"),
          ["production engineer"],
        ),
        check(
          "both-ways",
          "proved both ways",
          "Once with the tubing above, once with the annulus above",
          {
            "first casing": "proof-start-casing",
            "first wellhead": "proof-start-wellhead",
            "second casing": "proof-back-start-casing",
            "second wellhead": "proof-back-start-wellhead",
          },
          ["production engineer"],
        ),
      ]
    : [];
  return {
    id: "prove",
    title: "Prove",
    items: [
      ...proofs,
      hold({
        id: "proof-hold",
        title: "Seated, sheared off, proved",
        purpose: `Before ${before}.`,
        conditions: [
          answer(
            "shear-clear",
            "shear-sign",
            ["clear"],
            "Clear shear sign",
            `The shear sign was not clear: the ${what} may be half in. A tag and a light pull decide, nothing is assumed.`,
            ["production engineer"],
          ),
          answer(
            "sheared",
            "tool-pins",
            ["sheared"],
            "Pins seen sheared at surface",
            "The pins were not all seen sheared. The next run is a tag and a light pull, nothing is assumed.",
          ),
          answer(
            "left",
            "tool-valve",
            ["left in pocket"],
            `The ${what} is not on the tool`,
            `The ${what} came back on the tool. It is not set.`,
          ),
          check("holds", "proof of seat", `The ${what} holds a difference`, readingsOf("proof"), [
            "production engineer",
          ]),
          ...back,
          signature("production engineer", "Production engineer accepts the proof"),
        ],
        releasedBy: ["wireline supervisor"],
        guards,
      }),
    ],
  };
}
