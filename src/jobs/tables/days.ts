/** Which number of 3/4/2026 comes first. */
export type DayOrder = "day first" | "month first";

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const NUMBERS = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/;
/** Spreadsheets count days from the end of 1899; between 2000 and 2099 a whole number is taken as such a count. */
const FIRST_COUNT = 36_526;
const LAST_COUNT = 73_050;
const MS_OF_DAY = 86_400_000;

function checked(year: number, month: number, day: number): string | undefined {
  const date = new Date(Date.UTC(year, month - 1, day));
  const same = date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  return same && year >= 1900 && year <= 2200 ? date.toISOString().slice(0, 10) : undefined;
}

/** A day in letters. Undefined when it is none, or when its two numbers may stand for one another and no order is given. */
export function dayIn(text: string, order: DayOrder | undefined): string | undefined {
  const plain = text.trim().replace(/[T ]\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?(Z| ?[AP]M)?$/i, "");
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(plain);
  if (iso) return checked(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const named = /^(\d{1,2})[\s.-]*([a-z]{3,9})\.?[\s.,-]*(\d{4})$/i.exec(plain);
  if (named) return checked(Number(named[3]), monthOf(named[2]), Number(named[1]));
  const american = /^([a-z]{3,9})\.?\s*(\d{1,2})\s*,?\s+(\d{4})$/i.exec(plain);
  if (american) return checked(Number(american[3]), monthOf(american[1]), Number(american[2]));
  if (/^\d{5}(\.0+)?$/.test(plain)) return countedDay(Number(plain));
  const numbers = NUMBERS.exec(plain);
  if (!numbers) return undefined;
  const [a, b, year] = [Number(numbers[1]), Number(numbers[2]), Number(numbers[3])];
  const [dayFirst, monthFirst] = [checked(year, b, a), checked(year, a, b)];
  if (order) return order === "day first" ? dayFirst : monthFirst;
  return dayFirst === monthFirst
    ? dayFirst
    : dayFirst && monthFirst
      ? undefined
      : (dayFirst ?? monthFirst);
}

/** A day as a spreadsheet counts it. */
export function countedDay(count: number): string | undefined {
  if (count < FIRST_COUNT || count > LAST_COUNT) return undefined;
  return new Date(Date.UTC(1899, 11, 30) + Math.floor(count) * MS_OF_DAY)
    .toISOString()
    .slice(0, 10);
}

const monthOf = (name = "") => MONTHS.indexOf(name.slice(0, 3).toLowerCase()) + 1;

/** The order in which a column writes its days; `"ask"` when it cannot be told, undefined when none is needed. */
export function orderOf(texts: Iterable<string>): DayOrder | "ask" | undefined {
  let either = false;
  const seen = new Set<DayOrder>();
  for (const text of texts) {
    const numbers = NUMBERS.exec(text.trim());
    if (!numbers) continue;
    const [a, b] = [Number(numbers[1]), Number(numbers[2])];
    // With points between them the day stands first, wherever it is written so.
    if (text.includes(".") || (a > 12 && b <= 12)) seen.add("day first");
    else if (b > 12 && a <= 12) seen.add("month first");
    else if (a !== b) either = true;
  }
  if (seen.size === 1) return [...seen][0];
  return seen.size > 1 || either ? "ask" : undefined;
}
