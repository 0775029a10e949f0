import { readFileSync, writeSync } from "node:fs";
import { type Operation, runOperation } from "../src/calc/door/operation.ts";
import { operations as calculations } from "../src/calc/door/operations.ts";
import { InputError } from "../src/calc/inputError.ts";

/** Stands on a job's records, whose schemas take ten times as long to load as all calculations: see brief.ts. */
const BRIEF = "brief";

const USAGE =
  "usage: npm run --silent calc -- OPERATION FILE.json   (- reads standard input; OPERATION list names them)";

/** A complaint that ends the command: one line on standard error, exit status 2. */
class Refused extends Error {}

function readJson(file: string): unknown {
  let text: string;
  try {
    text = readFileSync(file === "-" ? 0 : file, "utf8");
  } catch (error) {
    throw new Refused(`${file}: cannot be read (${(error as NodeJS.ErrnoException).code})`);
  }
  try {
    // Some editors begin a file with a mark that JSON does not know.
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw new Refused(
      `${file === "-" ? "standard input" : file}: not JSON: ${(error as Error).message}`,
    );
  }
}

function calculateOne(operation: Operation, input: unknown): Record<string, unknown> {
  try {
    return runOperation(operation, input);
  } catch (error) {
    if (error instanceof InputError) throw new Refused(error.message);
    // Arrays within arrays, thousands deep.
    if (error instanceof RangeError)
      throw new Refused(`input: cannot be computed (${error.message})`);
    throw error;
  }
}

/** An array of inputs: every entry is answered, those that cannot be by their complaint. */
function calculateMany(
  operation: Operation,
  inputs: unknown[],
): [answers: unknown[], status: number] {
  let status = 0;
  const answers = inputs.map((input) => {
    try {
      return calculateOne(operation, input);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      status = 2;
      return { error: error.message };
    }
  });
  return [answers, status];
}

/** Everything at once, also into a pipe that is read slowly. */
function print(text: string): void {
  let rest = Buffer.from(`${text}\n`);
  while (rest.length > 0) {
    try {
      rest = rest.subarray(writeSync(1, rest));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EAGAIN") throw error;
    }
  }
}

/**
 * The command line of the calculations.
 *
 * @param args operation and file, or `list`
 * @param more operations beside those of the core
 * @returns exit status: 0, or 2 for input that cannot be computed
 */
export function calculate(args: readonly string[], more: readonly Operation[] = []): number {
  const [name, file] = args;
  const names = [...calculations.map((operation) => operation.name), BRIEF];
  try {
    if (name === "list") {
      print(names.join("\n"));
      return 0;
    }
    if (name === undefined || file === undefined || args.length > 2) throw new Refused(USAGE);
    const operation = [...calculations, ...more].find((candidate) => candidate.name === name);
    if (!operation) {
      throw new Refused(`${name}: not an operation; they are ${names.join(", ")}`);
    }
    const input = readJson(file);
    const [answer, status] = Array.isArray(input)
      ? calculateMany(operation, input)
      : [calculateOne(operation, input), 0];
    print(JSON.stringify(answer, null, 2));
    return status;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    process.stderr.write(`${error.message.replaceAll("\n", " ")}\n`);
    return 2;
  }
}
