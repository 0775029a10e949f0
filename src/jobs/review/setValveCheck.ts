import { asEntered, type Writer } from "../display.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { targetMandrel } from "../programme.ts";
import type { Quantity } from "../quantity.ts";
import { inReadersUnits } from "../readersUnits.ts";
import type { Valve } from "../records/valve.ts";
import { isBellows } from "../results/valveGivens.ts";
import { fieldById, pocketOfField } from "../sheet/walk.ts";
import { resultsAt } from "../state/conditions.ts";
import type { JobState, Reading } from "../state/jobState.ts";
import { pocketHolds } from "../state/pocketAtWork.ts";
import type { MandrelNow } from "../verdict/mandrelNow.ts";
import type { Verdict } from "../verdict/verdict.ts";

/** A valve that was set: what it was set for, what it is set to, and what it does at the pressures read. SI, absolute. */
export interface SetValve {
  /** mandrel, by its id */
  readonly pocket: string;
  readonly mandrel: number | undefined;
  readonly valve: Valve;
  /** the shop's card, and what was read of it on location */
  readonly card: Quantity<"pressure"> | undefined;
  readonly cardRead: Reading | undefined;
  /** test-rack opening at 60 °F that the programme's design needs */
  readonly needed: number | undefined;
  /** mean of the bench readings, at 60 °F */
  readonly bench: number | undefined;
  /** wanted at the mandrel by the programme's design */
  readonly wanted: Quantity<"pressure"> | undefined;
  /** what it opens at by its card, with the pressure on its seat that the design has */
  readonly byDesign: number | undefined;
  /** opens and shuts at the pressures read after the return; undefined: none were read */
  readonly now: MandrelNow | undefined;
  /** whether it is open or shut by these, and how far from changing */
  readonly says: string;
}

/** Every valve that the run has set, in the order of its pockets. */
export function setValves(
  state: JobState,
  verdict: Verdict | undefined,
  writer: Writer,
): SetValve[] {
  const { programme } = state;
  if (!programme) return [];
  return pocketsOf(programme.job).flatMap((pocket): SetValve[] => {
    const own = focus(programme, pocket);
    const valve = own.replacement;
    if (!valve || pocketHolds(state, pocket) !== "replacement") return [];
    const results = resultsAt(state, pocket);
    const mandrel = targetMandrel(own)?.number;
    const now = verdict?.mandrels.find((each) => each.mandrel === mandrel);
    return [
      {
        pocket,
        mandrel,
        valve,
        card: valve.card?.testRackOpening60F,
        cardRead: cardRead(state, pocket),
        needed: results?.value("test-rack-needed"),
        bench: results?.value("bench-mean"),
        wanted: isBellows(valve) ? own.job.design.openingAtMandrel : undefined,
        byDesign: results?.value("replacement-opening"),
        now,
        says: saysOf(valve, now, writer),
      },
    ];
  });
}

function cardRead({ programme, readings }: JobState, pocket: string): Reading | undefined {
  if (!programme) return undefined;
  return readings.findLast(({ field: id, setAside }) => {
    const field = fieldById(programme.sheet, id);
    if (field?.kind !== "quantity" || field.channel !== "card set pressure" || setAside) {
      return false;
    }
    return (pocketOfField(programme.sheet, id) ?? programme.job.mandrel) === pocket;
  });
}

function saysOf(valve: Valve, now: MandrelNow | undefined, writer: Writer): string {
  if (valve.kind === "dummy") return "A dummy: it lets nothing through, and no pressure opens it.";
  if (!now) return "No pressures were read after the return: whether it is open cannot be told.";
  const { state, passes, needs } = now;
  if (state.gate === "not known") return `Not known: needs ${needs.join("; ")}.`;
  if (valve.kind === "orifice") {
    return {
      yes: "An orifice: always open, and gas passes.",
      perhaps:
        "An orifice: always open. The two pressures are too close to say whether gas passes.",
      no: "An orifice: always open. Production stands at or above injection, and nothing passes.",
      "not known": `Not known: needs ${needs.join("; ")}.`,
    }[passes];
  }
  return `${gateInWords(now, writer)}${state.noDrop ? " Production stands at or above injection: nothing passes." : ""}`;
}

/** Open or shut, how far from the other, and whether that is more than the figures are good for. */
function gateInWords({ state, acting, opening, closing, doubt }: MandrelNow, writer: Writer) {
  if (acting === undefined || opening === undefined || closing === undefined) return "Not known.";
  const apart = (si: number) => writer.write("pressure difference", Math.abs(si));
  const good = (far: number) =>
    far > doubt
      ? `more than the ${apart(doubt)} that these figures are good for`
      : `less than the ${apart(doubt)} that these figures are good for: near the edge`;
  const shuts = Math.min(closing, opening);
  switch (state.gate) {
    case "shut":
      return `Shut: ${apart(opening - acting)} more would open it. It stands ${apart(shuts - acting)} below where it shuts, ${good(shuts - acting)}.`;
    case "open":
      return `Open: ${apart(acting - shuts)} less would shut it. It stands ${apart(acting - opening)} above where it opens, ${good(acting - opening)}.`;
    default:
      return `Open or shut as it was before: ${apart(acting - shuts)} less would shut it, ${apart(opening - acting)} more would open it.`;
  }
}

/** Card and bench in one line, in the units of whoever reads it; what a card says in others stands in brackets. */
export function settingInWords({ card, cardRead: read, bench }: SetValve, writer: Writer): string {
  const said = (of: Quantity<"pressure">) => {
    const converted = inReadersUnits("pressure", of, writer);
    return converted === undefined ? asEntered(of) : `${converted} (${asEntered(of)})`;
  };
  const parts = [
    ...(card ? [`card ${said(card)}`] : []),
    ...(read?.value.kind === "quantity"
      ? [`read on location ${said(read.value as Quantity<"pressure">)}`]
      : []),
    ...(bench === undefined ? [] : [`bench ${writer.write("pressure", bench)} at 60 °F`]),
  ];
  return parts.length > 0 ? parts.join(", ") : "no set pressure on record";
}
