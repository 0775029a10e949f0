import { observedFields } from "../commands/observe.ts";
import { asEntered } from "../display.ts";
import { fieldInWords } from "../entryInWords.ts";
import type { Cell, Table } from "../files/tabular.ts";
import type { EntryValue, JobEvent } from "../log/event.ts";
import { fromSI, toSI } from "../quantity.ts";
import type { Comparison } from "../review/planActual.ts";
import type { ReviewRecord } from "../review/record.ts";
import { contingencyById, fieldById, stepById } from "../sheet/walk.ts";
import type { JobState, LiftObserved, Reading } from "../state/jobState.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { siUnit } from "./siUnit.ts";

const columns = [
  "Read at (UTC)",
  "Step",
  "Field",
  "Value",
  "Unit",
  "Value, SI",
  "SI unit",
  "Expected, in the unit entered",
  "At most, in the unit entered",
  "Expected, SI",
  "At most, SI",
  "Corrected from",
  "Reason of correction",
  "Set aside",
  "By",
  "Role",
  "Source",
  "Recorded at (UTC)",
  "Device",
  "Sequence",
  "Event hash",
] as const;

/**
 * Every reading of a job, one a row, in the order of the log: what stands, and what it was before it was corrected. What
 * was read of the well on lift is among them, a figure a row.
 *
 * @param record of the same state: what each reading was held against
 * @param atmosphere absolute, Pa, that gauge pressures are counted from
 */
export function readingsTable(state: JobState, record: ReviewRecord, atmosphere: number): Table {
  const held = new Map(record.comparisons.map((each) => [each.reading, each]));
  return {
    name: "Readings",
    columns,
    rows: [
      ...state.readings.map((each) => ({
        event: each.event,
        row: row(each, state, held.get(each), atmosphere),
      })),
      ...state.observed.flatMap((each) =>
        liftRows(each, state, atmosphere).map((row) => ({ event: each.event, row })),
      ),
    ]
      .sort((one, other) => placeOf(one, state) - placeOf(other, state))
      .map(({ row }) => row),
  };
}

const placeOf = ({ event }: { readonly event: JobEvent }, { position }: JobState) =>
  position.get(event.hash) ?? -1;

function row(
  reading: Reading,
  { programme }: JobState,
  held: Comparison | undefined,
  atmosphere: number,
): Cell[] {
  const { value, corrections, event, takenAt, setAside } = reading;
  const sheet = programme?.sheet;
  const field = sheet && fieldById(sheet, reading.field);
  const step =
    sheet && (stepById(sheet, reading.step)?.title ?? contingencyById(sheet, reading.step)?.title);
  const words = (of: EntryValue) => fieldInWords(field, of);
  const si = quantitySI(reading, atmosphere);
  const entered = (of: number | undefined) =>
    of === undefined || value.kind !== "quantity"
      ? undefined
      : fromSI(value.dimension, of, value.unit, atmosphere);
  return [
    takenAt,
    step ?? reading.step,
    field?.label ?? reading.field,
    value.kind === "quantity" ? value.value : value.kind === "count" ? value.count : words(value),
    value.kind === "quantity" ? value.unit : "",
    si,
    value.kind === "quantity" ? siUnit(value.dimension) : "",
    entered(held?.expected),
    entered(held?.most),
    held?.expected,
    held?.most,
    corrections.length > 0 ? earlierInWords(reading, words) : "",
    corrections.map(({ reason, event: by }) => `${reason} (${by.actor.name})`).join("; "),
    setAside ? `of the attempt before ${setAside.at}` : "",
    ...whence(event, "run sheet"),
  ];
}

const whence = ({ actor, at, device, sequence, hash }: JobEvent, source: string): Cell[] => [
  actor.name,
  actor.role,
  source,
  at,
  device,
  sequence,
  hash,
];

/** A reading on lift is held against nothing of the run; its correction is a reading of its own, and it is set aside. */
function liftRows(
  { event, observed, corrected }: LiftObserved,
  state: JobState,
  atmosphere: number,
): Cell[][] {
  const { corrects } = observed;
  const was = state.observed.find((each) => each.event.hash === corrects?.event)?.observed;
  const readThen = was && was.takenAt !== observed.takenAt ? `, read ${was.takenAt}` : "";
  return observedFields(state).flatMap(({ id, label, dimension }): Cell[][] => {
    const before = was?.[id];
    const quantity = observed[id];
    if (!quantity) return [];
    return [
      [
        observed.takenAt,
        "The well on lift",
        label,
        quantity.value,
        quantity.unit,
        toSI(dimension, quantity, atmosphere),
        siUnit(dimension),
        ...Array.from({ length: 4 }, () => ""),
        was ? `${before ? asEntered(before) : "nothing"}${readThen}` : "",
        corrects ? `${corrects.reason} (${event.actor.name})` : "",
        corrected
          ? `corrected ${corrected.event.at} by ${corrected.event.actor.name}: ${corrected.reason}`
          : "",
        ...whence(event, observed.source),
      ],
    ];
  });
}

/** What a reading was before its last correction, oldest first. */
function earlierInWords(
  { original, corrections }: Reading,
  words: (of: EntryValue) => string,
): string {
  const between = corrections
    .slice(0, -1)
    .flatMap(({ event }) => (event.body.type === "correction" ? [event.body.value] : []));
  return [original, ...between].map(words).join("; then ");
}

/** Every event of a job, one a row: what the record as JSON has whole. */
export function eventsTable({ events }: JobState): Table {
  return {
    name: "Events",
    columns: [
      "Entry",
      "Recorded at (UTC)",
      "What",
      "Of",
      "By",
      "Role",
      "Device",
      "Sequence",
      "Tick",
      "Previous hash",
      "Hash",
    ],
    rows: events.map(({ at, body, actor, device, sequence, tick, previous, hash }, index) => [
      index + 1,
      at,
      body.type,
      "step" in body
        ? (body.step ?? "")
        : "hold" in body
          ? body.hold
          : "field" in body
            ? body.field
            : "",
      actor.name,
      actor.role,
      device,
      sequence,
      tick,
      previous ?? "",
      hash,
    ]),
  };
}
