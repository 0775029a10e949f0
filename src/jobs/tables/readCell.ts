import { unitLabel } from "../display.ts";
import { impossible, type Quantity } from "../quantity.ts";
import { type Cell, cellText, dayOf, faultOf, hasUnprinted } from "./cell.ts";
import { countedDay, type DayOrder, dayIn } from "./days.ts";
import { type Field, plainWords } from "./field.ts";
import { type Decimals, fraction, numberIn, written } from "./numbers.ts";
import { unitIn } from "./unitWords.ts";

/** What a cell holds, once understood. */
export type Value = string | number | Quantity;

export type CellRead =
  | { readonly is: "blank" }
  | { readonly is: "value"; readonly value: Value }
  | { readonly is: "bad"; readonly what: string; readonly mend: string };

export interface Ways {
  readonly unit: string | undefined;
  readonly decimals: Decimals;
  readonly days: DayOrder | undefined;
}

const blank: CellRead = { is: "blank" };
const value = (read: Value): CellRead => ({ is: "value", value: read });
const bad = (what: string, mend: string): CellRead => ({ is: "bad", what, mend });

/** What lists write where there is nothing to write. */
const NOTHING = /^([-–—]+|n\/?a|n\.a\.)$/i;

/** Understands one cell as a field, or says what is wrong with it and how to mend it. */
export function readCell(field: Field, ways: Ways, cell: Cell | undefined): CellRead {
  const text = cellText(cell);
  if (text === "" || cell === null || cell === undefined) return blank;
  const fault = faultOf(cell);
  if (fault !== undefined) {
    return bad("is a formula that failed", "Mend the formula in the file, or clear the cell.");
  }
  if (field.kind === "choice") return readChoice(field.choices, text, typeof cell === "number");
  if (NOTHING.test(text)) return blank;
  switch (field.kind) {
    case "text":
      return readText(cell, text, 400);
    case "long text":
      return readText(cell, text, 4000);
    case "day":
      return readDay(cell, text, ways.days);
    case "count":
      return readCount(cell, text, ways.decimals);
    case "quantity":
      return readQuantity(field, ways, cell, text);
  }
}

function readText(cell: Cell, text: string, most: number): CellRead {
  if (dayOf(cell)) {
    return bad(
      "is a date where words are expected",
      "The spreadsheet may have made a date of it: write it as text.",
    );
  }
  if (hasUnprinted(text)) {
    return bad("has characters that do not print", "Type the words again in the file.");
  }
  return text.length > most
    ? bad(`has ${text.length} characters; at most ${most} are kept`, "Shorten it.")
    : value(text);
}

function readChoice(
  choices: Extract<Field, { kind: "choice" }>["choices"],
  text: string,
  isNumber: boolean,
): CellRead {
  const said = plainWords(text);
  const exact = text.toLowerCase();
  const found = choices.find(({ words }) =>
    words.some(
      (word) =>
        word === exact ||
        (plainWords(word) !== "" && plainWords(word) === said && sameSize(word, exact)),
    ),
  );
  if (found) return value(found.value);
  if (isNumber) {
    const number = choices.find(({ words }) => words.some((word) => Number(word) === Number(text)));
    if (number) return value(number.value);
  }
  if (NOTHING.test(text)) return blank;
  return bad(
    "is not one of the choices",
    `Possible: ${choices.map((each) => each.value).join(", ")}.`,
  );
}

/** A mark between digits means something: 1-1/2, 1.5 and 15 are not the same word without it. */
const sameSize = (a: string, b: string) => a.replace(/\D/g, "") === b.replace(/\D/g, "");

function readDay(cell: Cell, text: string, order: DayOrder | undefined): CellRead {
  const day = dayOf(cell) ?? (typeof cell === "number" ? countedDay(cell) : dayIn(text, order));
  if (day) return value(day);
  return /^\d{1,2}[./-]\d{1,2}[./-]\d{2}$|[a-z]{3}[\s.-]*\d{2}$/i.test(text)
    ? bad("has a year of two digits", "Write the year with four digits, e.g. 2026-11-25.")
    : bad("is not a day of the calendar", "Write it as year-month-day, e.g. 2026-11-25.");
}

