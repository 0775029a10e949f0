import { atMost } from "../checks/compare.ts";
import { bandOf } from "../commands/doubts.ts";
import type { Writer } from "../display.ts";
import { focus } from "../pockets.ts";
import type { Dimension } from "../quantity.ts";
import { lineReadings } from "../results/lineReadings.ts";
import { type Results, resultsFor } from "../results/results.ts";
import type { ResultId } from "../results/traced.ts";
import { fieldById, itemId, pocketOfField } from "../sheet/walk.ts";
import { resultsAt } from "../state/conditions.ts";
import type { JobState, Reading } from "../state/jobState.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { atEachEvent, readingKey } from "./moments.ts";

/** Readings beside what the programme expected, and beside what is expected with what was measured by then. */

/** Where a reading lies: within or beyond the policy's band, over its limit, or nothing to hold it against. */
export type Standing = "over limit" | "outside" | "inside" | "no band" | "not known";

/** A reading beside what the calculations said it should be at that moment. Figures in SI. */
export interface Comparison {
  /** names the line for good: it holds the event's hash */
  readonly anchor: string;
  readonly reading: Reading;
  readonly label: string;
  /** title of the phase it was read in; of what went otherwise than planned none */
  readonly phase: string | undefined;
  readonly dimension: Dimension;
  readonly actual: number;
  /** by the programme's figures alone */
  readonly planned: number | undefined;
  /** with what had been measured by then */
  readonly expected: number | undefined;
  /** planned and expected differ in the digits as written */
  readonly recomputed: boolean;
  /** how far from what is expected is usual, either way */
  readonly band: number | undefined;
  readonly most: number | undefined;
  readonly exceedsMost: boolean;
  readonly standing: Standing;
  /** beyond the band, or over the limit; 0 where it is neither */
  readonly outBy: number;
  /** whose working shows what is expected; none where it is read off the line's chart */
  readonly working: ResultId | undefined;
  /** whose working shows the limit */
  readonly limit: ResultId | undefined;
  /** the numbers of that moment */
  readonly results: Results;
  /** what the calculation lacked, where it says nothing */
  readonly needs: readonly string[];
}

/** The review and the close-out both ask it of one state, and each moment of a long log is worked out for it. */
const compared = new WeakMap<
  JobState,
  { readonly writer: Writer; readonly rows: readonly Comparison[] }
>();

/** Every reading that is a quantity, in log order, each with the results of its own moment. */
export function compare(state: JobState, writer: Writer): readonly Comparison[] {
  const known = compared.get(state);
  if (known?.writer === writer) return known.rows;
  const rows = compareAnew(state, writer);
  compared.set(state, { writer, rows });
  return rows;
}

function compareAnew(state: JobState, writer: Writer): Comparison[] {
  const { programme, issued } = state;
  if (!programme || !issued) return [];
  const { sheet } = programme;
  const phases = new Map(
    sheet.phases.flatMap(({ title, items }) => items.map((item) => [itemId(item), title] as const)),
  );
  const final = new Map(state.readings.map((reading) => [readingKey(reading), reading]));
  const rows: Comparison[] = [];
  atEachEvent(state, (event, then) => {
    if (event.body.type !== "readings taken") return;
    const stood = then();
    for (const { field: id } of event.body.entries) {
      const field = fieldById(sheet, id);
      const pocket = pocketOfField(sheet, id);
      const results = resultsAt(stood, pocket);
      const reading = final.get(readingKey({ event, field: id }));
      const actual = quantitySI(reading, writer.atmosphere);
      if (field?.kind !== "quantity" || !reading || actual === undefined || !results) continue;
      const { dimension } = field;
      const alone = resultsFor(issued.hash, focus(programme, pocket), {});
      const byChart = field.expected
        ? undefined
        : {
            expected: pullThere(stood, results, id),
            planned: pullThere(stood, alone, id),
          };
      const { expected, planned } = byChart ?? {
        expected: field.expected && results.value(field.expected),
        planned: field.expected && alone.value(onPaper[field.expected] ?? field.expected),
      };
      const most = field.most && results.value(field.most);
      const bandKind = field.band ?? (byChart?.expected === undefined ? undefined : "pull");
      const band = bandKind && bandOf(programme.policy, bandKind);
      const asked = field.expected ?? field.most;
      const outcome = asked && results.get(asked)?.outcome;
      const written = (si: number | undefined) => si !== undefined && writer.write(dimension, si);
      rows.push({
        anchor: `reading-${event.hash.slice(0, 16)}-${id}`,
        reading,
        label: field.label,
        phase: phases.get(reading.step),
        dimension,
        actual,
        planned,
        expected,
        recomputed: expected !== undefined && written(planned) !== written(expected),
        band,
        most,
        ...standingOf(actual, expected, band, most),
        working: field.expected,
        limit: field.most,
        results,
        needs: outcome?.state === "missing" ? outcome.needs : [],
      });
    }
  });
  return rows;
}

