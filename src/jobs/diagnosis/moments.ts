import { type Cell, cellText, dayOf } from "../tables/cell.ts";
import { countedDay, type DayOrder, dayIn } from "../tables/days.ts";

/** What a cell says of time, by the clock that wrote it. */
export interface Said {
  /** e.g. 2026-11-25 */
  readonly day?: string;
  /** ms after midnight */
  readonly time?: number;
  /** minutes east of UTC, where the cell says it */
  readonly zone?: number;
}

const MS_OF_DAY = 86_400_000;
const TIME =
  /(?:^|[T,\s])\s*(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,6}))?)?\s*(?:([AP])\.?M\.?)?\s*(Z|UTC|[+-]\d{2}:?\d{2})?$/i;
const SHORT_YEAR = /^(\d{1,2})([./-])(\d{1,2})\2(\d{2})$/;
const SHORT_YEAR_NAMED = /^(\d{1,2}[\s.-]*[a-z]{3,9}\.?[\s.,-]+)(\d{2})$/i;

/** 11/25/26 or 25-Nov-26 with its whole year: recorders and spreadsheets write it so, and none of them ran before 2000. */
export const withWholeYear = (day: string): string =>
  day.replace(SHORT_YEAR, "$1$2$3$220$4").replace(SHORT_YEAR_NAMED, "$120$2");

/**
 * What a cell says of day and time.
 *
 * @param order of the numbers of a day; a day that can be read both ways is not read without it
 * @param counts whether a bare number may be a day as a spreadsheet counts it, a fraction of a day, or 0930: in a
 *        column of pressures it is none of them
 */
export function saidIn(cell: Cell | undefined, order: DayOrder | undefined, counts: boolean): Said {
  if (cell === null || cell === undefined || typeof cell === "boolean") return {};
  if (typeof cell === "number") return counts ? counted(cell) : {};
  if (typeof cell === "object") return ofWorkbook(cell);
  const text = cellText(cell);
  const found = TIME.exec(text);
  const rest = (found ? text.slice(0, found.index) : text).replace(/[,\s]+$/, "");
  const time = found ? timeOf(found) : undefined;
  if (found && time === undefined) return {};
  if (rest === "" && time !== undefined) return { time, ...zoneOf(found?.[6]) };
  // 46339,5 is a count; 25.11.2026, with two marks, is a day.
  if (!found && /^\d+([.,]\d*)?$/.test(text)) {
    return counts ? (clockDigits(text) ?? counted(Number(text.replace(",", ".")))) : {};
  }
  const day = dayIn(withWholeYear(rest), order);
  if (day === undefined) return {};
  return { day, ...(time !== undefined && { time }), ...zoneOf(found?.[6]) };
}

/** The day of a cell without its time, in the letters that its order is told by. */
export const dayLetters = (cell: Cell | undefined): string =>
  typeof cell === "string" ? withWholeYear(cellText(cell).replace(TIME, "").trim()) : "";

function timeOf([, h = "", m = "", s = "0", part = "0", half]: RegExpExecArray) {
  const [hours, minutes, seconds] = [Number(h), Number(m), Number(s)];
  if (minutes > 59 || seconds > 59 || hours > (half ? 12 : 24)) return undefined;
  if (half && hours === 0) return undefined;
  const whole = half ? (hours % 12) + (half.toLowerCase() === "p" ? 12 : 0) : hours;
  const ms = Math.round(Number(`0.${part}`) * 1000);
  const time = ((whole * 60 + minutes) * 60 + seconds) * 1000 + ms;
  return time <= MS_OF_DAY ? time : undefined;
}

function zoneOf(said: string | undefined): Pick<Said, "zone"> {
  if (!said) return {};
  if (/^(z|utc)$/i.test(said)) return { zone: 0 };
  const [, sign, h, m] = /^([+-])(\d{2}):?(\d{2})$/.exec(said) ?? [];
  return { zone: (sign === "-" ? -1 : 1) * (Number(h) * 60 + Number(m)) };
}

/** 0930 in a column of times. */
function clockDigits(text: string): Said | undefined {
  const [, h, m] = /^(\d{2})(\d{2})$/.exec(text) ?? [];
  return h !== undefined && Number(h) < 24 && Number(m) < 60
    ? { time: (Number(h) * 60 + Number(m)) * 60_000 }
    : undefined;
}

/** A day and its time as a spreadsheet counts them, or a time alone as a fraction of a day; to the second. */
function counted(count: number): Said {
  const time = Math.round((count - Math.floor(count)) * 86_400) * 1000;
  if (count >= 0 && count < 1) return { time };
  const day = countedDay(count);
  if (day === undefined) return {};
  return count === Math.floor(count) ? { day } : { day, time };
}

/** A time without a day stands on the first days of the spreadsheet's count. */
function ofWorkbook(cell: Exclude<Cell, string | number | boolean | null>): Said {
  const day = dayOf(cell);
  if (day === undefined) return {};
  const at = "time" in cell ? cell.time : undefined;
  const time = at === undefined ? undefined : Date.parse(`1970-01-01T${at}Z`);
  if (day < "1900-01-02") return { time: time ?? 0 };
  return { day, ...(time !== undefined && { time }) };
}

/**
 * The instant of a day and a time by a clock that runs a fixed time ahead of UTC: a recorder's clock is not put forward
 * in spring, so that no hour of it is missing or stands twice.
 *
 * @param offset minutes east of UTC, where the cells do not say it themselves
 * @returns ms since 1970 UTC
 */
export function instantOf({ day, time = 0, zone }: Said, offset: number): number | undefined {
  if (day === undefined) return undefined;
  return Date.parse(`${day}T00:00:00.000Z`) + time - (zone ?? offset) * 60_000;
}
