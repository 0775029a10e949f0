import { asEntered } from "../display.ts";
import { type Places, placesOf, pocketInWords } from "../library/places.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel, Well } from "../records/well.ts";
import { plainSerial, plainWell } from "../serial.ts";
import type { Draft } from "./changes.ts";
import { constructions, injections, valveStates } from "./choices.ts";
import { plainWords } from "./field.ts";
import { byPlainName, type Reading } from "./reading.ts";
import { isSame, merged, type RowValues } from "./rowValues.ts";
import { EMPTY_POCKET, emptyWords, tableKind } from "./tableKinds.ts";
import { ValveDrafts } from "./valveDrafts.ts";

const { fields } = tableKind("wells");
const wellFields = fields.filter(({ of, id }) => of === "well" && id !== "well");
const mandrelFields = fields.filter(({ of, id }) => of === "mandrel" && id !== "pocketState");
const ofMandrel = new Set(fields.filter(({ of }) => of !== "well").map(({ id }) => id));
const ofValve = new Set(fields.filter(({ of }) => of === "valve").map(({ id }) => id));

/** Without numbers a mandrel is the one that stands here, m: a tally and a schematic differ by less. */
const SAME_DEPTH = 3;

/** A table of wells with their mandrels and the valves in these. */
export function wellDrafts(reading: Reading, rows: readonly RowValues[]): Draft[] {
  const valves = new ValveDrafts(reading);
  const known = byPlainName(reading.library.wells, (well) => well.name, plainWell);
  const wells: Draft<"wells">[] = [];
  for (const [key, ofWell] of byWell(reading, rows)) {
    const name = String(ofWell[0]?.values.get("well"));
    const numbers = numbersOfRows(ofWell);
    if (known.twice.has(key)) {
      reading.complain(
        numbers,
        "well",
        "is the name of two wells here already",
        "Rename one of them first.",
        name,
      );
      continue;
    }
    const before = known.found.get(key);
    const after = wellOf(reading, valves, before, name, ofWell);
    if (after) wells.push({ kind: "wells", before, after, rows: numbers });
  }
  const places = placesAfter(reading, wells);
  refuseTwoPockets(reading, places, valves);
  askOfTakenOut(reading, wells, places, valves);
  return [...wells, ...valves.drafts.values()];
}

/** Rows under the well they name. A row without a name is a problem, not the well above. */
export function byWell(reading: Reading, rows: readonly RowValues[]): Map<string, RowValues[]> {
  const wells = new Map<string, RowValues[]>();
  for (const row of rows) {
    const key = plainWell(String(row.values.get("well") ?? ""));
    if (key === "") {
      reading.complain(
        [row.row],
        "well",
        "no name of a well",
        "Write the name, or say that an empty cell means the well above.",
      );
      continue;
    }
    const of = wells.get(key);
    if (of) of.push(row);
    else wells.set(key, [row]);
  }
  return wells;
}

function wellOf(
  reading: Reading,
  valves: ValveDrafts,
  before: Well | undefined,
  name: string,
  rows: readonly RowValues[],
): Well | undefined {
  const said = agreed(reading, rows);
  const field = said.values.get("field");
  if (before && field !== undefined && plainSerial(String(field)) !== plainSerial(before.field)) {
    reading.complain(
      numbersOfRows(rows),
      "field",
      `is another field than that of ${before.name} here, which is in ${before.field}`,
      "If it is the same well, correct the field in the file or in the well's record. If it is another one, give it a name of its own.",
      String(field),
    );
    return undefined;
  }
  const start = before ?? newWell(reading, name, said);
  const mandrelRows = rows.filter(({ values }) =>
    [...values.keys()].some((id) => ofMandrel.has(id)),
  );
  const mandrels = mandrelsOf(reading, valves, before, mandrelRows);
  if (!start || !mandrels) return undefined;
  if (mandrels.length === 0) {
    reading.complain(
      numbersOfRows(rows),
      "depth",
      `${name} is new here, and no mandrel of it is in the table`,
      "A well's record needs at least one mandrel: add a row with its number and depth.",
    );
    return undefined;
  }
  const after = merged(start, wellFields, said);
  const depthsBefore = new Map(before?.mandrels.map((each) => [each.id, each.depthAlongHole]));
  // What stood in the record before is not the table's doing.
  if (mandrels.some(({ id, depthAlongHole }) => depthsBefore.get(id) !== depthAlongHole)) {
    refuseOtherCount(reading, name, mandrels, numbersOfRows(mandrelRows));
  }
  const isSameMandrels = mandrels.every((mandrel, index) => mandrel === before?.mandrels[index]);
  return isSameMandrels && mandrels.length === before?.mandrels.length
    ? after
    : { ...after, mandrels };
}

