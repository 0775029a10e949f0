import { asEntered } from "../display.ts";
import { valveToPull } from "../programme.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import { serialInWords } from "../serial.ts";
import { sheetWanted } from "../sheet/sheetWanted.ts";
import { stepById } from "../sheet/walk.ts";
import {
  asked,
  type CloseOutLine,
  type CloseOutSection,
  joined,
  type Of,
  type Pocket,
  time,
} from "./line.ts";

export const isEmptyPocket = ({ programme }: Pocket) =>
  sheetWanted(programme.job).work === "set into an empty pocket";

/** What came out of a pocket, or how it was found empty. */
export function pulled(of: Of, pocket: Pocket): CloseOutSection {
  const { suffix, title } = pocket;
  if (isEmptyPocket(pocket)) {
    return {
      id: `found${suffix}`,
      title: `Pocket found${title}`,
      lines: [
        asked(of, {
          id: "pocket-found",
          label: "By feel",
          step: "pocket-look",
          fields: ["pocket-found"],
          pocket: untitled(pocket),
        }),
        asked(of, {
          id: "block-shows",
          label: "Print of the block",
          step: "look-block",
          fields: ["block-shows", "block-words"],
          pocket: untitled(pocket),
        }),
        photographs(of, "look-block", pocket),
      ],
    };
  }
  const step = "inspect";
  const record = valveToPull(pocket.programme);
  const line = (id: string, label: string, fields: readonly string[]) =>
    asked(of, { id, label, step, fields, pocket: untitled(pocket) });
  return {
    id: `pulled${suffix}`,
    title: `Pulled${title}`,
    lines: [
      asked(of, {
        id: "pulled-serial",
        label: "Serial",
        step,
        fields: ["pulled-serial"],
        pocket: untitled(pocket),
        words: (serial = "") => serialInWords(serial, record?.serial),
      }),
      line("pulled-complete", "Complete", ["pulled-complete"]),
      line("pulled-condition", "Condition", ["pulled-condition", "pulled-words"]),
      ...(hasCharge(record)
        ? [
            asked(of, {
              id: "pulled-charge",
              label: "Charge left",
              step,
              fields: ["pulled-charge", "pulled-opening"],
              any: true,
              pocket: untitled(pocket),
              words: (left, opening) => joined(left, opening && `opened at ${opening} as found`),
            }),
          ]
        : []),
      photographs(of, step, pocket),
    ],
  };
}

/** The title of a section says which pocket it is; its lines need not. */
const untitled = (pocket: Pocket): Pocket => ({ ...pocket, title: "" });

/** Without a record of it, it may have one. */
const hasCharge = (valve: Valve | undefined) =>
  valve === undefined ||
  (valve.kind !== "orifice" && valve.kind !== "dummy" && valve.charge !== "none");

function photographs({ state, programme }: Of, base: string, { suffix }: Pocket): CloseOutLine {
  const step = `${base}${suffix}`;
  const taken = state.photographs.filter(({ at }) => at === step);
  const line = { id: `photographs-${step}`, label: "Photographs" };
  const captions = joined(...taken.map(({ caption }) => caption));
  if (taken.length > 0) {
    return {
      ...line,
      says: `${taken.length}${captions ? `: ${captions}` : ""}`,
      events: taken.map(({ event }) => event),
    };
  }
  const asks = stepById(programme.sheet, step) !== undefined;
  return { ...line, says: "None taken.", events: [], gap: asks ? { at: step } : {} };
}

/** What went into a pocket. */
export function set(of: Of, pocket: Pocket): CloseOutSection {
  const { suffix, title } = pocket;
  const valve = pocket.programme.replacement;
  const plain = untitled(pocket);
  const issued = of.state.issued ? [of.state.issued] : [];
  return {
    id: `set${suffix}`,
    title: `Set${title}`,
    lines: [
      asked(of, {
        id: "new-serial",
        label: "Serial",
        step: "card",
        fields: ["new-serial"],
        pocket: plain,
        words: (serial = "") => serialInWords(serial, valve?.serial),
      }),
      valve
        ? {
            id: `new-kind${suffix}`,
            label: "Kind",
            says: joined(valve.kind, valve.size, valve.port && `port ${asEntered(valve.port)}`),
            events: issued,
          }
        : {
            id: `new-kind${suffix}`,
            label: "Kind",
            says: "The programme has no record of it.",
            events: [],
            gap: {},
          },
      ...(valve && (valve.kind === "dummy" || valve.kind === "orifice")
        ? []
        : [setPressure(of, plain, valve)]),
      asked(of, {
        id: "new-latch",
        label: "Latch and packing",
        step: "fit",
        fields: ["new-latch", "new-packing"],
        pocket: plain,
        words: (fits, packing) =>
          joined(
            valve?.latch,
            `fits the profile: ${fits}`,
            packing && `packing whole and greased: ${packing}`,
          ),
      }),
      asked(of, {
        id: "shear-sign",
        label: "Sheared off",
        step: "shear",
        fields: ["shear-sign"],
        pocket: plain,
        timed: true,
      }),
      asked(of, {
        id: "tool-valve",
        label: "Running tool at surface",
        step: "look-tool",
        fields: ["tool-valve", "tool-pins"],
        pocket: plain,
        words: (left, pins) => joined(`what it carried: ${left}`, pins && `pins: ${pins}`),
      }),
    ],
  };
}

const pressure = ({ writer }: Of, of: Quantity<"pressure">) =>
  writer.write("pressure", toSI("pressure", of, writer.atmosphere));

/** The card that was read on location, or the one on record; beside it what the bench read. */
function setPressure(of: Of, pocket: Pocket, valve: Valve | undefined): CloseOutLine {
  const bench = valve?.bench?.readings
    .map(({ opening, temperature }) => `${pressure(of, opening)} at ${asEntered(temperature)}`)
    .join(", ");
  const beside = bench ? `bench: ${bench}` : "no bench reading on record";
  const line = asked(of, {
    id: "new-card",
    label: "Set pressure, test rack at 60 °F",
    step: "card",
    fields: ["new-card"],
    pocket,
    words: (card) => `${card} by the card read on location; ${beside}`,
  });
  if (!line.gap || !valve?.card) return line;
  const { testRackOpening60F, day } = valve.card;
  return {
    id: line.id,
    label: line.label,
    says: `${pressure(of, testRackOpening60F)} by the card on record of ${day}; ${beside}`,
    events: of.state.issued ? [of.state.issued] : [],
  };
}

/** When a pocket's valve was pulled and set, for those who look for the hour. */
export function hours({ state }: Of, { suffix, title }: Pocket): CloseOutLine[] {
  return (
    [
      ["jar-out", "Valve free"],
      ["shear", "Sheared off"],
    ] as const
  ).flatMap(([step, label]): CloseOutLine[] => {
    const done = state.done.get(`${step}${suffix}`);
    if (!done) return [];
    return [
      {
        id: `hour-${step}${suffix}`,
        label: `${label}${title}`,
        says: time(done.at),
        events: [done],
      },
    ];
  });
}
