import { describeWarning } from "../../../calc/describeWarning.ts";
import type { Warning } from "../../../calc/method.ts";
import type { Writer } from "../../display.ts";
import { pocketsOf } from "../../pockets.ts";
import { originInWords } from "../../results/originInWords.ts";
import type { Given, Traced } from "../../results/traced.ts";
import type { Block, Cell, Column } from "../document.ts";
import type { Reported } from "../reported.ts";
import type { UsedResult } from "../usedResults.ts";
import { when } from "../when.ts";
import type { Methods } from "./methods.ts";

/** A result with the number by which others lead to it. */
export interface Numbered extends UsedResult {
  readonly number: number;
}

/** Numbers of all results, by their keys. */
export type Numbers = ReadonlyMap<string, number>;

/** As many stand side by side; more go on in a further table. */
const MOST_BESIDE = 5;

const givenColumns: readonly Column[] = [
  { title: "Symbol", share: 0.7 },
  { title: "What went in", share: 2.8 },
  { title: "Value", align: "right", share: 2 },
  { title: "From", share: 3 },
];

/**
 * What was worked out once, or several times in the same way.
 *
 * @param all of one method and formula
 */
export function workingBlocks(
  all: readonly Numbered[],
  numbers: Numbers,
  methods: Methods,
  of: Reported,
): Block[] {
  const [first, second] = all;
  if (!first) return [];
  const { method } = first.traced;
  const told: Told = { numbers, of, by: methods.nameOf(method) };
  return [
    { kind: "heading", text: `${spanOf(all)} ${labelOf(all)}${pocketInWords(first, of)}` },
    { kind: "words", text: method.formula, keep: true },
    ...(second ? besideBlocks(all, told) : [aloneBlock(first, told)]),
    ...notesOf(all, told),
  ];
}

interface Told {
  readonly numbers: Numbers;
  readonly of: Reported;
  /** the method, in words */
  readonly by: string;
}

const spanOf = (all: readonly Numbered[]) =>
  [all[0], all.length > 1 ? all.at(-1) : undefined]
    .flatMap((each) => (each ? [`(${each.number})`] : []))
    .join(" to ");

const OF_MANDREL = /, mandrel \d+$/;
const withoutMandrel = (label: string) => label.replace(OF_MANDREL, "");

/** What several have in common: their figure, of whichever mandrel, or else the way they are worked out. */
function labelOf(all: readonly Numbered[]): string {
  const [first, second] = all;
  if (!first || !second) return first?.traced.label ?? "";
  return isOneFigure(all) ? withoutMandrel(first.traced.label) : first.traced.method.name;
}

const isOneFigure = ([first, ...others]: readonly Numbered[]) =>
  others.every(({ family }) => family === first?.family);

/** Which pocket it is for, where the job has several. */
export function pocketInWords(
  { pocket, traced }: UsedResult,
  { programme }: Pick<Reported, "programme">,
): string {
  if (pocketsOf(programme.job).length === 1 || / of mandrel \d|by the verdict/.test(traced.id)) {
    return "";
  }
  const id = pocket ?? programme.job.mandrel;
  const mandrel = programme.well?.mandrels.find((each) => each.id === id);
  return mandrel ? `, mandrel ${mandrel.number}` : "";
}

function aloneBlock(used: Numbered, told: Told): Block {
  return {
    kind: "table",
    columns: givenColumns,
    rows: [
      ...used.traced.givens.map((given) => givenRow(given, used, told)),
      ["=", told.by, outcomeCell(used.traced, told.of.writer), usedForInWords(used, told.of)],
    ],
  };
}

/** What is the same each time stands once; what is not, in a column for each time, with what came of it. */
function besideBlocks(all: readonly Numbered[], told: Told): Block[] {
  const rowsOf = all.map((each) => each.traced.givens.map((given) => givenRow(given, each, told)));
  const [rows = []] = rowsOf;
  const isSame = (index: number) => {
    const row = JSON.stringify(rows[index]);
    return rowsOf.every((each) => JSON.stringify(each[index]) === row);
  };
  const shared = rows.filter((_, index) => isSame(index));
  const own = [...rows.keys()].filter((index) => !isSame(index));
  const named = isOneFigure(all);
  return [
    ...(shared.length > 0 ? [{ kind: "table" as const, columns: givenColumns, rows: shared }] : []),
    ...inParts(all).map(
      (part): Block => ({
        kind: "table",
        columns: [
          { title: "Symbol", share: 0.7 },
          { title: "What went in", share: 2.6 },
          ...part.map(({ number, traced }) => ({
            title: `(${number})${OF_MANDREL.exec(traced.label)?.[0] ?? ""}`,
            align: "right" as const,
            share: 5.2 / part.length,
          })),
        ],
        rows: [
          ...(named ? [] : [["", "", ...part.map(({ traced }) => withoutMandrel(traced.label))]]),
          ...own.map((index) => besideRow(part, index, told)),
          ["=", told.by, ...part.map(({ traced }) => outcomeCell(traced, told.of.writer))],
        ],
      }),
    ),
    { kind: "words", tone: "soft", text: usesInWords(all, told.of) },
  ];
}

