import { asEntered } from "../display.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { targetMandrel } from "../programme.ts";
import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import { sheetWanted } from "../sheet/sheetWanted.ts";
import { keyOf, type LoadLine, sum, together } from "./loadLine.ts";
import type { ForWell } from "./loadTools.ts";

/** What goes into each pocket, and what is taken along for it. */
export function valveLines(jobs: readonly ForWell[]): LoadLine[] {
  const pockets = jobs.flatMap(({ well, programme }) =>
    pocketsOf(programme.job).map((pocket) => ({ well, at: focus(programme, pocket) })),
  );
  const valves = pockets.map(({ well, at }) => valveLine(at, well));
  return [...together(valves, Math.max), ...together(pockets.flatMap(spares), sum)];
}

function valveLine(programme: Programme, well: string): LoadLine {
  const { replacement, job } = programme;
  const mandrel = targetMandrel(programme);
  const group = "valves" as const;
  if (replacement) {
    return {
      key: keyOf("valves", replacement.id),
      group,
      count: 1,
      what: `Valve ${replacement.serial}, ${replacement.kind}`,
      detail: figuresOf(replacement),
      wells: [well],
      why: `For mandrel ${mandrel?.number ?? "?"} of ${well}.`,
      ...(isSet(replacement) &&
        !replacement.card && { ask: "It has no card of the shop: its set pressure is not known." }),
    };
  }
  const blanks = sheetWanted(job).work === "pull and dummy off";
  return {
    key: keyOf("valves", job.id, job.mandrel),
    group,
    count: 1,
    what: `${blanks ? "Dummy valve" : "Valve"} for mandrel ${mandrel?.number ?? "?"} of ${well}`,
    ...(mandrel && mandrel.pocket !== "not known" && { detail: mandrel.pocket }),
    wells: [well],
    ask: "None is chosen. Choose it in the plan of the job.",
  };
}

/** What a shop sets on the test rack. */
const isSet = ({ kind }: Valve) => kind === "injection-operated" || kind === "production-operated";

function figuresOf(valve: Valve): string {
  const { size, latch, card } = valve;
  const set = card
    ? `test rack ${asEntered(card.testRackOpening60F)} at 60 °F, card of ${card.day}`
    : isSet(valve)
      ? "set pressure not known"
      : "nothing to set";
  return [size, latch ?? "latch not known", set].join(", ");
}

/** For each pocket, so that a nicked packing or a bent latch does not end the day. */
function spares({ well, at }: { well: string; at: Programme }): LoadLine[] {
  const { replacement } = at;
  const mandrel = targetMandrel(at);
  const size = replacement?.size ?? (mandrel?.pocket === "not known" ? undefined : mandrel?.pocket);
  const latch = replacement?.latch ?? mandrel?.latchProfile;
  const line = (what: string, detail: string): LoadLine => ({
    key: keyOf("spares", what, detail),
    group: "spares",
    count: 1,
    what,
    detail,
    wells: [well],
    practice: true,
    why: "One for each pocket.",
  });
  const sized = size ?? "size not known";
  return [
    line("Packing set, both stacks of a valve", sized),
    line("Spare latch", latch ?? `latch not known, ${sized}`),
    ...(replacement?.kind === "dummy" ? [] : [line("Spare dummy valve", sized)]),
  ];
}
