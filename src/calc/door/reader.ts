import { InputError } from "../inputError.ts";

/** What a number read from outside has to satisfy. */
interface NumberRule {
  /** Used when the key is absent; without it the key must be there. */
  readonly fallback?: number;
  readonly allowed?: string;
  readonly accepts?: (value: number) => boolean;
}

/** Far above anything measured, and far below where sums and products overflow. */
const MOST = 1e9;

const positive: NumberRule = {
  allowed: "above 0 and at most 1e9",
  accepts: (x) => x > 0 && x <= MOST,
};
const notNegative: NumberRule = {
  allowed: "0 or more and at most 1e9",
  accepts: (x) => x >= 0 && x <= MOST,
};

/** Rules that many keys share. */
export const rules = { positive, notNegative };

/**
 * Reads one JSON object key by key, naming the key in every complaint, and remembers which keys
 * were asked for, so that a misspelt optional key does not vanish in silence.
 */
export class Reader {
  private readonly value: Readonly<Record<string, unknown>>;
  private readonly path: string;
  private readonly asked = new Set<string>();
  private readonly children: Reader[] = [];

  constructor(value: unknown, path = "") {
    if (typeof value !== "object" || value === null || Array.isArray(value)) {
      throw new InputError(path || "input", value, "a JSON object");
    }
    this.value = value as Record<string, unknown>;
    this.path = path;
  }

  /** The full name of a key, as complaints use it. */
  name(key: string): string {
    return this.path ? `${this.path}.${key}` : key;
  }

  has(key: string): boolean {
    this.asked.add(key);
    return Object.hasOwn(this.value, key);
  }

  private raw(key: string): unknown {
    return this.has(key) ? this.value[key] : undefined;
  }

  number(key: string, rule: NumberRule = {}): number {
    const given = this.raw(key);
    if (given === undefined && rule.fallback !== undefined) return rule.fallback;
    const allowed = rule.allowed ?? "a finite number";
    const fits =
      typeof given === "number" && Number.isFinite(given) && (rule.accepts?.(given) ?? true);
    if (!fits) {
      const needsNumber = typeof given !== "number" && rule.allowed ? "a number " : "";
      throw new InputError(this.name(key), given, `${needsNumber}${allowed}`);
    }
    return given;
  }

  optionalNumber(key: string, rule: NumberRule = {}): number | undefined {
    return this.has(key) ? this.number(key, rule) : undefined;
  }

  /** A name that somebody gave a thing, for them to know it by: it may be absent. */
  optionalText(key: string): string | undefined {
    const given = this.raw(key);
    if (given === undefined || typeof given === "string") return given;
    throw new InputError(this.name(key), given, "a text in quotation marks");
  }

  /** Which of two keys is given; both and neither are refused. */
  eitherOf<A extends string, B extends string>(a: A, b: B): A | B {
    const [hasA, hasB] = [this.has(a), this.has(b)];
    if (hasA !== hasB) return hasA ? a : b;
    throw new InputError(
      this.name(a),
      this.value[a],
      hasA ? `alone: it and ${b} say the same thing` : `there, or ${b} in its place`,
    );
  }

  oneOf<T extends string>(key: string, choices: readonly T[]): T {
    const given = this.raw(key);
    const found = choices.find((choice) => choice === given);
    if (found === undefined) throw new InputError(this.name(key), given, choices.join(" or "));
    return found;
  }

  object(key: string): Reader {
    const child = new Reader(this.raw(key), this.name(key));
    this.children.push(child);
    return child;
  }

  optionalObject(key: string): Reader | undefined {
    return this.has(key) ? this.object(key) : undefined;
  }

  private array(key: string, least: number): unknown[] {
    const given = this.raw(key);
    if (!Array.isArray(given) || given.length < least) {
      throw new InputError(this.name(key), given, `an array of at least ${least}`);
    }
    return given;
  }

  objects(key: string, least: number): Reader[] {
    const found = this.array(key, least).map(
      (item, index) => new Reader(item, `${this.name(key)}[${index}]`),
    );
    this.children.push(...found);
    return found;
  }

  numbers(key: string, least: number, rule: NumberRule = {}): number[] {
    const items = this.array(key, least);
    const indexed = new Reader({ ...items }, "");
    return items.map((_, index) => {
      try {
        return indexed.number(String(index), rule);
      } catch (error) {
        if (error instanceof InputError) {
          throw new InputError(`${this.name(key)}[${index}]`, error.given, error.allowed);
        }
        throw error;
      }
    });
  }

  /** The whole object, for an operation that has its own way of reading it. */
  everything(): Readonly<Record<string, unknown>> {
    for (const key of Object.keys(this.value)) this.asked.add(key);
    return this.value;
  }

  /** Keys that were given and that nothing asked for, with their full names. */
  unknownKeys(): string[] {
    return [
      ...Object.keys(this.value)
        .filter((key) => !this.asked.has(key))
        .map((key) => this.name(key)),
      ...this.children.flatMap((child) => child.unknownKeys()),
    ];
  }

  /** The value as given, for complaints about it. */
  given(key: string): unknown {
    return this.value[key];
  }
}
