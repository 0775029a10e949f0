import { contingenciesAt } from "../contingenciesAt.ts";
import type { Phase, Sheet } from "../sheet.ts";
import { fetchCatcher, setCatcher } from "./catcher.ts";
import { contingencies } from "./contingencies.ts";
import { emptyPocket } from "./emptyPocket.ts";
import { gaugeRun } from "./gaugeRun.ts";
import { handBack } from "./handBack.ts";
import type { SheetOptions, Work } from "./options.ts";
import { prove } from "./prove.ts";
import { pullRun } from "./pullRun.ts";
import { readySite } from "./readySite.ts";
import { replacement } from "./replacement.ts";
import { rigUp } from "./rigUp.ts";
import { setRun } from "./setRun.ts";

const named: Readonly<Record<Work, { readonly id: string; readonly title: string }>> = {
  "change out": { id: "change-out", title: "Change out one gas-lift valve" },
  "pull and dummy off": {
    id: "dummy-off",
    title: "Pull one gas-lift valve and dummy off its pocket",
  },
  "set into an empty pocket": {
    id: "set-into-empty",
    title: "Set one gas-lift valve into an empty pocket",
  },
};

/**
 * The run sheet for one pocket, put together from the same parts for every kind of work: gauge, equalise, pull or
 * look, set, prove, hand back. How crews do it is common practice; the site's permit system, local regulation, the
 * operator's programme and the makers' limits come first.
 */
export function changeOutSheet(options: SheetOptions): Sheet {
  const { work, kickover, catcher } = options;
  const phases: Phase[] = [
    readySite,
    rigUp,
    ...(catcher
      ? [gaugeRun({ next: "catcher-string-on", name: "catcher" }), setCatcher]
      : [gaugeRun({ next: "pull-string-on", name: "second" })]),
    work === "set into an empty pocket" ? emptyPocket(options) : pullRun(options),
    replacement(options),
    setRun(options),
    ...(catcher
      ? [prove(options, "fetch-string-on"), fetchCatcher]
      : [prove(options, "stack-off")]),
    handBack(options),
  ];
  const steps = phases
    .flatMap((phase) => phase.items)
    .flatMap((item) => (item.type === "step" ? [item.step.id] : []));
  const mayHappen = contingencies.filter(
    ({ id }) => id !== "no-sleeve" || kickover === "orienting",
  );
  return {
    ...named[work],
    version: 2,
    phases,
    contingencies: contingenciesAt(mayHappen, new Set(steps)),
  };
}

/** The usual one: one valve for another, in a mandrel that turns the tool, without a catcher. */
export const changeOut: Sheet = changeOutSheet({
  work: "change out",
  kickover: "orienting",
  catcher: false,
});
