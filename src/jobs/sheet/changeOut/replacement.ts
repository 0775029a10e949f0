import {
  adverse,
  answer,
  check,
  choice,
  count,
  hold,
  mustBeYes,
  person,
  quantity,
  serial,
  signature,
  step,
  words,
} from "../parts.ts";
import type { Condition, Phase } from "../sheet.ts";
import { goesIn, type PocketOptions } from "./options.ts";

/** What the pulled valve has to say before the next one goes in. */
const whatCameOut: Condition[] = [
  check(
    "old-serial",
    "old serial matches",
    "The valve that came out is the one on record",
    { serial: "pulled-serial" },
    ["production engineer"],
  ),
  answer(
    "old-complete",
    "pulled-complete",
    ["complete"],
    "The pulled valve is complete",
    "A part is missing: it is in the hole. Stop, account for it, the engineer decides.",
    ["production engineer"],
  ),
  answer(
    "old-condition",
    "pulled-condition",
    ["port cut", "check open", "charge lost", "packing", "plugged"],
    "A fault was seen on the pulled valve",
    "The pulled valve looks good: the fault may be elsewhere. Ask the engineer before the next one goes in.",
    ["production engineer"],
  ),
];

/** What goes into the pocket, looked at before it is on the line. */
export const replacement = (options: PocketOptions): Phase => {
  const isDummy = goesIn(options) === "dummy";
  const wasPulled = options.work !== "set into an empty pocket";
  return {
    id: "replace",
    title: isDummy ? "Dummy" : "Replacement",
    items: [
      step({
        id: "card",
        title: isDummy ? "Dummy against card" : "Valve against card",
        instruction: isDummy
          ? "Read the serial on the body. It is a dummy, for this pocket: tag, card and programme must say the same."
          : "Read the serial on the body and the set pressure on the shop's card. Tag, card and programme must say the same.",
        ...(!isDummy && {
          caution: "Dome pressure in a valve in the hand: never heat or clamp the dome.",
        }),
        answers: isDummy ? ["serial matches"] : ["serial matches", "set pressure"],
        fields: [
          serial("new-serial", "Serial on the body"),
          ...(isDummy
            ? []
            : [
                quantity("new-card", "Test-rack opening at 60 °F on the card", "pressure", {
                  channel: "card set pressure",
                  expected: "test-rack-needed",
                  band: "pressure",
                  optional: true,
                }),
              ]),
        ],
      }),
      step({
        id: "fit",
        title: "Latch, packing, check, running tool",
        instruction: `Latch made for this profile; packing whole and of a material fit for the fluid; ${isDummy ? "" : "check moves; "}the running tool holds the latch.`,
        fields: [
          mustBeYes(
            "new-latch",
            "Latch fits the profile",
            "The latch is not made for this profile. It does not go in.",
          ),
          mustBeYes(
            "new-packing",
            "Packing whole and greased",
            "Packing is nicked or missing. Dress it again.",
          ),
        ],
      }),
      step({
        id: "pins",
        title: "Shear pins of the running tool",
        instruction:
          "Look at the pins, compare with the batch certificate, count them. A second person witnesses. Photograph.",
        expect:
          "Brass, which shears by upward jarring once the valve is latched (common practice). Temper matters: the batch or the maker's shear value counts, not the word alone.",
        caution:
          "A steel pin may not shear and leaves the string fast to a seated valve; aluminium may shear while seating.",
        answers: ["pins as programmed"],
        fields: [
          choice("pin-material", "Pin material", [
            ["brass", "Brass"],
            ["steel", "Steel", adverse],
            ["aluminium", "Aluminium", adverse],
            ["not known", "Not known", adverse],
          ]),
          count("pin-count", "Number of pins"),
          words("pin-batch", "Batch or certificate"),
          person("pin-witness", "Witness, not the one who enters this"),
        ],
      }),
      hold({
        id: "replacement-hold",
        title: isDummy ? "Dummy verified" : "Replacement verified",
        purpose: "Before the set string goes in.",
        conditions: [
          ...(wasPulled ? whatCameOut : []),
          check("serial-ok", "serial matches", "Serial is the programme's", {
            serial: "new-serial",
          }),
          ...(isDummy
            ? []
            : [
                check(
                  "set-ok",
                  "set pressure",
                  "Set pressure is what the mandrel needs",
                  { card: "new-card" },
                  ["production engineer"],
                ),
              ]),
          answer(
            "latch-ok",
            "new-latch",
            ["yes"],
            "Latch fits the profile",
            "The latch is not made for this profile. It does not go in.",
          ),
          answer(
            "packing-ok",
            "new-packing",
            ["yes"],
            "Packing whole",
            "Packing is nicked or missing. Dress it again.",
          ),
          answer(
            "pins-brass",
            "pin-material",
            ["brass"],
            "Running-tool pins are brass",
            "The pins are not brass. Steel may not shear and leaves the string fast to the valve; aluminium may shear while seating. Change them, or have the exception named.",
            ["production engineer"],
          ),
          check(
            "pins-ok",
            "pins as programmed",
            "Count and batch of the pins are the programme's",
            { count: "pin-count", batch: "pin-batch" },
            ["production engineer"],
          ),
          check("pins-witnessed", "witnessed by another", "Pins witnessed by a second person", {
            witness: "pin-witness",
          }),
          signature(
            "production engineer",
            wasPulled
              ? "Production engineer has heard the condition, by radio if not there"
              : "Production engineer has heard how the pocket was found, by radio if not there",
          ),
        ],
        releasedBy: ["wireline supervisor"],
        guards: "set-string-on",
      }),
    ],
  };
};
