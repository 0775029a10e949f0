import type { Writer } from "../display.ts";
import { surfaceGauges } from "../programme.ts";
import { toSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import { asPlanned, type Scenario } from "../results/context.ts";
import { wholeWellOf } from "../results/mandrelResults.ts";
import { mandrelStates } from "../results/wholeWell.ts";
import type { JobState } from "../state/jobState.ts";
import type { Asked, Check, Says } from "./check.ts";
import { doubtsInWords } from "./doubts.ts";
import { entryCheck } from "./entryCheck.ts";
import { gasCheck, gasOfAll } from "./gasCheck.ts";
import { type LiftRead, liftRead } from "./liftRead.ts";
import { type MandrelNow, mandrelsNow, WellAtWork } from "./mandrelNow.ts";
import { pressureCheck } from "./pressureCheck.ts";
import { cardsRead, wellAsLeft } from "./wellAsLeft.ts";

/** What was read after the return to injection, held against what the well as left should do at those pressures. */
export interface Verdict {
  readonly says: Says;
  /** so close to what the figures are good for that it may turn: one that fits, or all that do not */
  readonly nearEdge: boolean;
  /** the discrepancy, or why it cannot be told, or what fits, in a sentence or two with the figures */
  readonly words: string;
  /** what it goes by; undefined: nothing was read */
  readonly read: LiftRead | undefined;
  readonly checks: readonly Check[];
  /** from the top down */
  readonly mandrels: readonly MandrelNow[];
  /** number of the mandrel at which the well is to work */
  readonly operating: number | undefined;
  /** what the open valves pass, standard m3/s; `most` undefined where it is not known of one */
  readonly gas: { readonly least: number; readonly most: number | undefined } | undefined;
  /** what is missing to tell more */
  readonly needs: readonly string[];
  /** how well its figures are taken to be known, a sentence each */
  readonly doubts: readonly string[];
  /** at the pressures read, with the figures of every mandrel for their working */
  readonly well: WellAtWork | undefined;
}

const NOT_SETTLED =
  "Read when the crew left: a well that was just returned to injection may not have settled.";

/** The verdict of a job's numbers; undefined before a programme was issued. */
export function verdictOf(state: JobState, writer: Writer): Verdict | undefined {
  const programme = wellAsLeft(state);
  return programme && judge(programme, liftRead(state), writer, cardsRead(state));
}

/**
 * Holds pressures and rate against the well as its programme has it.
 *
 * @param programme with the well as left, every valve that sits in it among the installed ones
 * @param cards by whom and when those of them were read on location whose figures are not the record's
 */
export function judge(
  programme: Programme,
  read: LiftRead | undefined,
  writer: Writer,
  cards?: Scenario["cards"],
): Verdict {
  const nothing = {
    says: "cannot be told" as const,
    nearEdge: false,
    read,
    checks: [],
    mandrels: [],
    operating: undefined,
    gas: undefined,
    doubts: [],
    well: undefined,
  };
  if (!programme.well) {
    return { ...nothing, words: "The well has no record.", needs: ["the well's record"] };
  }
  if (!read) {
    return {
      ...nothing,
      words: "No pressures were read after the return to injection.",
      needs: ["injection pressure and wellhead pressure on lift"],
    };
  }
  const well = new WellAtWork(programme, read, cards);
  const mandrels = mandrelsNow(well);
  const planned = mandrelStates(wholeWellOf(programme, asPlanned));
  // Where gas passes, or may pass, in the well as left on lift as it is meant to run.
  const meant = planned.flatMap(({ mayPass, mandrel }) => (mayPass ? [mandrel.number] : []));
  const meantNeeds = meant.length > 0 ? [] : [...new Set(planned.flatMap(({ needs }) => needs))];
  const deepest = Math.max(...meant);
  const operating = mandrels.find(({ mandrel }) => mandrel === deepest);
  const rate = read.injectionRate && toSI("gas rate", read.injectionRate);
  const asked: Asked = {
    well,
    mandrels,
    meant,
    meantNeeds,
    operating,
    rate,
    writer,
  };
  const checks = [entryCheck(asked), pressureCheck(asked), gasCheck(asked)];
  const says = worst(checks);
  return {
    says,
    nearEdge: isNearEdge(says, checks),
    words: inWords(says, checks),
    read,
    checks,
    mandrels,
    operating: operating?.mandrel,
    gas: gasOfAll(mandrels),
    needs: [...new Set(checks.flatMap(({ needs }) => needs))],
    doubts: [
      ...(read.from === "run sheet" ? [NOT_SETTLED] : []),
      ...doubtsInWords(well.injectionDoubt, well.wellheadDoubt, surfaceGauges(programme), writer),
    ],
    well,
  };
}

function worst(checks: readonly Check[]): Says {
  const some = (says: Says) => checks.some((each) => each.says === says);
  if (some("not consistent")) return "not consistent";
  return some("cannot be told") ? "cannot be told" : "consistent";
}

function isNearEdge(says: Says, checks: readonly Check[]): boolean {
  const deciding = checks.filter((each) => each.says === says);
  switch (says) {
    case "consistent":
      return deciding.some(({ nearEdge }) => nearEdge);
    case "not consistent":
      return deciding.every(({ nearEdge }) => nearEdge);
    case "cannot be told":
      return false;
  }
}

/** What is wrong first; then what cannot be told; what fits last. */
function inWords(says: Says, checks: readonly Check[]): string {
  const deciding = checks.filter((each) => each.says === says);
  if (says !== "cannot be told") return deciding.map(({ words }) => words).join(" ");
  const fits = checks.filter((each) => each.says === "consistent");
  return [...deciding, ...fits].map(({ words }) => words).join(" ");
}
