import { briefOperation } from "../src/jobs/door/brief.ts";
import { calculate } from "./calc.ts";

/** The command line of the calculations with `brief` among them: see calculate. */
export const calculateBrief = (args: readonly string[]): number =>
  calculate(args, [briefOperation]);
