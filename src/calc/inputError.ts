/**
 * Input that a calculation cannot accept. The core throws the facts; whoever shows it makes the
 * sentence and keeps what was typed.
 */
export class InputError extends Error {
  override readonly name = "InputError";

  /** What was given, by the name the caller knows, e.g. `temperatures[2].tvd_ft`. */
  readonly key: string;
  /** The value as given; undefined when it is missing. */
  readonly given: unknown;
  /** What would be accepted, as words that follow "must be", e.g. `between 0 and 180`. */
  readonly allowed: string;

  constructor(key: string, given: unknown, allowed: string) {
    super(`${key}: ${describe(given)}; must be ${allowed}`);
    this.key = key;
    this.given = given;
    this.allowed = allowed;
  }
}

function describe(given: unknown): string {
  if (given === undefined) return "missing";
  if (typeof given === "number" && !Number.isFinite(given)) return "not a finite number";
  let text: string;
  try {
    text = JSON.stringify(given) ?? String(given);
  } catch {
    return "given something nested too deep";
  }
  return `given ${text.length > 60 ? `${text.slice(0, 57)}...` : text}`;
}

/** Throws unless `value` is a finite number that `accepts` admits. */
export function requireNumber(
  key: string,
  value: number,
  allowed: string,
  accepts: (value: number) => boolean = () => true,
): void {
  if (!Number.isFinite(value) || !accepts(value)) throw new InputError(key, value, allowed);
}
