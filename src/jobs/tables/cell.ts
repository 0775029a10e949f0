/** A calendar day that a spreadsheet holds as a day, not as text. */
export interface DayCell {
  /** e.g. 2026-11-25 */
  readonly day: string;
  /** of that day where it says one, e.g. 09:30:00.000 */
  readonly time?: string;
}

/** What a spreadsheet worked out to nothing usable, e.g. `#N/A`. */
export interface FaultCell {
  readonly fault: string;
}

/** One cell as the file holds it; null where nothing is. */
export type Cell = string | number | boolean | DayCell | FaultCell | null;
export type Row = readonly Cell[];

/** One sheet of a file, or the whole of a text file. */
export interface Sheet {
  readonly name: string;
  readonly rows: readonly Row[];
}

const isDay = (cell: Cell): cell is DayCell =>
  typeof cell === "object" && cell !== null && "day" in cell;
const isFault = (cell: Cell): cell is FaultCell =>
  typeof cell === "object" && cell !== null && "fault" in cell;

/** The day of a cell that is one. */
export const dayOf = (cell: Cell): string | undefined => (isDay(cell) ? cell.day : undefined);

/** What went wrong in a cell, where the spreadsheet says so. Text tables carry the same words. */
export function faultOf(cell: Cell): string | undefined {
  if (isFault(cell)) return cell.fault;
  return typeof cell === "string" &&
    /^#(N\/A|REF!|VALUE!|DIV\/0!|NAME\?|NUM!|NULL!|SPILL!)$/i.test(cell.trim())
    ? cell.trim()
    : undefined;
}

/** A cell in letters, blanks tidied: as a person would read it out. */
export function cellText(cell: Cell | undefined): string {
  if (cell === null || cell === undefined) return "";
  if (typeof cell === "object") return isDay(cell) ? cell.day : cell.fault;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return String(cell)
    .replace(/[\s\u00a0\u2007\u2009\u202f]+/g, " ")
    .trim();
}

export const isBlank = (cell: Cell | undefined) => cellText(cell) === "";

/** Control characters, those that only steer the writing (bidirectional marks, blanks of no width), halves of letters. */
const UNPRINTED = /[\p{Cc}\p{Cf}\p{Cs}\ufffd]/u;

/** Whether it holds characters that do not print, or that turn the writing round. */
export const hasUnprinted = (text: string) => UNPRINTED.test(text);
