import { requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";

export const lubricatorFitMethod: Method = {
  name: "Lubricator length above the closed valve",
  formula: "needed = string, jars extended + valve on it + margin; spare = available − needed",
  source:
    "arithmetic; margin of 2 to 5 ft is common practice, 5 ft is asked for swabbing by Tulsa city code title 42-A section 801",
  validity: [],
};

export interface LubricatorFit {
  /** m */
  readonly available: number;
  readonly needed: number;
  /** available less needed, m; negative: the string does not fit */
  readonly spare: number;
  /** whether the spare is 0 or more, to a micron: sums of lengths do not end in exact zeros */
  readonly fits: boolean;
}

const MICRON = 1e-6;

/**
 * Whether a tool string is wholly above the closed valve with length to spare.
 *
 * @param usable usable lengths above the closed valve, m, each 0 or more
 * @param string its longest state, jars extended, m
 * @param valve  what hangs on it besides, m, 0 or more
 * @param margin policy, m, 0 or more
 * @throws InputError for a negative length
 */
export function lubricatorFit(
  usable: readonly number[],
  string: number,
  valve: number,
  margin: number,
): LubricatorFit {
  usable.forEach((length, i) => {
    requireNumber(`sections[${i}].usable_length`, length, "0 or more", (l) => l >= 0);
  });
  requireNumber("string_length", string, "above 0", (l) => l > 0);
  requireNumber("valve_length", valve, "0 or more", (l) => l >= 0);
  requireNumber("margin", margin, "0 or more", (l) => l >= 0);
  const available = usable.reduce((sum, length) => sum + length, 0);
  const needed = string + valve + margin;
  const spare = available - needed;
  return { available, needed, spare, fits: spare >= -MICRON };
}
