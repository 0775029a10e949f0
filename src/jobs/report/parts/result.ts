import { closeOutOf } from "../../closeOut/closeOut.ts";
import { fieldInWords } from "../../entryInWords.ts";
import { focus, pocketsOf } from "../../pockets.ts";
import { targetMandrel, valveToPull } from "../../programme.ts";
import { type Quantity, toSI } from "../../quantity.ts";
import type { Valve } from "../../records/valve.ts";
import { planAgainstActual } from "../../review/planActual.ts";
import { serialInWords } from "../../serial.ts";
import { pocketSuffix } from "../../sheet/changeOut/pocket.ts";
import { sheetWanted } from "../../sheet/sheetWanted.ts";
import { fieldById } from "../../sheet/walk.ts";
import { closingHash, inFours } from "../../state/closingHash.ts";
import { latestReading } from "../../state/jobState.ts";
import { quantitySI } from "../../state/measurementsOf.ts";
import { pocketHolds } from "../../state/pocketAtWork.ts";
import { openQuestions } from "../../state/questions.ts";
import type { Verdict } from "../../verdict/verdict.ts";
import type { Block, Cell, Part } from "../document.ts";
import { byWhom, type Reported } from "../reported.ts";
import { shortfall } from "../stageInWords.ts";
import { when, whenInFull, zoneInWords } from "../when.ts";
import { answerOf } from "./closeOut.ts";

type Row = readonly [name: string, value: Cell];

/** One page: what was done, how the well was left, who stands for it, and whether that is final. */
export function resultPart(of: Reported): Part {
  const { programme, state, record } = of;
  const lacks = shortfall(state, record.broken);
  const { well, job } = programme;
  const blocks: Block[] = [
    ...(lacks ? [{ kind: "words" as const, text: lacks, tone: "problem" as const }] : []),
    ...(well?.invented || job.invented
      ? [
          {
            kind: "words" as const,
            text: "Invented for the demonstration: no such well and no such people.",
            tone: "strong" as const,
          },
        ]
      : []),
    { kind: "facts", rows: identity(of) },
    { kind: "heading", text: "Pulled, set and left" },
    ...pocketsOf(job).map((pocket): Block => ({ kind: "facts", rows: atPocket(of, pocket) })),
    { kind: "facts", rows: asLeft(of) },
    { kind: "heading", text: "Record" },
    { kind: "facts", rows: standingOf(of) },
  ];
  return { id: "result", title: "Result", blocks };
}

function identity({ programme, state, now }: Reported): Row[] {
  const { well, job } = programme;
  const { started, closed } = state;
  const moment = (event: typeof started, otherwise: string) =>
    event ? whenInFull(event.at) : otherwise;
  return [
    ["Well", { text: well?.name ?? "not on record", tone: "strong" }],
    ["Field", well?.field ?? "not on record"],
    ["Reason", job.reason],
    ["Started", moment(started, "not started")],
    ["Closed", moment(closed, "not closed")],
    ["Programme", `revision ${state.revision} for ${job.day}`],
    ["Times are in", zoneInWords(state.events.at(-1)?.at ?? now)],
  ];
}

function atPocket({ programme, state, writer }: Reported, pocket: string): Row[] {
  const write = <D extends "length" | "pressure">(dimension: D, of: Quantity<D>) =>
    writer.write(dimension, toSI(dimension, of, writer.atmosphere));
  const own = focus(programme, pocket);
  const mandrel = targetMandrel(own);
  const place = pocketsOf(programme.job).indexOf(pocket);
  const read = (field: string): string | undefined => {
    const id = `${field}${pocketSuffix(place)}`;
    const reading = latestReading(state, id);
    if (!reading) return undefined;
    const { value } = reading;
    const si = quantitySI(reading, writer.atmosphere);
    // On this page in the units of whoever reads it, as in the close-out; the run sheet has it as entered.
    return value.kind === "quantity" && si !== undefined
      ? writer.write(value.dimension, si)
      : fieldInWords(fieldById(programme.sheet, id), value);
  };
  const { work } = sheetWanted(own.job);
  const holds = pocketHolds(state, pocket);
  const goesIn = own.replacement?.serial ?? "no valve chosen";
  const condition = read("pulled-condition");
  const rack = own.replacement?.card?.testRackOpening60F;
  const card = read("new-card");
  const setDepth = read("set-depth") ?? read("pocket-depth");
  return [
    [
      "Mandrel",
      mandrel
        ? `${mandrel.number}, ${write("length", mandrel.depthAlongHole)} along hole`
        : "not on record",
    ],
    ...(work === "set into an empty pocket"
      ? []
      : ([
          [
            "Pulled",
            holds === undefined
              ? `nothing yet; planned ${valveToPull(own)?.serial ?? "not known"}`
              : [serialOf(read("pulled-serial"), valveToPull(own)) ?? "serial not read", condition]
                  .filter(Boolean)
                  .join(", "),
          ],
        ] as const)),
    [
      "Set",
      holds === "replacement"
        ? (serialOf(read("new-serial"), own.replacement) ?? goesIn)
        : `nothing; planned ${goesIn}`,
    ],
    ["Depth by the counter", setDepth ?? "not read"],
    ...(own.replacement?.kind === "dummy"
      ? []
      : ([
          [
            "Set pressure at 60 °F",
            [
              card && `${card} on the card, read on location`,
              rack && `${write("pressure", rack)} on record`,
            ]
              .filter(Boolean)
              .join("; ") || "not known",
          ],
        ] as const)),
    ...(holds === "nothing"
      ? [["Pocket now holds", { text: "nothing", tone: "problem" }] as const]
      : []),
  ];
}

