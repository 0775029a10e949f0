import type { Phase, Sheet } from "../sheet.ts";
import { contingencies, contingenciesAt } from "./contingencies.ts";
import { gaugeRun } from "./gaugeRun.ts";
import { handBack } from "./handBack.ts";
import { prove } from "./prove.ts";
import { pullRun } from "./pullRun.ts";
import { readySite } from "./readySite.ts";
import { replacement } from "./replacement.ts";
import { rigUp } from "./rigUp.ts";
import { setRun } from "./setRun.ts";

const phases: Phase[] = [readySite, rigUp, gaugeRun, pullRun, replacement, setRun, prove, handBack];
const steps = phases
  .flatMap((phase) => phase.items)
  .flatMap((item) => (item.type === "step" ? [item.step.id] : []));

/**
 * Change-out of one gas-lift valve: gauge, equalise, pull, set, prove, hand back. How crews do it is
 * common practice; the site's permit system, local regulation, the operator's programme and the
 * makers' limits come first.
 */
export const changeOut: Sheet = {
  id: "change-out",
  version: 1,
  title: "Change out one gas-lift valve",
  phases,
  contingencies: contingenciesAt(contingencies, new Set(steps)),
};
