import type { Block, ReportDocument } from "../../../src/jobs/report/document.ts";

const HASH = "3f2a9c0d5b7e1846aa01ffee20c4d99b7c3154e8f06a2b9d81e7c5530f4a6b12";

const wave: (readonly [number, number])[] = Array.from({ length: 60 }, (_, i) => [
  40 + i * 8,
  Math.round(100 + 60 * Math.sin(i / 4) * Math.exp(-i / 40)),
]);

const ticks = (values: readonly number[], unit = "") =>
  values.map((at) => ({ at, label: `${at.toLocaleString("en-US")}${unit}` }));

const overTime = Array.from({ length: 25 }, (_, i) => [i * 5, 740 + 60 * Math.exp(-i / 8)]);

/** Every kind of block, as a report might have them. */
export const everyBlock: readonly Block[] = [
  { kind: "heading", text: "What was found" },
  {
    kind: "words",
    text: "The valve at mandrel 3 was pulled on the second run. The latch came free at 412 lbf above the weight of the string, within what the make-up had foreseen, and the pocket was looked at with a lead impression before the new valve went in.",
  },
  { kind: "words", text: "Calculated from the gas column, not measured.", tone: "calculated" },
  { kind: "words", text: "Line pull exceeded its limit by 38 lbf for 4 s.", tone: "problem" },
  {
    kind: "facts",
    rows: [
      ["Well", "EM-14"],
      ["Mandrel", "3, at 6 214 ft along hole"],
      ["Valve out", "EM-2291, 1 in, injection-operated"],
      ["Valve in", "EM-3107, 1 in, injection-operated"],
      ["Test rack pressure", { text: "812 psig", tone: "calculated" }],
      ["Line pull, highest", { text: "1 238 lbf, over its limit", tone: "problem" }],
      [
        "Why the job was done",
        "The well loaded up after a shutdown and did not unload; the survey shows gas entering at mandrel 3 and at mandrel 5 at one time, which one valve open too early explains.",
      ],
      ["Programme", HASH],
      ["Supervisor", "Łukasz Nowak, Ωμέγα Παπαδόπουλος, Жанна"],
    ],
  },
  { kind: "heading", text: "Formula" },
  {
    kind: "words",
    text: "F = (p − p_atm) · π d² ∕ 4, with q ≈ C √(2 ρ Δp) ≥ 0, in m³·s⁻¹; z₀ = 0.92, α = 1.2×10⁻³, x ≤ ½",
  },
  {
    kind: "list",
    items: [
      "Casing bled from 912 to 880 psig before the kick-over tool was run.",
      { text: "Seal bore not seen: the light failed.", tone: "soft" },
      { text: "Packing leaked at 1 850 psig.", tone: "problem" },
    ],
  },
  {
    kind: "table",
    caption: "Readings at the mandrel",
    columns: [
      { title: "Time", share: 1.2 },
      { title: "What", share: 3 },
      { title: "Planned, psig", align: "right" },
      { title: "Read, psig", align: "right" },
      { title: "Remark", share: 2 },
    ],
    rows: [
      ["06:14", "Casing pressure at surface", "880", "881", ""],
      [
        "06:20",
        "Tubing pressure at the mandrel",
        { text: "874", tone: "calculated" },
        "879",
        "steady for 10 min",
      ],
      [
        "06:41",
        "Tubing pressure at the mandrel after equalising through the valve",
        "880",
        { text: "1 023", tone: "problem" },
        { text: "143 psi above casing", tone: "problem" },
      ],
      ["07:02", "Line pull at release", "410", "412", ""],
    ],
  },
  {
    kind: "chart",
    chart: {
      title: "Casing pressure while levelling",
      x: {
        label: "minutes from the first reading",
        from: 0,
        to: 120,
        ticks: ticks([0, 20, 40, 60, 80, 100, 120]),
      },
      y: { label: "casing pressure, psig", from: 850, to: 700, ticks: ticks([700, 750, 800, 850]) },
      series: [
        {
          name: "expected band",
          shape: "band",
          of: "calculated",
          points: overTime.map(([x = 0, y = 0]) => [x, y - 12, y + 12]),
        },
        { name: "calculated", shape: "line", of: "calculated", points: overTime },
        {
          name: "calculated, cold gas",
          shape: "line",
          of: "calculated",
          points: overTime.map(([x = 0, y = 0]) => [x, y - 20]),
        },
        {
          name: "as planned",
          shape: "dashed line",
          of: "calculated",
          points: [
            [0, 800],
            [120, 760],
          ],
        },
        {
          name: "measured",
          shape: "dots",
          of: "measured",
          points: overTime.map(([x = 0, y = 0], i) => [x, y + 6 * Math.sin(i * 2)]),
        },
        {
          name: "expected at each reading",
          shape: "rings",
          of: "calculated",
          points: [
            [10, 830],
            [60, 770],
            [110, 745],
          ],
        },
        {
          name: "limit",
          shape: "bar",
          of: "limit",
          points: [
            [0, 840],
            [120, 840],
          ],
        },
        {
          name: "regulator",
          shape: "steps",
          of: "measured",
          points: [
            [0, 720],
            [40, 735],
            [80, 725],
            [120, 725],
          ],
        },
      ],
    },
  },
  {
    kind: "chart",
    chart: {
      title: "Line pull with depth",
      x: { label: "line pull, lbf", from: 0, to: 1500, ticks: ticks([0, 500, 1000, 1500]) },
      y: {
        label: "depth along hole, ft",
        from: 0,
        to: 6500,
        ticks: ticks([0, 2000, 4000, 6000], " ft"),
      },
      ratio: 0.8,
      series: [
        {
          name: "pulling out",
          shape: "line",
          of: "calculated",
          points: [
            [240, 0],
            [820, 6214],
          ],
        },
        {
          name: "read",
          shape: "dots",
          of: "measured",
          points: [
            [260, 500],
            [420, 2000],
            [660, 4200],
            [1238, 6214],
          ],
        },
        { name: "rope socket's limit", shape: "bar", of: "limit", points: [[1200, 6214]] },
      ],
    },
  },
  { kind: "heading", text: "Photographs" },
  {
    kind: "photograph",
    picture: "here",
    width: 1600,
    height: 1200,
    caption: "Pulled valve, packing cut on one side, 06:58.",
  },
  {
    kind: "photograph",
    picture: "here",
    width: 1600,
    height: 1200,
    caption: "The same once more.",
  },
  {
    kind: "photograph",
    picture: HASH,
    width: 1200,
    height: 1600,
    caption: "Tag of the new valve.",
  },
  { kind: "photograph", picture: "junk", width: 1200, height: 1600, caption: "Lead impression." },
  { kind: "heading", text: "Signatures" },
  {
    kind: "signature",
    name: "R. Tamsin",
    role: "wireline supervisor",
    at: "14 Mar 2026, 07:40",
    of: "for handing the well back",
    strokes: [wave, [[300, 40]]],
  },
  {
    kind: "signature",
    name: "Ana Đorđević",
    role: "production engineer",
    at: "15 Mar 2026, 09:12",
    of: "for approval with remarks",
  },
];

export const sample: ReportDocument = {
  title: "EM-14, change-out at mandrel 3",
  subtitle: "Ember Mesa, 14 March 2026, run by R. Tamsin",
  foot: "Latchline report, as of 15 Mar 2026, 09:12. What stands here was taken from a log whose chain holds.",
  asOf: "2026-03-15T09:12:00.000Z",
  parts: [
    { id: "all", title: "The job", blocks: everyBlock },
    {
      id: "log",
      title: "Log",
      newPage: true,
      blocks: [
        {
          kind: "table",
          caption: "Every entry",
          columns: [
            { title: "No.", align: "right", share: 0.4 },
            { title: "Time", share: 1.4 },
            { title: "What", share: 4 },
            { title: "psig", align: "right" },
          ],
          rows: Array.from({ length: 120 }, (_, i) => [
            `${i + 1}`,
            `14 Mar 2026, 07:${String(i % 60).padStart(2, "0")}`,
            i % 9
              ? "Both gauges read, watched for a minute"
              : "Correction of an entry: misread, the needle was stuck and came free when it was knocked; read again",
            `${750 + (i % 7)}`,
          ]),
        },
      ],
    },
  ],
};
