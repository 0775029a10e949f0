import type { Evidence, Investigation } from "../src/jobs/records/investigation.ts";

/** Investigations of two invented wells of Ember Mesa: one that leads to a valve, and one with too little to tell. */

const ft = (value: number) => ({ value, unit: "ft" }) as const;
const psig = (value: number) => ({ value, unit: "psig" }) as const;
const degF = (value: number) => ({ value, unit: "degF" }) as const;

const MINUTE = 60_000;

/** Two pens over a day, a point every ten minutes: the casing hunts a little about where it stands. */
function aDay(from: string, casing: number, tubing: number): Extract<Evidence, { kind: "trend" }> {
  const start = Date.parse(from);
  const points = Array.from({ length: 145 }, (_, index) => ({
    at: new Date(start + index * 10 * MINUTE).toISOString(),
    casing: psig(Number((casing + 3 * Math.sin(index / 5) + 2 * Math.sin(index / 1.7)).toFixed(1))),
    tubing: psig(Number((tubing + 2 * Math.sin(index / 3)).toFixed(1))),
  }));
  return {
    id: "em-07-trend",
    kind: "trend",
    at: from,
    source: "Two-pen recorder R-3, dead-weight checked",
    confidence: "good",
    points,
  };
}

/** Along hole, ft; psig; degF: gas comes in and cools the tubing at mandrel 3. */
const stops = (
  [
    [0, 128, 104],
    [1880, 316, 121],
    [3240, 451, 132],
    [4300, 549, 138],
    [4380, 556, 135],
    [4460, 585, 145],
    [5290, 854, 156],
    [6050, 1103, 164],
  ] as const
).map(([depth, pressure, temperature]) => ({
  depthAlongHole: ft(depth),
  pressure: psig(pressure),
  temperature: degF(temperature),
}));

export const investigations: readonly Investigation[] = [
  {
    id: "investigation-em-07",
    revision: 1,
    invented: true,
    well: "em-07",
    opened: "2026-11-19T14:00:00.000Z",
    openedBy: "L. Ashgrove",
    complaint:
      "Casing stands far below what valve 3 should shut at, and production is down since the last unloading.",
    evidence: [
      {
        id: "em-07-gauges",
        kind: "pressures",
        at: "2026-11-20T15:00:00.000Z",
        source: "Gauges C-11 and T-04, J. Corrow",
        confidence: "good",
        injectionAtSurface: psig(742),
        wellhead: psig(128),
      },
      {
        id: "em-07-supply",
        kind: "supply",
        at: "2026-11-20T15:10:00.000Z",
        source: "Meter run 7, J. Corrow",
        confidence: "good",
        injectionRate: { value: 550, unit: "Mscf/d" },
        found: "in order",
      },
      {
        id: "em-07-survey",
        kind: "survey",
        at: "2026-11-20T18:30:00.000Z",
        source: "Gauge run on lift, gauge 2214",
        confidence: "good",
        stops,
      },
      {
        id: "em-07-tracer",
        kind: "tracer",
        at: "2026-11-20T20:00:00.000Z",
        source: "Tracer slug at the meter run, sniffer at the separator",
        confidence: "good",
        returns: [{ after: { value: 108, unit: "min" } }],
      },
      aDay("2026-11-19T15:00:00.000Z", 742, 128),
    ],
    agreed: {
      at: "2026-11-21T09:30:00.000Z",
      by: "L. Ashgrove",
      hypothesis: "stuck open 3",
      says: "Valve in mandrel 3 stuck open. Agreed before the job was planned; the ranking beside it is worked out anew.",
      reason:
        "Gas enters at mandrel 3 by survey and tracer, and the casing stands far below what the valve shuts at.",
      job: "job-em-07-3",
    },
    remarks: "Invented for the demonstration.",
  },
  {
    id: "investigation-em-03",
    revision: 1,
    invented: true,
    well: "em-03",
    opened: "2026-11-18T08:00:00.000Z",
    openedBy: "E. Rowan",
    complaint: "More gas for the same liquid, by word of mouth.",
    evidence: [
      {
        id: "em-03-gauges",
        kind: "pressures",
        at: "2026-11-18T09:00:00.000Z",
        source: "Told on the radio, gauges not named",
        confidence: "doubtful",
        injectionAtSurface: psig(800),
        wellhead: psig(122),
      },
    ],
    remarks: "Invented for the demonstration.",
  },
];