/** Before a known point was tagged nothing corrects the counter: the schematic's depth is what the programme has. */
export const onPaper: Partial<Readonly<Record<ResultId, ResultId>>> = {
  "counter-at-mandrel": "target-depth",
  "counter-above": "mandrel-above",
  "counter-below": "mandrel-below",
};

function standingOf(
  actual: number,
  expected: number | undefined,
  band: number | undefined,
  most: number | undefined,
): Pick<Comparison, "standing" | "outBy" | "exceedsMost"> {
  if (most !== undefined && !atMost(actual, most)) {
    return { standing: "over limit", outBy: actual - most, exceedsMost: true };
  }
  const found = (standing: Standing, outBy = 0) => ({ standing, outBy, exceedsMost: false });
  if (expected === undefined) return found(most === undefined ? "not known" : "inside");
  if (band === undefined) return found("no band");
  const away = Math.abs(actual - expected);
  return atMost(away, band) ? found("inside") : found("outside", away - band);
}

/** Of a line pull that the sheet expects nothing of by itself: what the line's chart says at that depth. */
function pullThere(state: JobState, results: Results, field: string): number | undefined {
  return lineReadings(state, results, [field])[0]?.expected;
}

/** Whether the plan says anything of a reading. */
const isPlanned = ({ expected, working, limit }: Comparison) =>
  expected !== undefined || working !== undefined || limit !== undefined;

export interface PlanAgainstActual {
  /** beyond a limit or a band, worst first */
  readonly out: readonly Comparison[];
  /** the rest, by the phase they were read in, in log order */
  readonly phases: readonly { readonly title: string; readonly rows: readonly Comparison[] }[];
  /** how many readings the plan says something of */
  readonly count: number;
  /** "3 of 24 readings outside their band, 1 over its limit." */
  readonly says: string;
}

/** What lies outside on top, worst first; the rest by phase. */
export function planAgainstActual(comparisons: readonly Comparison[]): PlanAgainstActual {
  const planned = comparisons.filter(isPlanned);
  const out = planned.filter(isOut).sort((one, other) => badness(other) - badness(one));
  const rest = planned.filter((each) => !isOut(each));
  const titles = [...new Set(rest.map(phaseTitle))];
  return {
    out,
    phases: titles.map((title) => ({
      title,
      rows: rest.filter((each) => phaseTitle(each) === title),
    })),
    count: planned.length,
    says: summary(planned),
  };
}

const isOut = ({ standing }: Comparison) => standing === "over limit" || standing === "outside";
const phaseTitle = ({ phase }: Comparison) => phase ?? "Noted while something was dealt with";

/** Over a limit weighs more than any distance from what was expected; then by how many times the band or limit. */
function badness({ standing, outBy, band, most }: Comparison): number {
  if (standing === "over limit") return 1e6 + outBy / Math.max(Math.abs(most ?? 0), 1e-9);
  return outBy / Math.max(band ?? 0, 1e-9);
}

function summary(planned: readonly Comparison[]): string {
  const count = (standing: Standing) => planned.filter((each) => each.standing === standing).length;
  const of = `of ${planned.length} ${planned.length === 1 ? "reading" : "readings"}`;
  const [outside, over, unknown] = [count("outside"), count("over limit"), count("not known")];
  const its = (number: number) => (number === 1 ? "its" : "their");
  const parts = [
    ...(outside > 0 ? [`${outside} ${of} outside ${its(outside)} band`] : []),
    ...(over > 0 ? [`${over}${outside > 0 ? "" : ` ${of}`} over ${its(over)} limit`] : []),
    ...(unknown > 0 ? [`${unknown} with nothing worked out to hold against`] : []),
  ];
  if (planned.length === 0) return "No reading that the plan says anything of.";
  if (outside + over === 0) {
    const none = `None ${of} outside its band or over its limit`;
    return `${[none, ...parts].join("; ")}.`;
  }
  return `${parts.join("; ")}.`;
}

/** A difference of two figures: of two gauge pressures it is no gauge pressure. */
export const differenceOf = (dimension: Dimension): Dimension =>
  dimension === "pressure" ? "pressure difference" : dimension;

/** Where a reading lies, in words. */
export function standingInWords(row: Comparison, writer: Writer): string {
  const apart = (si: number) => writer.write(differenceOf(row.dimension), Math.abs(si));
  switch (row.standing) {
    case "over limit":
      return `over the limit by ${apart(row.outBy)}`;
    case "outside":
      return `outside by ${apart(row.outBy)}, on the ${row.actual > (row.expected ?? 0) ? "high" : "low"} side`;
    case "inside":
      return row.expected === undefined || row.band === undefined ? "within the limit" : "inside";
    case "no band":
      return "no band in the policy";
    case "not known":
      return row.needs.length > 0
        ? `not worked out: needs ${row.needs.join("; ")}`
        : "nothing worked out to hold it against";
  }
}
