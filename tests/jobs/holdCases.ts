import type { Typed } from "../../src/jobs/commands/entry.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import type { Condition, HoldPoint, Sheet } from "../../src/jobs/sheet/sheet.ts";
import { fieldById, holdPointsOf, stepsOf } from "../../src/jobs/sheet/walk.ts";

/** What breaks a condition of a hold point, and what is then said of it. */
export type Broken =
  /** one reading, taken again in the step that takes it */
  | { readonly by: "reading"; readonly step: string; readonly typed: Fields; readonly says: RegExp }
  /** the programme, as it was issued */
  | { readonly by: "programme"; readonly programme: Change; readonly says: RegExp }
  /** nothing but the time that passes, in minutes */
  | { readonly by: "time"; readonly minutes: number; readonly says: RegExp }
  /** what it asks for was not entered or signed yet */
  | { readonly by: "nothing"; readonly says: RegExp };
type Fields = Readonly<Record<string, Typed>>;
type Change = (programme: Programme) => Programme;

export interface HoldCase {
  readonly hold: HoldPoint;
  readonly condition: Condition;
  readonly broken: Broken;
}

/** A check's case: the reading that breaks it, or another way. */
type OfCheck = { readonly typed: Fields; readonly says: RegExp } | Broken;

const at = (text: string, unit?: string): Typed => ({ text, ...(unit !== undefined && { unit }) });
const read = (field: string, text: string, unit: string | undefined, says: RegExp): OfCheck => ({
  typed: { [field]: at(text, unit) },
  says,
});
const issued = (programme: Change, says: RegExp): OfCheck => ({ by: "programme", programme, says });

const withWell =
  (of: (well: NonNullable<Programme["well"]>) => object): Change =>
  (programme) => {
    const { well } = programme;
    return well ? { ...programme, well: { ...well, ...of(well) } } : programme;
  };
const withStack =
  (of: (stack: NonNullable<Programme["stack"]>) => object): Change =>
  (programme) => {
    const { stack } = programme;
    return stack ? { ...programme, stack: { ...stack, ...of(stack) } } : programme;
  };
const nipple = (bore: number) =>
  withWell(({ restrictions }) => ({
    restrictions: [
      ...restrictions,
      {
        name: "nipple",
        kind: "nipple",
        depthAlongHole: { value: 900, unit: "ft" },
        bore: { value: bore, unit: "in" },
      },
    ],
  }));
const shortTurns = (name: string) =>
  read(`${name}-turns`, "11", undefined, /3 of 14 turns are missing/);

/**
 * How the hold points of every sheet are broken on the ready job's well, for every condition that stands on a
 * calculation or comparison. Answers and limits in the sheet itself need no row: what breaks them is in the sheet.
 */
