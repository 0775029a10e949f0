import { observedFields } from "../../commands/observe.ts";
import { asEntered } from "../../display.ts";
import { correctedInWords } from "../../liftInWords.ts";
import type { JobEvent } from "../../log/event.ts";
import { contingencyById } from "../../sheet/walk.ts";
import type { ConditionState } from "../../state/conditions.ts";
import type { GivenRelease } from "../../state/holdState.ts";
import type { Branch, Exception, LiftObserved, Reading, Signature } from "../../state/jobState.ts";
import type { HoldItem, ItemState, StepState } from "../../state/progress.ts";
import type { Block, Cell, Column, Part } from "../document.ts";
import { labelOf, readingInWords } from "../readingInWords.ts";
import { byWhom, entryNumber, type Reported } from "../reported.ts";
import { when } from "../when.ts";

type Row = readonly Cell[];

const columns: readonly Column[] = [
  { title: "Entry", align: "right", share: 0.7 },
  { title: "Time", share: 1.5 },
  { title: "Step, reading or condition", share: 3 },
  { title: "Entered or found", share: 3.4 },
  { title: "By", share: 1.9 },
];

/** The sheet as it was worked: every step and hold point with its times and entries, attempts before among them. */
export function runSheetPart(of: Reported): Part {
  const { items } = of.progress;
  const phases = [...new Set(items.map(({ phase }) => phase))];
  const { sheet } = of.programme;
  return {
    id: "run-sheet",
    title: "Run sheet as it was worked",
    newPage: true,
    blocks: [
      {
        kind: "words",
        text: `${sheet.title}, run sheet version ${sheet.version}. "Entry" is the place in the log; "Time" is when a gauge was read or a thing was recorded.`,
        tone: "soft",
      },
      ...phases.flatMap((phase): Block[] => [
        { kind: "heading", text: phase.title },
        {
          kind: "table",
          columns,
          rows: items.filter((item) => item.phase === phase).flatMap((item) => itemRows(item, of)),
        },
      ]),
      ...besideBlocks(of),
    ],
  };
}

const itemRows = (item: ItemState, of: Reported): Row[] =>
  item.type === "hold" ? holdRows(item, of) : stepRows(item, of);

function stepRows(item: StepState, of: Reported): Row[] {
  const { state } = of;
  const { id, step, status, event } = item;
  const left = state.leftOut.get(id);
  const says =
    status === "left out"
      ? `left out: ${left?.reason ?? ""}`
      : status === "done"
        ? "done"
        : "not done";
  const before = state.doneBefore.filter((each) => each.step === id);
  const apart = state.doneApart.filter((each) => each.step === id);
  return [
    row(of, event, title(step.title), says),
    ...before.map(({ event: done, again }) =>
      row(of, done, step.title, `done in an attempt before, opened again ${when(again.at)}`),
    ),
    ...apart.map(({ event: other }) =>
      row(of, other, step.title, "done on another tablet, too, that did not know of it"),
    ),
    ...state.readings.filter((each) => each.step === id).map((each) => readingRow(of, each)),
    ...state.notes
      .filter((each) => each.step === id)
      .map((note) => row(of, note.event, "Note", note.text)),
    ...photographRows(of, id),
  ];
}

/** A row of the log; of what has not happened it has neither place nor time. */
function row(of: Reported, event: JobEvent | undefined, what: Cell, says: Cell, by?: string): Row {
  return event
    ? [entryNumber(of.state, event), when(event.at), what, says, by ?? byWhom(event)]
    : ["", "", what, says, ""];
}

const title = (text: string): Cell => ({ text, tone: "strong" });

function readingRow(of: Reported, reading: Reading): Row {
  const { event, takenAt, field, setAside } = reading;
  const says = readingInWords(of.state, reading);
  return [
    entryNumber(of.state, event),
    when(takenAt),
    labelOf(of.state, field),
    setAside ? { text: says, tone: "soft" } : says,
    event.actor.name,
  ];
}

function photographRows(of: Reported, at: string): Row[] {
  return of.state.photographs
    .filter((each) => each.at === at)
    .map(({ event, caption }) =>
      row(of, event, "Photograph", caption ?? "without words; see Photographs"),
    );
}

function holdRows({ id, hold }: HoldItem, of: Reported): Row[] {
  const { state } = of;
  const { history, status, conditions } = hold;
  const heading = title(`Hold point: ${hold.hold.title}`);
  const releases = history.flatMap((each) => releaseRows(each, of, heading));
  const open: Row[] =
    history.length > 0 ? [] : [row(of, undefined, heading, status), ...conditions.map(foundRow)];
  return [
    ...releases,
    ...open,
    ...state.signatures.filter((each) => each.hold === id).map((each) => signedRow(each, of)),
    ...state.exceptions.filter((each) => each.hold === id).map((each) => passedRow(each, of)),
    ...photographRows(of, id),
  ];
}

