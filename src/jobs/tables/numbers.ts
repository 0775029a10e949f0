/** What stands before the decimals in a column's numbers. */
export type Decimals = "point" | "comma";

/** A number in letters, taken apart; what stands after it is its unit. */
interface Written {
  readonly number: string;
  readonly after: string;
}

/** A number with its sign, without blanks and apostrophes between thousands, and what stands behind it. */
export function written(text: string): Written | undefined {
  const plain = text
    .replace(/[\u2212\u2013]/g, "-")
    .replace(/(?<=\d)[ '’](?=\d{3}(?!\d))/g, "")
    .trim();
  const [, number = "", after = ""] = /^([+-]?\s?[\d.,]*\d[\d.,]*)(.*)$/s.exec(plain) ?? [];
  return number === "" ? undefined : { number: number.replace(/\s/g, ""), after: after.trim() };
}

const DIGITS = /^[+-]?\d+$/;
const GROUPED = {
  point: /^[+-]?\d{1,3}(,\d{3})+(\.\d*)?$/,
  comma: /^[+-]?\d{1,3}(\.\d{3})+(,\d*)?$/,
};
const PLAIN = { point: /^[+-]?(\d+\.?\d*|\.\d+)$/, comma: /^[+-]?(\d+,?\d*|,\d+)$/ };

/** A number in one of the two ways of writing. Undefined when it is no number in that way. */
export function numberIn(number: string, decimals: Decimals): number | undefined {
  if (!PLAIN[decimals].test(number) && !GROUPED[decimals].test(number)) return undefined;
  if (GROUPED[decimals].test(number) && /^[+-]?0\d*[.,]/.test(number) && number.length > 1) {
    // 0,375 has no thousands: nobody writes 375 like that.
    if (!PLAIN[decimals].test(number)) return undefined;
  }
  const [thousands, mark] = decimals === "point" ? [/,/g, "."] : [/\./g, ","];
  const value = Number(number.replace(thousands, "").replace(mark, "."));
  return Number.isFinite(value) ? value : undefined;
}

/** What the numbers of a column say of the mark before their decimals. */
export interface Evidence {
  /** how many numbers can be written with a point only, and with a comma only */
  readonly point: number;
  readonly comma: number;
  /** a number that means two things, e.g. 1,234 */
  readonly either: string | undefined;
}

/** @param cannotBe whether a value is impossible for what the column holds: then it was not meant */
export function evidenceOf(
  texts: Iterable<string>,
  cannotBe: (value: number) => boolean = () => false,
): Evidence {
  let point = 0;
  let comma = 0;
  let either: string | undefined;
  for (const text of texts) {
    const number = written(text)?.number;
    if (number === undefined || DIGITS.test(number)) continue;
    const [byPoint, byComma] = (["point", "comma"] as const).map((decimals) => {
      const value = numberIn(number, decimals);
      return value === undefined || cannotBe(value) ? undefined : value;
    });
    if (byPoint !== undefined && byComma !== undefined) either ??= number;
    else if (byPoint !== undefined) point += 1;
    else if (byComma !== undefined) comma += 1;
  }
  return { point, comma, either };
}

/** The way a column writes its decimals; `"ask"` where its numbers can be read both ways and nothing tells which. */
export function decimalsOf({ point, comma, either }: Evidence): Decimals | "ask" {
  if (point > 0 && comma === 0) return "point";
  if (comma > 0 && point === 0) return "comma";
  if (point === 0 && comma === 0) return either === undefined ? "point" : "ask";
  // Both are there: whatever is chosen, some cells are bad and are named.
  return "ask";
}

/** A fraction of an inch as the trade writes it: 3/16, 1-1/2, 1 1/2, 1½. */
export function fraction(text: string): number | undefined {
  const plain = text.replace("½", " 1/2").replace("¼", " 1/4").replace("¾", " 3/4").trim();
  const [, whole = "0", above, below] =
    /^(?:(\d{1,2})[\s-]+)?(\d{1,3})\/(\d{1,3})$/.exec(plain) ?? [];
  const [a, b] = [Number(above), Number(below)];
  return a > 0 && b > 1 && a < b ? Number(whole) + a / b : undefined;
}