/** One figure that went in, in a column for each time. From one place all of them, that is named once. */
function besideRow(part: readonly Numbered[], index: number, { numbers, of }: Told): Cell[] {
  const cells = part.flatMap((used) => {
    const given = used.traced.givens[index];
    if (!given) return [];
    const number = leadsTo(given, used, numbers);
    const origin = originInWords(given.origin, when);
    return [{ given, value: valueCell(given, of.writer), origin, number }];
  });
  const what = [...new Set(cells.map(({ given }) => withoutMandrel(given.name)))].join(", or ");
  const places = new Set(cells.map(({ origin, number }) => `${origin} ${number ?? ""}`));
  const [first] = cells;
  const isOnePlace = places.size === 1 && first?.number === undefined;
  return [
    first?.given.symbol ?? "",
    isOnePlace ? `${what}, ${first?.origin}` : what,
    ...cells.map(({ value, origin, number }) => {
      const from = number === undefined ? origin : `(${number})`;
      return isOnePlace ? value : { ...value, text: `${value.text} ${from}` };
    }),
  ];
}

/** Said once where it is the same of several, with the numbers of those that it is of, unless it is of all. */
function usesInWords(all: readonly Numbered[], of: Reported): string {
  const uses = new Map<string, number[]>();
  for (const used of all) {
    const says = sentence(usedForInWords(used, of));
    uses.set(says, [...(uses.get(says) ?? []), used.number]);
  }
  return [...uses]
    .map(([says, numbers]) => (uses.size === 1 ? says : `${listed(numbers)} ${says}`))
    .join(" ");
}

const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;

/** Evenly, so that none is left with a single column. */
function inParts<T>(all: readonly T[]): T[][] {
  const parts = Math.ceil(all.length / MOST_BESIDE);
  const size = Math.ceil(all.length / parts);
  return Array.from({ length: parts }, (_, part) => all.slice(part * size, (part + 1) * size));
}

/** What a result was used for; where only another needs it, when it was first worked out. */
export function usedForInWords({ usedFor, at }: UsedResult, { state }: Reported): string {
  const moment = (of: string) => (state.started ? `, ${when(of)}` : "");
  return usedFor.length === 0
    ? `for another of these${moment(at)}`
    : `used for ${usedFor.map((use) => `${use.what}${moment(use.at)}`).join("; ")}`;
}

function outcomeCell({ outcome, dimension }: Traced, writer: Writer): Cell {
  switch (outcome.state) {
    case "known":
      return { text: writer.write(dimension, outcome.si), tone: "calculated" };
    case "missing":
      return { text: `not known: needs ${outcome.needs.join("; ")}`, tone: "problem" };
    case "no answer":
      return { text: `no answer: ${outcome.why}`, tone: "problem" };
  }
}

function valueCell({ dimension, si, shown, origin }: Given, writer: Writer): Exclude<Cell, string> {
  if (si === undefined) return { text: "not known", tone: "problem" };
  const text = shown ?? writer.write(dimension, si);
  return origin.kind === "calculated" ? { text, tone: "calculated" } : { text };
}

/** The number of the result that a figure is, among all; undefined where it is none of them. */
function leadsTo({ origin }: Given, { needs }: UsedResult, numbers: Numbers): number | undefined {
  const key = origin.kind === "calculated" ? needs.get(origin.result) : undefined;
  return key === undefined ? undefined : numbers.get(key);
}

function givenRow(given: Given, used: Numbered, { numbers, of }: Told): Cell[] {
  const number = leadsTo(given, used, numbers);
  const from = originInWords(given.origin, when);
  return [
    given.symbol,
    given.name,
    valueCell(given, of.writer),
    number === undefined ? from : `${from} (${number})`,
  ];
}

/**
 * What a reader has to know; of several results with the numbers of those that it is of, unless it is of all. What is told
 * where a figure among the givens is worked out is not told again, but where to look.
 */
function notesOf(all: readonly Numbered[], { numbers, of }: Told): Block[] {
  const notes = new Map<string, number[]>();
  const elsewhere = new Set<number>();
  for (const used of all) {
    const told = new Map(
      used.traced.givens.flatMap((given) => {
        const at = leadsTo(given, used, numbers);
        return at === undefined
          ? []
          : (given.warnings ?? []).map((each) => [inWords(each, of), at] as const);
      }),
    );
    for (const warning of used.traced.warnings) {
      const says = inWords(warning, of);
      const at = told.get(says);
      if (at === undefined) notes.set(says, [...(notes.get(says) ?? []), used.number]);
      else elsewhere.add(at);
    }
  }
  const note = (text: string): Block => ({ kind: "words", tone: "strong", text: `Note${text}` });
  return [
    ...[...notes].map(([says, numbers]) =>
      note(numbers.length === all.length ? `: ${says}` : ` ${listed(numbers)}: ${says}`),
    ),
    ...(elsewhere.size > 0 ? [note(`: see what is noted at ${listed([...elsewhere])}`)] : []),
  ];
}

const inWords = (warning: Warning, { writer }: Reported) =>
  describeWarning(warning, writer.measure);
const listed = (numbers: readonly number[]) => numbers.map((each) => `(${each})`).join(", ");
