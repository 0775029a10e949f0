import { InputError } from "../inputError.ts";
import { Reader } from "./reader.ts";

/** One calculation as the command line offers it: a JSON object in, a JSON object out. */
export interface Operation {
  readonly name: string;
  /** The door's key for each key that the core's complaints use; `[].depth` stands for the field of any list. */
  readonly keys: Readonly<Record<string, string>>;
  run(input: Reader): Record<string, unknown>;
}

/**
 * Runs an operation on a parsed JSON value.
 *
 * @throws InputError with the door's own key, and the value as it was given under it
 */
export function runOperation(operation: Operation, input: unknown): Record<string, unknown> {
  const reader = new Reader(input);
  try {
    const result = operation.run(reader);
    const unknown = reader.unknownKeys();
    if (unknown.length === 0) return result;
    const warnings = unknown.map((key) => `key not known to ${operation.name}, ignored: ${key}`);
    return { ...result, warnings: [...(result.warnings as string[]), ...warnings] };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const key = doorKey(operation, error.key);
    if (key === undefined) throw error;
    throw new InputError(key, givenUnder(input, key) ?? error.given, error.allowed);
  }
}

/** `pressure` by its own entry, `stations[3].depth` by the entry `[].depth`. */
function doorKey(operation: Operation, coreKey: string): string | undefined {
  const inList = /^(\w+\[\d+\])(\.\w+)$/.exec(coreKey);
  if (!inList) return operation.keys[coreKey];
  const last = operation.keys[`[]${inList[2]}`];
  return last && `${inList[1]}.${last}`;
}

function givenUnder(input: unknown, path: string): unknown {
  return path
    .split(/[.[\]]+/)
    .reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], input);
}