const serialOf = (read: string | undefined, record: Valve | undefined) =>
  read === undefined ? record?.serial : serialInWords(read, record?.serial);

function asLeft({ state, now, writer }: Reported): Row[] {
  const sections = closeOutOf(state, now, writer);
  const pressures = sections
    .flatMap(({ lines }) => lines)
    .filter(({ id }) => id === "final-pressures")
    .map((line): Row => ["Pressures when left", answerOf(line)]);
  const left = sections.find(({ id }) => id === "left")?.lines ?? [];
  return [...left.map((line): Row => [line.label, answerOf(line)]), ...pressures];
}

function standingOf({ state, record, verdict }: Reported): Row[] {
  const { closed, decidedBy, events, stage } = state;
  const hash = closingHash(state);
  const { remark, gaps } = closed?.body.type === "run closed" ? closed.body : {};
  const decided = stage === "approved" || stage === "sent back" ? decidedBy : undefined;
  return [
    ["Verdict on the well", verdictInWords(verdict)],
    ["Exceptions and deviations", ordinaryInWords(state, record)],
    ["Plan against actual", planAgainstActual(record.comparisons).says],
    ...(remark ? [["Closing remark", onThisPage(remark)] as const] : []),
    ...(gaps ? [["Left unanswered", gapsInWords(gaps)] as const] : []),
    [
      "Decision",
      decided
        ? {
            text: `${decisionWords[decided.decision]}, ${byWhom(decided.event)}, ${whenInFull(decided.event.at)}`,
            tone: "strong",
          }
        : { text: "none yet", tone: "problem" },
    ],
    ...(decided?.remark ? [["Remark of the engineer", onThisPage(decided.remark)] as const] : []),
    ["Questions", questionsInWords(state)],
    ["Log", logInWords(events.length, record)],
    ["Closing hash", hashInWords(hash, closed !== undefined, record)],
  ];
}

function verdictInWords(verdict: Verdict | undefined): Cell {
  if (!verdict) return "cannot be told";
  const { says, nearEdge, words, needs, read } = verdict;
  const edge = nearEdge ? ", near the edge" : "";
  switch (says) {
    case "consistent":
      return `consistent${edge}: what was read on ${read ? when(read.takenAt) : "lift"} fits the well as left`;
    case "not consistent":
      return { text: `not consistent${edge}: ${words}`, tone: "problem" };
    case "cannot be told":
      return { text: `cannot be told: needs ${needs.join("; ")}`, tone: "strong" };
  }
}

const decisionWords = {
  approved: "Approved",
  "approved with remarks": "Approved with remarks",
  "sent back": "Sent back",
} as const;

function questionsInWords(state: Reported["state"]): Cell {
  const { length } = state.questions;
  if (length === 0) return "none asked";
  const open = openQuestions(state).length;
  return open > 0
    ? { text: `${length}, ${open} without answer`, tone: "problem" }
    : `${length}, all answered`;
}

/** The result keeps to its page; what is longer stands whole further on. */
const LONGEST = 240;
const onThisPage = (words: string) =>
  words.length <= LONGEST ? words : "a long one, whole under Notes and decisions";

/** How many lines of the close-out nothing answers, and why the run was closed all the same. */
const gapsInWords = ({
  items,
  reason,
}: {
  readonly items: readonly string[];
  readonly reason: string;
}) =>
  `${items.length} ${items.length === 1 ? "line" : "lines"} (see Notes and decisions). Why: ${onThisPage(reason)}`;

/** Counted by kind, in the order they are listed. */
function ordinaryInWords(
  { exceptions }: Reported["state"],
  { remarkable }: Reported["record"],
): string {
  const counts = new Map<string, number>();
  for (const { kind } of remarkable) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  if (counts.size === 0) return "none";
  const each = [...counts].map(([kind, count]) => `${kind} ${count}`);
  const none = exceptions.length === 0 ? "no exception; " : "";
  return `${none}${remarkable.length} in all: ${each.join(", ")}`;
}

/** A log that does not hold may end in the hash of the one that did: it is shown of a log that holds only. */
function hashInWords(
  hash: string | undefined,
  isClosed: boolean,
  { broken }: Reported["record"],
): Cell {
  if (broken.length > 0) return { text: "none: the log does not hold", tone: "problem" };
  return hash && isClosed ? inFours(hash) : "none: not closed";
}

function logInWords(events: number, { broken }: Reported["record"]): Cell {
  return broken.length > 0
    ? { text: `${events} events; it does not hold`, tone: "problem" }
    : `${events} events, unbroken`;
}