const madeADate = () =>
  bad(
    "is a date where a number is expected",
    "The spreadsheet may have made a date of a number like 3/16: write it in decimals, e.g. 0.1875.",
  );

function readCount(cell: Cell, text: string, decimals: Decimals): CellRead {
  if (dayOf(cell)) return madeADate();
  // "3", "#3", "GLM 3": a name before the number is no part of it.
  const plain = text.replace(/^(#|no\.?|nr\.?|glm|spm|mandrel|station)\s*(?=\d)/i, "");
  const read = typeof cell === "number" ? cell : numberIn(written(plain)?.number ?? "", decimals);
  const after = typeof cell === "number" ? "" : written(plain)?.after;
  return read !== undefined &&
    after === "" &&
    Number.isInteger(read) &&
    read >= 0 &&
    read <= 100_000
    ? value(read)
    : bad("is not a whole number", "Write a number such as 3.");
}

function readQuantity(
  field: Extract<Field, { kind: "quantity" }>,
  ways: Ways,
  cell: Cell,
  text: string,
): CellRead {
  const { dimension } = field;
  if (dayOf(cell)) return madeADate();
  let unit = ways.unit ?? "";
  let number = typeof cell === "number" ? cell : undefined;
  if (number === undefined) {
    const found = inLetters(field, ways, text);
    if (typeof found === "string") return bad(found, mendNumber(ways));
    if (found.unit !== undefined) unit = found.unit;
    number = found.number;
  }
  if (!Number.isFinite(number)) return bad("is not a number", mendNumber(ways));
  const cannot = impossible(dimension, { value: number, unit }) ?? outOf(field.id, number);
  return cannot
    ? bad(
        `is ${[number, unitLabel(unit)].join(" ").trim()}, which cannot be: ${cannot}`,
        "Correct the number, or the unit of the column.",
      )
    : value({ value: number, unit } as Quantity);
}

/** A survey's angles have narrower limits than an angle has. */
function outOf(field: string, number: number): string | undefined {
  if (field === "inclination" && (number < 0 || number > 180))
    return "an inclination lies between 0 and 180 °";
  if (field === "azimuth" && (number < 0 || number > 360))
    return "an azimuth lies between 0 and 360 °";
  return undefined;
}

const mendNumber = ({ decimals }: Ways) =>
  `Write a number with a ${decimals} for the decimals, e.g. ${decimals === "point" ? "12.5" : "12,5"}.`;

function inLetters(
  field: Extract<Field, { kind: "quantity" }>,
  ways: Ways,
  text: string,
): { number: number; unit?: string } | string {
  if (field.dimension === "diameter") {
    const [, part = "", behind = ""] = /^([\d\s/½¼¾-]*[/½¼¾]\d*)\s*(.*)$/.exec(text) ?? [];
    const part64 = fraction(part);
    if (part64 !== undefined) return withUnit(field, ways, part64, behind);
  }
  const found = written(text);
  if (!found) return "is not a number";
  const number = numberIn(found.number, ways.decimals);
  if (number === undefined) {
    const other = ways.decimals === "point" ? "comma" : "point";
    return numberIn(found.number, other) === undefined
      ? "is not a number"
      : `is not a number with a decimal ${ways.decimals}, as the rest of the column is read`;
  }
  return withUnit(field, ways, number, found.after);
}

function withUnit(
  { dimension }: Extract<Field, { kind: "quantity" }>,
  { unit }: Ways,
  number: number,
  behind: string,
): { number: number; unit?: string } | string {
  if (behind === "") return { number };
  const said = unitIn(dimension, behind);
  if (said?.is === "unit") return { number, unit: said.unit };
  // The cell says psi, the planner has said of the column whether that is gauge or absolute.
  if (said?.is === "choice" && unit !== undefined && said.units.includes(unit)) return { number };
  if (said?.is === "choice") return `says ${said.word} and not whether it is gauge or absolute`;
  return said?.is === "foreign"
    ? `is in ${said.word}, which is not read here`
    : `has "${behind.slice(0, 20)}" behind the number`;
}