const numbersOfRows = (rows: readonly RowValues[]) => rows.map(({ row }) => row);

/** What the rows of one well say of the well: they have to say the same. */
function agreed(reading: Reading, rows: readonly RowValues[]): RowValues {
  const values = new Map<
    string,
    RowValues["values"] extends ReadonlyMap<string, infer V> ? V : never
  >();
  const saidIn = new Map<string, number>();
  const bad = new Set<string>();
  for (const { row, values: of, bad: badOf } of rows) {
    for (const id of badOf) bad.add(id);
    for (const field of wellFields) {
      const value = of.get(field.id);
      if (value === undefined) continue;
      const earlier = values.get(field.id);
      if (earlier === undefined) {
        values.set(field.id, value);
        saidIn.set(field.id, row);
      } else if (!isSame(field, earlier, value)) {
        reading.complain(
          [saidIn.get(field.id) ?? row, row],
          field.id,
          "two rows of one well say different things of the well",
          "Make them the same, or leave one of the cells empty.",
        );
      }
    }
  }
  return { row: rows[0]?.row ?? 0, values, bad };
}

/** What a well's record needs besides mandrels, from the table or said once for all new wells; nothing is made up. */
function newWell(reading: Reading, name: string, { values, bad }: RowValues): Well | undefined {
  const ask = (
    id: string,
    what: string,
    means: string,
    answer: Parameters<Reading["answer"]>[0]["answer"],
  ) => {
    if (values.has(id)) return "";
    if (bad.has(id)) return undefined;
    return reading.answer({ id, ask: `${what}, for wells that are new here`, means, answer });
  };
  const field = ask("field", "Field", "The field they are in.", { kind: "text" });
  const reference = ask(
    "reference",
    "Depths are counted from",
    "E.g. rotary table, ground level.",
    { kind: "text" },
  );
  const above = ask(
    "aboveZero",
    "That above the wellhead zero",
    "The same for all of them; wells where it differs need a column.",
    {
      kind: "quantity",
      units: ["ft", "m"],
    },
  );
  const injectionDown = ask(
    "injectionDown",
    "Injection down the annulus or the tubing",
    "The side the lift gas goes down.",
    {
      kind: "choice",
      options: injections.map(({ value }) => ({ value, label: value })),
    },
  );
  const path = reading.answer({
    id: "path",
    ask: "Path of wells that are new here, until their survey is brought in",
    means:
      "A table of mandrels does not tell it. Vertical depths are wrong for a deviated well until its survey is here.",
    answer: {
      kind: "choice",
      options: [{ value: "vertical", label: "take them as vertical until then" }],
    },
  });
  if (path === undefined || [field, reference, above, injectionDown].includes(undefined))
    return undefined;
  const offset = quantityOf(above ?? "");
  if (above !== "" && !offset) {
    reading.complain(
      [],
      undefined,
      `"${above}" above the wellhead zero is not a length`,
      "Answer with a number and its unit.",
    );
    return undefined;
  }
  return {
    id: reading.newId(),
    revision: 1,
    name,
    field: field ?? "",
    depthReference: { name: reference ?? "", aboveWellheadZero: offset as Quantity<"length"> },
    injectionDown: (injectionDown || "annulus") as Well["injectionDown"],
    path: { kind: "vertical" },
    tubing: [],
    restrictions: [],
    mandrels: [],
    temperatures: {},
    annulusLiquid: { state: "not known" },
    pressures: {},
  };
}

/** An answer such as `12.5 ft`. */
function quantityOf(answer: string): Quantity<"length"> | undefined {
  const [, number = "", unit] = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*(ft|m)\s*$/.exec(answer) ?? [];
  return number === ""
    ? undefined
    : { value: Number(number.replace(",", ".")), unit: unit as "ft" | "m" };
}

