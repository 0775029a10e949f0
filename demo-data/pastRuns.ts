import type { PulledCondition } from "../src/jobs/pulledConditions.ts";
import type { Valve } from "../src/jobs/records/valve.ts";

/** What befell the valves of Ember Mesa before: invented, as everything there. */

/** Day on which a valve that is in its pocket now was set there, by serial. */
const setOn: Readonly<Record<string, readonly [well: string, mandrel: number, day: string]>> = {
  "EM-0711": ["EM-07", 1, "2021-06-14"],
  "EM-0712": ["EM-07", 2, "2023-02-20"],
  "EM-0713": ["EM-07", 3, "2024-03-11"],
  "EM-0714": ["EM-07", 4, "2022-09-05"],
  "EM-0715": ["EM-07", 5, "2021-06-16"],
  "EM-1211": ["EM-12", 1, "2022-05-09"],
  "EM-1212": ["EM-12", 2, "2024-08-26"],
  "EM-1213": ["EM-12", 3, "2025-10-13"],
  "EM-1214": ["EM-12", 4, "2022-05-11"],
  "EM-0311": ["EM-03", 1, "2020-11-02"],
  "EM-0312": ["EM-03", 2, "2023-07-17"],
  "EM-0313": ["EM-03", 3, "2024-01-22"],
};

type Past = readonly [
  serial: string,
  rack: number | undefined,
  well: string,
  mandrel: number,
  set: string,
  pulled: string,
  found: PulledCondition | undefined,
];

/** Valves that were pulled: the orifices among them have no charge. */
const past: readonly Past[] = [
  ["EM-1101", 990, "EM-07", 2, "2021-06-14", "2023-02-20", "charge lost"],
  ["EM-1102", 960, "EM-07", 3, "2021-06-15", "2022-07-04", "port cut"],
  ["EM-1103", 958, "EM-07", 3, "2022-07-04", "2024-03-11", "port cut"],
  ["EM-1104", 940, "EM-07", 4, "2021-06-15", "2022-09-05", "packing"],
  ["EM-1105", 1002, "EM-12", 2, "2022-05-09", "2024-08-26", "good"],
  ["EM-1106", 972, "EM-12", 3, "2022-05-10", "2023-01-16", "charge lost"],
  ["EM-1107", 970, "EM-12", 3, "2023-01-16", "2023-11-27", "charge lost"],
  ["EM-1108", 974, "EM-12", 3, "2023-11-27", "2024-08-27", "charge lost"],
  ["EM-1109", 971, "EM-12", 3, "2024-08-27", "2025-10-13", "plugged"],
  ["EM-1110", 978, "EM-03", 2, "2020-11-02", "2023-07-17", "check open"],
  ["EM-1111", 948, "EM-03", 3, "2020-11-03", "2024-01-22", "port cut"],
  ["EM-1112", undefined, "EM-03", 4, "2020-11-03", "2022-04-25", "plugged"],
  ["EM-1113", 1028, "EM-12", 1, "2020-03-16", "2022-05-09", undefined],
];

const at = (well: string, mandrel: number) => `${well}, mandrel ${mandrel}`;

/** @param make a valve by serial and test-rack opening; an orifice where there is none */
export const pulledBefore = (make: (serial: string, rack: number | undefined) => Valve): Valve[] =>
  past.map(([serial, rack, well, mandrel, set, pulled, condition]) => ({
    ...make(serial, rack),
    state: condition === "good" ? "pulled" : "scrapped",
    history: [
      {
        day: set,
        what: "set",
        where: at(well, mandrel),
        ...(rack !== undefined && { setPressure: { value: rack, unit: "psig" } }),
      },
      { day: pulled, what: "pulled", where: at(well, mandrel), ...(condition && { condition }) },
    ],
  }));

/** The same valve with the day on which it was set. */
export function withPast(valve: Valve): Valve {
  const [well, mandrel, day] = setOn[valve.serial] ?? [];
  if (well === undefined || mandrel === undefined || day === undefined) return valve;
  const setPressure = valve.card?.testRackOpening60F;
  return {
    ...valve,
    history: [{ day, what: "set", where: at(well, mandrel), ...(setPressure && { setPressure }) }],
  };
}