const ofChecks: Readonly<Record<string, OfCheck>> = {
  "safety-valves-ok": read(
    "safety-valves-held",
    "none",
    undefined,
    /well's record has a safety valve at 310 ft/,
  ),
  "first-full-turns": shortTurns("first"),
  "second-full-turns": shortTurns("second"),
  "third-full-turns": shortTurns("third"),
  "fourth-full-turns": shortTurns("fourth"),
  "fifth-full-turns": shortTurns("fifth"),
  "catcher-full-turns": shortTurns("catcher"),
  "fetch-full-turns": shortTurns("fetch"),
  "caught-full-turns": shortTurns("caught"),
  "wire-valves-there": issued(
    withStack(({ items }) => ({ items: items.filter((item) => item.kind !== "wire valves") })),
    /No wire valves in the stack/,
  ),
  rating: issued(
    withStack(({ items }) => ({
      items: items.map((item) => ({ ...item, rating: { value: 1000, unit: "psig" } })),
    })),
    /lowest rating in the stack is 1000 psig, below the test pressure of 1210 psig/,
  ),
  lubricator: issued(
    withStack(({ items }) => ({
      items: items.map((item) =>
        item.kind === "lubricator section"
          ? { ...item, usableLength: { value: 4, unit: "ft" } }
          : item,
      ),
    })),
    /lubricator is \d+\.\d+ ft short/,
  ),
  low: read("low-held", "1", "min", /held 1 min; hold 5 min/),
  high: read("high-end", "1340", "psig", /fell 4\.3 percent/),
  "push-out-ok": read("let-in-wellhead", "6400", "psig", /Push-out is not beaten: 59 lbf/),
  "bore-ok": issued(nipple(2.1), /largest tool is 0\.\d+ in too large for the narrowest bore/),
  "open-full": read("open-turns", "9", undefined, /Not fully open: 9 of 14 turns/),
  "tested-ok": read("let-in-casing", "1450", "psig", /Casing stands at 1450 psig/),
  "pull-union-covers": read(
    "pull-union-pressure",
    "900",
    "psig",
    /tested to 900 psig; the well can put \d+ psig on it\. Test it/,
  ),
  "set-union-covers": read(
    "set-union-pressure",
    "5200",
    "psig",
    /5200 psig, above the lowest rating of \d+ psig/,
  ),
  "friction-push-out": read("pull-out", "700", "lbf", /Push-out is not beaten: \d+ lbf/),
  "zero-witnessed": read("zero-seen", "R. Tamsin", undefined, /R\. Tamsin cannot witness/),
  "gauge-passes": read("gauge-diameter", "2.2", "in", /gauge of 2\.20* in is smaller/),
  "counter-ok": read("known-counter", "6362", "ft", /22\.0 ft deep; at most 10\.0 ft/),
  kickover: issued(
    withWell(({ mandrels }) => ({
      mandrels: mandrels.map((each) => ({
        ...each,
        orientingSleeve: each.orientingSleeve === "yes" ? "no" : "yes",
      })),
    })),
    /Mandrel 3 has (an|no) orienting sleeve/,
  ),
  "pull-push-out": read("pull-out", "700", "lbf", /Push-out is not beaten: \d+ lbf/),
  "pull-tested": read("level-first-casing", "1450", "psig", /Casing stands at 1450 psig/),
  "pull-level": read("level-first-casing", "890", "psig", /Annulus is \d+ psi above tubing/),
  "level-time-agreed": read("level-time", "5", "min", /5 min is shorter than the policy's 15 min/),
  "level-now": read("level-last-casing", "560", "psig", /Annulus is \d+ psi below tubing/),
  "level-steady": read("level-last-casing", "792", "psig", /at that rate it leaves the band/),
  "level-fresh": { by: "time", minutes: 31, says: /31 min old; at most 30 min/ },
  "pocket-ok": read("pocket-depth", "4405", "ft", /22\.0 ft|is nearer/),
  "neighbours-ok": read("tagged-below", "5316", "ft", /23\.0 ft deep of the schematic's 5290 ft/),
  "old-serial": read("pulled-serial", "EM-0714", undefined, /EM-0714 came out/),
  "serial-ok": read("new-serial", "EM-2037", undefined, /EM-2037; the programme says EM-2041/),
  "set-ok": read("new-card", "911", "psig", /39 psi below the 950 psig/),
  "pins-ok": read("pin-count", "3", undefined, /3 in the tool, the programme says 2/),
  "pins-witnessed": read("pin-witness", "R. Tamsin", undefined, /R\. Tamsin cannot witness/),
  "set-push-out": read("pull-out", "700", "lbf", /Push-out is not beaten: \d+ lbf/),
  "set-tested": read("pocket-open-casing", "1450", "psig", /Casing stands at 1450 psig/),
  "set-level": read("pocket-open-casing", "900", "psig", /Annulus is \d+ psi above tubing/),
  "same-pocket": read("set-depth", "4391", "ft", /8\.0 ft deep/),
  "pulled-over": read("test-pull-force", "5", "lbf", /Pulled to 5 lbf; picking up took 300 lbf/),
  "catcher-below": read("catcher-depth", "5900", "ft", /no nipple within 10\.0 ft/),
  "catcher-time-agreed": read("catcher-time", "5", "min", /5 min is shorter than .* 15 min/),
  "fetch-tested": read("catcher-level-casing", "1450", "psig", /Casing stands at 1450 psig/),
  "pocket-empty": read("block-shows", "neck", undefined, /mandrel 3: the print does not show/),
  "set-steady": read("pocket-open-casing", "900", "psig", /Watched within the band for 0 min/),
  "holds-back": read("proof-back-end-casing", "460", "psig", /casing gauge moved by 60 psi/),
  "both-ways": {
    typed: {
      "proof-back-start-casing": at("701", "psig"),
      "proof-back-start-wellhead": at("53", "psig"),
    },
    says: /both the same way round/,
  },
  holds: read("proof-end-casing", "640", "psig", /casing gauge moved by 62 psi/),
};

const escaped = (text: string) => new RegExp(text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));

/** The reading that a row or the sheet gives, in the step that takes it. */
function reading(sheet: Sheet, typed: Fields, says: RegExp): Broken {
  const [field] = Object.keys(typed);
  const step = stepsOf(sheet).find(({ fields }) => fields.some(({ id }) => id === field));
  if (!step) throw new Error(`no step takes "${field}"`);
  return { by: "reading", step: step.id, typed, says };
}

/** What breaks a condition: out of the sheet itself, or out of the table above; undefined where neither says. */
function brokenBy(sheet: Sheet, condition: Condition): Broken | undefined {
  switch (condition.kind) {
    case "answer": {
      const field = fieldById(sheet, condition.field);
      const bad =
        field?.kind === "choice" &&
        field.choices.find(({ value }) => !condition.oneOf.includes(value));
      if (!bad) return undefined;
      return reading(sheet, { [condition.field]: at(bad.value) }, escaped(condition.otherwise));
    }
    case "within": {
      const above = String(condition.most + 12);
      const says = new RegExp(`${above} ${condition.unit} was read`);
      return reading(sheet, { [condition.field]: at(above, condition.unit) }, says);
    }
    case "reading":
      return { by: "nothing", says: /Not entered yet/ };
    case "signature":
      return { by: "nothing", says: escaped(`The ${condition.role} has not signed yet`) };
    case "check": {
      const row = ofChecks[condition.id];
      if (!row) return undefined;
      return "by" in row ? row : reading(sheet, row.typed, row.says);
    }
  }
}

/** What breaks the conditions of a hold point, as far as anybody says. */
export function holdCases(sheet: Sheet, hold: HoldPoint): HoldCase[] {
  return hold.conditions.flatMap((condition) => {
    const broken = brokenBy(sheet, condition);
    return broken ? [{ hold, condition, broken }] : [];
  });
}

/** Conditions of sheets that nothing here breaks, and rows here that break none: both are mistakes of the table. */
export function unmatched(sheets: readonly Sheet[]): string[] {
  const asked = sheets.flatMap((sheet) =>
    holdPointsOf(sheet).flatMap(({ conditions }) =>
      conditions.map((condition) => ({ id: condition.id, broken: brokenBy(sheet, condition) })),
    ),
  );
  const without = asked.filter(({ broken }) => !broken).map(({ id }) => id);
  const ids = new Set(asked.map(({ id }) => id));
  return [...without, ...Object.keys(ofChecks).filter((id) => !ids.has(id))];
}