/** The well's mandrels with what the rows say; undefined where a row cannot stand as it is. */
function mandrelsOf(
  reading: Reading,
  valves: ValveDrafts,
  before: Well | undefined,
  rows: readonly RowValues[],
): Mandrel[] | undefined {
  const numbers = numbersOf(reading, before, rows);
  if (!numbers) return undefined;
  const mandrels = [...(before?.mandrels ?? [])];
  const rowOf = new Map<number, number>();
  let isWhole = true;
  rows.forEach((row, index) => {
    const number = numbers[index] as number;
    const earlier = rowOf.get(number);
    if (earlier !== undefined) {
      reading.complain(
        [earlier, row.row],
        "number",
        "is the same mandrel of the same well twice",
        "Correct one of the numbers, or leave out one of the rows.",
        String(number),
      );
      isWhole = false;
      return;
    }
    rowOf.set(number, row.row);
    const at = mandrels.findIndex((mandrel) => mandrel.number === number);
    if (!refuseOtherDepth(reading, before, mandrels[at], row)) isWhole = false;
    const mandrel = mandrelOf(reading, valves, mandrels[at], number, row);
    if (!mandrel) isWhole = false;
    else if (at < 0) mandrels.push(mandrel);
    else mandrels[at] = mandrel;
  });
  return isWhole ? inOrder(mandrels, before) : undefined;
}

/**
 * A list that counts its mandrels in another way, from the bottom or with one that is new, would give the records of
 * mandrels, and the jobs planned on them, to their neighbours.
 *
 * @returns whether the row may be the mandrel it says
 */
function refuseOtherDepth(
  reading: Reading,
  before: Well | undefined,
  own: Mandrel | undefined,
  { row, values }: RowValues,
): boolean {
  const depth = values.get("depth") as Quantity<"length"> | undefined;
  if (!before || depth === undefined) return true;
  const isAt = ({ depthAlongHole }: Mandrel) =>
    Math.abs(toSI("length", depthAlongHole) - toSI("length", depth)) <= SAME_DEPTH;
  if (own && isAt(own)) return true;
  const other = before.mandrels.find((each) => each !== own && isAt(each));
  if (!other) return true;
  reading.complain(
    [row],
    "number",
    `is another mandrel than ${before.name} has at this depth: there it is mandrel ${other.number}`,
    "Mandrels are counted from the top. Correct the number or the depth, or renumber the mandrels in the well's record first.",
    String(values.get("number")),
  );
  return false;
}

/** Mandrels are counted from the top: the next number stands deeper. */
function refuseOtherCount(
  reading: Reading,
  name: string,
  mandrels: readonly Mandrel[],
  rows: readonly number[],
): void {
  const byNumber = mandrels.toSorted((a, b) => a.number - b.number);
  const depthOf = ({ depthAlongHole }: Mandrel) => toSI("length", depthAlongHole);
  byNumber.forEach((mandrel, index) => {
    const above = byNumber[index - 1];
    if (!above || depthOf(mandrel) > depthOf(above)) return;
    reading.complain(
      rows,
      "number",
      `mandrel ${mandrel.number} of ${name} would stand at ${asEntered(mandrel.depthAlongHole)}, no deeper than mandrel ${above.number} at ${asEntered(above.depthAlongHole)}`,
      "Mandrels are counted from the top: correct the numbers or the depths.",
    );
  });
}

/** New mandrels among the others by their number; a well that gets none keeps its order. */
const inOrder = (mandrels: Mandrel[], before: Well | undefined) =>
  mandrels.length === before?.mandrels.length
    ? mandrels
    : mandrels.sort((a, b) => a.number - b.number);

/** The number of each row's mandrel: as the table has it, or by depth where it has none. */
function numbersOf(
  reading: Reading,
  before: Well | undefined,
  rows: readonly RowValues[],
): number[] | undefined {
  const given = rows.map(({ values }) => values.get("number") as number | undefined);
  if (given.every((number) => number !== undefined)) return given as number[];
  const lacking = rows.filter((_, index) => given[index] === undefined);
  if (
    lacking.length < rows.length ||
    reading.mapping.kind !== "wells" ||
    hasNumberColumn(reading)
  ) {
    for (const { row } of lacking) {
      reading.complain(
        [row],
        "number",
        "no number of the mandrel",
        "Write its number, counted from the top.",
      );
    }
    return undefined;
  }
  const depths = rows.map(({ values }) => values.get("depth") as Quantity<"length"> | undefined);
  const noDepth = rows.filter((_, index) => depths[index] === undefined);
  for (const { row } of noDepth) {
    reading.complain(
      [row],
      "depth",
      "neither a number of the mandrel nor its depth",
      "Write one of the two.",
    );
  }
  if (noDepth.length > 0) return undefined;
  const metres = depths.map((depth) => toSI("length", depth as Quantity<"length">));
  return before ? byDepthOf(reading, before, rows, metres) : countedDown(reading, metres);
}

const hasNumberColumn = ({ mapping }: Reading) =>
  Object.values(mapping.columns).some(({ field }) => field === "number");

