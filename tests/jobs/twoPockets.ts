import { jobs, library } from "../../demo-data/emberMesa.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import type { FurtherPocket, Job } from "../../src/jobs/records/job.ts";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { pocketSuffix } from "../../src/jobs/sheet/changeOut/pocket.ts";
import { stepsOf } from "../../src/jobs/sheet/walk.ts";
import { goodRun } from "./demo.ts";

/** The ready job of the demonstration, going on to mandrel 4 in the same rig-up. Invented, like all of it. */

export const FIRST = "em-07-mandrel-3";
export const SECOND = "em-07-mandrel-4";
export const psig = (text: string): Typed => ({ text, unit: "psig" });
export const ft = (text: string): Typed => ({ text, unit: "ft" });

/** A valve that the shop set for mandrel 4, by what it needs there. */
const [pattern] = library.valves.filter(({ id }) => id === jobs.ready.replacement);
if (!pattern) throw new Error("no replacement in the demonstration");
const second = {
  ...pattern,
  id: "valve-second",
  serial: "EM-2050",
  card: {
    testRackOpening60F: { value: 936, unit: "psig" as const },
    day: "2026-11-12",
    by: "valve shop",
  },
};
const { bench: _, ...forSecond } = second;
export const stocked = { ...library, valves: [...library.valves, forSecond] };
export const further: FurtherPocket = {
  mandrel: SECOND,
  replacement: "valve-second",
  work: "change out",
  design: jobs.ready.design,
};
export const twoPockets = (change: Partial<FurtherPocket> = {}, of: Partial<Job> = {}): Job => ({
  ...jobs.ready,
  ...of,
  also: [{ ...further, ...change }],
});
export const twoPocketProgramme = (change: Partial<FurtherPocket> = {}, of: Partial<Job> = {}) =>
  assemble(twoPockets(change, of), stocked);

export const own = pocketSuffix(1);
export const named = (fields: Readonly<Record<string, Typed>>) =>
  Object.fromEntries(Object.entries(fields).map(([id, typed]) => [`${id}${own}`, typed]));

/** What differs at mandrel 4: 5290 ft, other pressures, another valve. */
const atSecond: Readonly<Record<string, Readonly<Record<string, Typed>>>> = {
  "level-first": {
    "level-first-level": ft("2910"),
    "level-first-casing": psig("990"),
    "level-first-wellhead": psig("318"),
  },
  locate: {
    "tagged-above": ft("4383"),
    "tagged-below": ft("6053"),
    "pocket-depth": ft("5293"),
    "key-pull": { text: "480", unit: "lbf" },
  },
  "level-last": { "level-last-casing": psig("992"), "level-last-wellhead": psig("319") },
  inspect: {
    "pulled-serial": { text: "EM-0714" },
    "pulled-complete": { text: "complete" },
    "pulled-condition": { text: "port cut" },
    "pulled-charge": { text: "low" },
  },
  card: { "new-serial": { text: "em 2050" }, "new-card": psig("936") },
  "pocket-open": {
    "pocket-open-level": ft("2910"),
    "pocket-open-casing": psig("985"),
    "pocket-open-wellhead": psig("318"),
  },
  enter: { "set-pick-up": { text: "340", unit: "lbf" }, "set-depth": ft("5293") },
  "test-pull": {
    "test-pull-force": { text: "490", unit: "lbf" },
    "test-pull-held": { text: "held" },
  },
  "proof-start": {
    "proof-start-level": ft("2910"),
    "proof-start-casing": psig("500"),
    "proof-start-wellhead": psig("52"),
  },
  "proof-end": { "proof-end-casing": psig("499"), "proof-end-wellhead": psig("52") },
};

/** Every step of the second pocket as in a good run. */
const secondAnswers = Object.fromEntries(
  stepsOf(changeOut).map(({ id }) => [
    `${id}${own}`,
    named(atSecond[id] ?? goodRun[id]?.fields ?? {}),
  ]),
);
/** The gauge is run below the lower of the two. */
export const answers = {
  "gauge-down": { ...goodRun["gauge-down"]?.fields, "gauge-depth": ft("6360") },
  [`next-barriers${own}`]: Object.fromEntries(
    Object.entries(goodRun["third-barriers"]?.fields ?? {}).map(([id, typed]) => [
      `${id.replace("third", "next")}${own}`,
      typed,
    ]),
  ),
  ...secondAnswers,
};
