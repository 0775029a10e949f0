import { contingenciesAt } from "../contingenciesAt.ts";
import { barriers } from "../parts.ts";
import type { Contingency, Phase, Sheet } from "../sheet.ts";
import { fetchCatcher, setCatcher } from "./catcher.ts";
import { contingencies } from "./contingencies.ts";
import { emptyPocket } from "./emptyPocket.ts";
import { gaugeRun } from "./gaugeRun.ts";
import { handBack } from "./handBack.ts";
import type { PocketOfSeveral, PocketOptions, SheetOptions, Work } from "./options.ts";
import { askedForEach, boundTo, figuresOf, pocketSuffix } from "./pocket.ts";
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
 * The run sheet, put together from the same parts for every kind of work: gauge, equalise, pull or look, set, prove, hand
 * back. Several pockets of one rig-up are worked one after the other, each proved before the next is opened. How crews do
 * it is common practice; the site's permit system, local regulation, the operator's programme and the makers' limits
 * come first.
 */
export function changeOutSheet(options: SheetOptions): Sheet {
  const { work, kickover, catcher, pockets } = options;
  const last = catcher ? "fetch-string-on" : "stack-off";
  const phases: Phase[] = [
    readySite,
    rigUp,
    ...beforePockets(options),
    ...(pockets ? ofSeveral(pockets, last) : ofPocket(options, prove(options, last))),
    ...(catcher ? [fetchCatcher] : []),
    handBack(options),
  ];
  const steps = phases
    .flatMap((phase) => phase.items)
    .flatMap((item) => (item.type === "step" ? [item.step.id] : []));
  const mayHappen = contingencies.filter(
    ({ id }) =>
      id !== "no-sleeve" ||
      (pockets ?? [{ kickover }]).some((each) => each.kickover === "orienting"),
  );
  const numbers = pockets?.map(({ number }) => number ?? "?").join(", ");
  return {
    ...(pockets
      ? { id: "several-pockets", title: `Pockets of mandrels ${numbers} in one rig-up` }
      : named[work]),
    version: 2,
    phases,
    contingencies: contingenciesAt(
      mayHappen.map((each) => inEvery(each, pockets?.length ?? 1)),
      new Set(steps),
    ),
  };
}

/** Gauge and catcher: once, below the lowest pocket. */
function beforePockets({ catcher, pockets, lowest }: SheetOptions): Phase[] {
  const phases = catcher
    ? [gaugeRun({ next: "catcher-string-on", name: "catcher" }), setCatcher]
    : [gaugeRun({ next: "pull-string-on", name: "second" })];
  if (!pockets) return phases;
  return phases
    .map((phase) => (lowest === undefined ? phase : figuresOf(phase, lowest)))
    .map((phase) => askedForEach(phase, "kickover tool matches", pockets));
}

function ofPocket(options: PocketOptions, proof: Phase): Phase[] {
  return [
    options.work === "set into an empty pocket" ? emptyPocket(options) : pullRun(options),
    replacement(options),
    setRun(options),
    proof,
  ];
}

function ofSeveral(pockets: readonly PocketOfSeveral[], last: string): Phase[] {
  return pockets.flatMap((each, place) => {
    const isLast = place === pockets.length - 1;
    const proof = isLast
      ? prove(each, last)
      : prove(each, `pull-string-on${pocketSuffix(place + 1)}`, "the next pocket is opened");
    const [reach, ...rest] = ofPocket(each, proof);
    if (!reach) return [];
    const opened: Phase =
      place === 0
        ? reach
        : {
            ...reach,
            items: [
              ...barriers("next", "the lubricator is broken to change strings", "pull-string-on"),
              ...reach.items,
            ],
          };
    return boundTo([opened, ...rest], each, place);
  });
}

/** A contingency that can happen in every pocket, not in the first alone. */
function inEvery(contingency: Contingency, pockets: number): Contingency {
  const every = (ids: readonly string[]) =>
    Array.from({ length: pockets }, (_, place) => place).flatMap((place) =>
      ids.map((id) => `${id}${pocketSuffix(place)}`),
    );
  return {
    ...contingency,
    near: every(contingency.near),
    options: contingency.options.map((option) => ({ ...option, rejoins: every(option.rejoins) })),
  };
}

/** The usual one: one valve for another, in a mandrel that turns the tool, without a catcher. */
export const changeOut: Sheet = changeOutSheet({
  work: "change out",
  kickover: "orienting",
  catcher: false,
});