function countedDown(reading: Reading, metres: readonly number[]): number[] | undefined {
  const said = reading.answer({
    id: "numbering",
    ask: "The table has no numbers of mandrels",
    means:
      "Mandrels are counted from the top. Only right where every mandrel of a new well is in the table.",
    answer: {
      kind: "choice",
      options: [{ value: "by depth", label: "number them by their depth, from the top" }],
    },
  });
  if (said === undefined) return undefined;
  const sorted = metres.toSorted((a, b) => a - b);
  // Two at one depth get one number, and are then refused as the same mandrel twice.
  return metres.map((depth) => sorted.indexOf(depth) + 1);
}

function byDepthOf(
  reading: Reading,
  before: Well,
  rows: readonly RowValues[],
  metres: readonly number[],
): number[] | undefined {
  const numbers = metres.map((depth, index) => {
    const near = before.mandrels.filter(
      ({ depthAlongHole }) => Math.abs(toSI("length", depthAlongHole) - depth) <= SAME_DEPTH,
    );
    if (near.length === 1) return near[0]?.number;
    reading.complain(
      [rows[index]?.row ?? 0],
      "depth",
      `${before.name} has ${near.length === 0 ? "no mandrel" : "more than one mandrel"} within ${SAME_DEPTH} m of this depth, and the table has no numbers`,
      "Add a column with the mandrels' numbers, counted from the top.",
    );
    return undefined;
  });
  return numbers.every((number) => number !== undefined) ? (numbers as number[]) : undefined;
}

function mandrelOf(
  reading: Reading,
  valves: ValveDrafts,
  before: Mandrel | undefined,
  number: number,
  row: RowValues,
): Mandrel | undefined {
  const start = before ?? newMandrel(reading, number, row);
  const held = pocketOf(reading, valves, before, row);
  if (!start || !held) return undefined;
  const after = merged(start, mandrelFields, row);
  if (held === "not said") return after;
  const isSamePocket =
    before && before.pocketState === held.pocketState && before.valve === held.valve;
  if (isSamePocket) return after;
  const { valve: _, ...rest } = after;
  return { ...rest, ...held };
}

function newMandrel(reading: Reading, number: number, row: RowValues): Mandrel | undefined {
  const depth = row.values.get("depth");
  if (depth === undefined) {
    reading.complain(
      [row.row],
      "depth",
      "a mandrel that is new here has no depth",
      "Write its depth along hole.",
    );
  }
  if (row.bad.has("construction")) return undefined;
  const construction =
    row.values.get("construction") ??
    reading.answer({
      id: "construction",
      ask: "Construction of mandrels that are new here, where the table does not say",
      means: "Wireline can serve side-pocket mandrels only.",
      answer: {
        kind: "choice",
        options: constructions.map(({ value }) => ({ value, label: value })),
      },
    });
  if (depth === undefined || construction === undefined) return undefined;
  return {
    id: reading.newId(),
    number,
    depthAlongHole: depth as Quantity<"length">,
    construction: construction as Mandrel["construction"],
    pocket: "not known",
    orientingSleeve: "not known",
    pocketState: "not known",
  };
}

type Pocket = Pick<Mandrel, "pocketState" | "valve">;

const isEmptyWord = (value: unknown) => emptyWords.includes(plainWords(String(value ?? "")));

/** What a row says of the pocket; undefined where the row cannot stand as it is. */
function pocketOf(
  reading: Reading,
  valves: ValveDrafts,
  before: Mandrel | undefined,
  row: RowValues,
): Pocket | "not said" | undefined {
  const { values, bad } = row;
  if (["serial", "pocketState", "valveKind"].some((id) => bad.has(id))) return undefined;
  const state = values.get("pocketState") as Mandrel["pocketState"] | undefined;
  const name = values.get("serial");
  const hasSerial = name !== undefined && !isEmptyWord(name);
  const isEmpty = isEmptyWord(name) || values.get("valveKind") === EMPTY_POCKET;
  const inPocket = [...values.keys()].filter((id) => ofValve.has(id));
  if (hasSerial && (isEmpty || (state !== undefined && state !== "holds a valve"))) {
    reading.complain(
      [row.row],
      isEmpty ? "valveKind" : "pocketState",
      `says ${isEmpty ? "empty" : state}, and the row gives valve ${name}`,
      "Clear one of the two.",
    );
    return undefined;
  }
  if (isEmpty && state === "holds a valve") {
    reading.complain(
      [row.row],
      "pocketState",
      "says that it holds a valve, and the row says empty",
      "Clear one of the two.",
    );
    return undefined;
  }
  if (hasSerial) {
    const draft = valves.take(row, false);
    if (!draft) return undefined;
    if (draft.before?.state === "scrapped") {
      reading.complain(
        [row.row],
        "serial",
        "is scrapped by its record",
        "Correct the serial, or the valve's record.",
        String(name),
      );
      return undefined;
    }
    if (draft.before?.state === "pulled") {
      // It is in a pocket again: where it was before is no longer so.
      const { state: _, ...after } = draft.after;
      valves.drafts.set(after.id, { ...draft, after });
    }
    return { pocketState: "holds a valve", valve: draft.after.id };
  }
  if (isEmpty || state === "empty") return { pocketState: "empty" };
  if (inPocket.length > 0) return withoutSerial(reading, before, row);
  if (state === "not known") return { pocketState: "not known" };
  if (state === "holds a valve" && before?.pocketState !== "holds a valve")
    return { pocketState: state };
  return "not said";
}