/** Who released it, on what, and what became of the release. */
function releaseRows(given: GivenRelease, of: Reported, heading: Cell): Row[] {
  const { release, conditions } = given;
  const stands = [...new Set(release.basis)]
    .map((hash) => of.state.position.get(hash))
    .filter((place) => place !== undefined)
    .sort((one, other) => one - other)
    .map((place) => place + 1);
  const on =
    stands.length > 0
      ? `, on ${stands.length === 1 ? "entry" : "entries"} ${stands.join(", ")}`
      : "";
  return [
    row(of, release.event, heading, {
      text: `${became(given, of)}${on}`,
      tone: given.rejected !== undefined || given.brokenBy ? "problem" : "strong",
    }),
    ...conditions.map(foundRow),
  ];
}

function became({ rejected, brokenBy, again, conditions }: GivenRelease, of: Reported): string {
  if (rejected !== undefined) return `a release that does not count: ${rejected}`;
  const excepted = conditions.some(({ state }) => state === "excepted");
  const released = excepted ? "released under exception" : "released";
  if (again) return `${released} in the attempt before ${when(again.at)}`;
  if (brokenBy) {
    return `${released}, and voided by entry ${entryNumber(of.state, brokenBy)} of ${when(brokenBy.at)}`;
  }
  return released;
}

/** A condition as it was found. */
function foundRow({ condition, says, state }: ConditionState): Row {
  const found = says || (state === "met" ? "met" : state);
  return ["", "", condition.text, state === "excepted" ? `let pass: ${found}` : found, ""];
}

function signedRow({ event, by, drawn, setAside }: Signature, of: Reported): Row {
  const how = drawn ? "signed" : "signed by name";
  const says = setAside ? `${how}, for the attempt before ${when(setAside.at)}` : how;
  return row(of, event, `Signature, ${by.role}`, says, `${by.name}, ${by.role}`);
}

function passedRow(
  { event, condition, covers, reason, authoriser, setAside }: Exception,
  of: Reported,
): Row {
  const aside = setAside ? ` (for the attempt before ${when(setAside.at)})` : "";
  const known = of.progress.items
    .flatMap((item) => (item.type === "hold" ? item.hold.hold.conditions : []))
    .find(({ id }) => id === condition);
  return row(
    of,
    event,
    `Exception: ${known?.text ?? condition}`,
    { text: `${covers} Reason: ${reason}${aside}`, tone: "problem" },
    `${authoriser.name}, ${authoriser.role}`,
  );
}

/** What went otherwise than planned, with what was noted of it, and readings that belong to no step: those on lift, too. */
function besideBlocks(of: Reported): Block[] {
  const { state, progress } = of;
  const onSheet = new Set(progress.items.map(({ id }) => id));
  const readings = state.readings.filter(({ step }) => !onSheet.has(step));
  const fields = observedFields(state);
  const rows = [
    ...state.branches.flatMap((branch) => branchRows(branch, of)),
    ...readings.map((each) => readingRow(of, each)),
    ...state.observed.map((each) => observedRow(of, each, fields)),
  ].sort((one, other) => Number(one[0]) - Number(other[0]));
  if (rows.length === 0) return [];
  return [
    { kind: "heading", text: "Beside the sheet: what went otherwise, and what was read on lift" },
    { kind: "table", columns, rows },
  ];
}

function observedRow(
  of: Reported,
  { event, observed, corrected }: LiftObserved,
  fields: ReturnType<typeof observedFields>,
): Row {
  const figures = fields.flatMap(({ id, label }) => {
    const quantity = observed[id];
    return quantity ? [`${label} ${asEntered(quantity)}`] : [];
  });
  const says = `${figures.join("; ")}. From ${observed.source}.`;
  return [
    entryNumber(of.state, event),
    when(observed.takenAt),
    "The well on lift",
    corrected ? { text: `${says} (${correctedInWords(corrected)})`, tone: "soft" } : says,
    byWhom(event),
  ];
}

function branchRows({ event, contingency, closed }: Branch, of: Reported): Row[] {
  const known = contingencyById(of.programme.sheet, contingency);
  const way = known?.options.find(({ id }) => id === closed?.option)?.label;
  const name = known?.title ?? contingency;
  return [
    row(of, event, title(name), closed ? "begun" : "begun, not dealt with yet"),
    ...(closed
      ? [row(of, closed.event, name, [way, closed.outcome].filter(Boolean).join(". "))]
      : []),
  ];
}
