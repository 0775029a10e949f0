import type { Channel } from "../../results/measurements.ts";
import { fieldById } from "../../sheet/walk.ts";
import type { Reading } from "../../state/jobState.ts";
import { quantitySI } from "../../state/measurementsOf.ts";
import { quantityAxis, timeAxis, upwards } from "../axis.ts";
import type { Block, Series } from "../document.ts";
import type { Reported } from "../reported.ts";
import { clockOf } from "../when.ts";

const drawn: readonly {
  readonly channel: Channel;
  readonly name: string;
  readonly line: Series["shape"];
}[] = [
  { channel: "casing pressure", name: "Casing", line: "line" },
  { channel: "wellhead pressure", name: "Wellhead", line: "dashed line" },
];

interface Point {
  readonly at: string;
  readonly si: number;
}

/** Pressures at surface over the time of the job, with what they were held against where it was said. */
export function pressureBlocks(of: Reported): Block[] {
  const { state, writer, record } = of;
  const read = drawn.map((each) => ({ ...each, points: pointsOf(each.channel, of) }));
  const all = read.flatMap(({ points }) => points);
  if (all.length < 2) return [];
  const held = record.comparisons.filter(({ reading }) =>
    drawn.some(({ channel }) => channelOf(reading, of) === channel),
  );
  const expected = held.flatMap(({ reading, expected: si }): Point[] =>
    si === undefined ? [] : [{ at: reading.takenAt, si }],
  );
  const values = [...all, ...expected].map(({ si }) => si);
  const x = timeAxis([...all.map(({ at }) => at), ...startAndClose(of)], clockOf);
  const y = quantityAxis("Pressure", "pressure", writer, [
    ...values,
    state.started ? writer.atmosphere : 0,
  ]);
  const series = (
    name: string,
    shape: Series["shape"],
    kind: Series["of"],
    points: readonly Point[],
  ): Series[] =>
    points.length === 0
      ? []
      : [{ name, shape, of: kind, points: points.map(({ at, si }) => [x.place(at), y.shown(si)]) }];
  return [
    {
      kind: "chart",
      chart: {
        title: "Casing and wellhead pressure over the time of the job",
        x: x.axis,
        y: upwards(y.axis),
        series: [
          ...read.flatMap(({ name, line, points }) => [
            ...series(name, line, "measured", points),
            ...series(`${name}, as read`, "dots", "measured", points),
          ]),
          ...series("Expected", "rings", "calculated", expected),
        ],
      },
    },
  ];
}

/** Readings of a channel by the time of the gauge, those of attempts before among them: they were measured. */
function pointsOf(channel: Channel, of: Reported): Point[] {
  return of.state.readings
    .flatMap((reading): Point[] => {
      const si = quantitySI(reading, of.writer.atmosphere);
      return si !== undefined && channelOf(reading, of) === channel
        ? [{ at: reading.takenAt, si }]
        : [];
    })
    .sort((one, other) => (one.at < other.at ? -1 : 1));
}

/** What a pressure at surface is of: by its field's channel, or by the step in which both were left. */
function channelOf({ field: id }: Reading, { programme }: Reported): Channel | undefined {
  const field = fieldById(programme.sheet, id);
  if (field?.kind !== "quantity" || field.dimension !== "pressure") return undefined;
  return field.channel ?? leftAt[id];
}

/** Read when the crew left: they feed no calculation of the run. */
const leftAt: Readonly<Record<string, Channel>> = {
  "final-casing": "casing pressure",
  "final-wellhead": "wellhead pressure",
};

const startAndClose = ({ state }: Reported): string[] =>
  [state.started, state.closed].flatMap((event) => (event ? [event.at] : []));