/** Figures of a valve that nobody can tell from another: it has no serial. */
function withoutSerial(
  reading: Reading,
  before: Mandrel | undefined,
  row: RowValues,
): Pocket | "not said" | undefined {
  const said = reading.answer({
    id: "noSerial",
    ask: "Some rows tell of a valve and give no serial",
    means:
      "A valve's record is found by its serial. Give serials in the file, or leave these valves out: their pockets then hold a valve that is not known.",
    answer: { kind: "choice", options: [{ value: "leave out", label: "leave these valves out" }] },
  });
  if (said !== undefined)
    return before?.pocketState === "holds a valve" ? "not said" : { pocketState: "holds a valve" };
  reading.complain(
    [row.row],
    "serial",
    "a valve without a serial",
    "Write its serial, or leave such valves out (asked above).",
  );
  return undefined;
}

/** The pockets of every valve as the table leaves them: wells that it does not speak of count as well. */
function placesAfter(reading: Reading, wells: readonly Draft<"wells">[]): Places {
  const changed = new Map(wells.map(({ after }) => [after.id, after]));
  const here = reading.library.wells.filter(({ id }) => !changed.has(id));
  return placesOf([...here, ...changed.values()]);
}

/** A valve is in one pocket. */
function refuseTwoPockets(reading: Reading, places: Places, valves: ValveDrafts): void {
  for (const { after, rows } of valves.drafts.values()) {
    const of = places.get(after.id) ?? [];
    if (of.length < 2) continue;
    const named = of.map(({ wellName, number }) => pocketInWords(wellName, number));
    reading.complain(
      rows,
      "serial",
      `would be in two pockets: ${named.join(" and ")}`,
      "Say in the table what the other pocket holds now (or that it is empty), or correct the serial.",
      after.serial,
    );
  }
}

/** Serials that are named in a question; of more than these their number is told. */
const MOST_NAMED = 6;

/**
 * A valve that the table takes out of its pocket would count as in stock, which nobody has said of it, and be proposed
 * for the next job.
 */
function askOfTakenOut(
  reading: Reading,
  wells: readonly Draft<"wells">[],
  places: Places,
  valves: ValveDrafts,
): void {
  const records = new Map(reading.library.valves.map((valve) => [valve.id, valve]));
  const out = wells.flatMap(({ before, rows }) =>
    (before?.mandrels ?? []).flatMap(({ valve: id = "" }) => {
      const valve = places.has(id) ? undefined : records.get(id);
      const isSaid = valve?.state === "pulled" || valve?.state === "scrapped";
      return valve && !isSaid ? [{ valve, rows }] : [];
    }),
  );
  if (out.length === 0) return;
  const named = out.slice(0, MOST_NAMED).map(({ valve }) => valve.serial);
  const more = out.length > MOST_NAMED ? ` and ${out.length - MOST_NAMED} more` : "";
  const state = reading.answer({
    id: "takenOut",
    ask: `The table takes ${named.join(", ")}${more} out of ${out.length === 1 ? "its pocket" : "their pockets"}: where now?`,
    means:
      "What is in stock is proposed for the next job. A valve that came out of a well is pulled until the shop has seen it.",
    answer: {
      kind: "choice",
      options: valveStates.map(({ value }) => ({ value, label: value })),
    },
  });
  if (state === undefined) return;
  for (const { valve, rows } of out) {
    const { state: before = "in stock" } = valve;
    if (before === state) continue;
    const after = { ...valve, state: state as Valve["state"] };
    valves.drafts.set(valve.id, { kind: "valves", before: valve, after, rows });
  }
}
