import type { Block, ReportDocument } from "../../src/jobs/report/document.ts";
import { pictureHash } from "../../src/jobs/store/picture.ts";
import { greyJpeg } from "../jobs/report/jpeg.ts";
import { longLog } from "./longLog.ts";

const PHOTOGRAPHS = 40;
/** bytes of one photograph, as a tablet's camera gives it after it was made smaller */
const BYTES = 300_000;

/** A report as large as one of the long log: a line for every event, its readings as table and chart, its photographs. */
export function longReport(): {
  readonly document: ReportDocument;
  readonly pictures: ReadonlyMap<string, Uint8Array<ArrayBuffer>>;
} {
  const { tablet } = longLog();
  const events = [...tablet.events];
  const pictures = new Map(
    Array.from({ length: PHOTOGRAPHS }, (_, index) => {
      const jpeg = greyJpeg(1600, 1200, BYTES + index);
      return [pictureHash(jpeg), jpeg] as const;
    }),
  );
  const readings = events.flatMap(({ body }) =>
    body.type === "readings taken"
      ? [{ step: body.step, at: body.takenAt, entries: body.entries }]
      : [],
  );
  const entries: Block = {
    kind: "table",
    caption: "Every entry",
    columns: [
      { title: "No.", align: "right", share: 0.5 },
      { title: "At", share: 1.5 },
      { title: "What", share: 2 },
      { title: "Hash", share: 3 },
    ],
    rows: events.map(({ at, body, hash }, index) => [`${index + 1}`, at, body.type, hash]),
  };
  const gauges: Block = {
    kind: "table",
    caption: "Every reading",
    columns: [
      { title: "Step", share: 2 },
      { title: "At", share: 2 },
      { title: "Casing", align: "right" },
      { title: "Wellhead", align: "right" },
    ],
    rows: readings.map(({ step, at, entries: read }) => [
      step,
      at,
      ...read.slice(0, 2).map(({ value }) => ("value" in value ? `${value.value}` : value.kind)),
    ]),
  };
  const chart: Block = {
    kind: "chart",
    chart: {
      title: "Casing pressure while levelling",
      x: {
        label: "reading",
        from: 0,
        to: 1000,
        ticks: [0, 500, 1000].map((at) => ({ at, label: `${at}` })),
      },
      y: {
        label: "psig",
        from: 760,
        to: 745,
        ticks: [745, 750, 755, 760].map((at) => ({ at, label: `${at}` })),
      },
      series: [
        {
          name: "measured",
          shape: "dots",
          of: "measured",
          points: Array.from({ length: 1000 }, (_, index) => [index, 750 + (index % 7)]),
        },
      ],
    },
  };
  const photographs = [...pictures.keys()].map(
    (picture, index): Block => ({
      kind: "photograph",
      picture,
      width: 1600,
      height: 1200,
      caption: `Photograph ${index + 1}, before the tool went into the lubricator.`,
    }),
  );
  const document: ReportDocument = {
    title: "EM-21, change-out at mandrel 3",
    subtitle: `${events.length} entries, ${PHOTOGRAPHS} photographs`,
    foot: "Latchline report of a long job",
    asOf: events.at(-1)?.at ?? "",
    parts: [
      { id: "readings", title: "Readings", blocks: [chart, gauges] },
      { id: "photographs", title: "Photographs", newPage: true, blocks: photographs },
      { id: "entries", title: "Entries", newPage: true, blocks: [entries] },
    ],
  };
  return { document, pictures };
}
