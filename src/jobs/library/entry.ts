import { asEntered } from "../display.ts";
import type { Line, OwnedTool, Stack, ToolString } from "../records/equipment.ts";
import type { Policy } from "../records/policy.ts";
import type { Valve } from "../records/valve.ts";
import type { Well } from "../records/well.ts";
import type { RecordKind, RecordTypes } from "../store/library.ts";

/** What the office keeps and looks things up in; jobs, days and investigations have screens of their own. */
export type LibraryKind = Exclude<RecordKind, "jobs" | "days" | "investigations">;

/** In the order in which they are read and shown: what sits in a pocket is known once the wells are. */
export const libraryKinds: readonly LibraryKind[] = [
  "wells",
  "valves",
  "tools",
  "strings",
  "lines",
  "stacks",
  "policies",
];

export const kindNames: Readonly<
  Record<LibraryKind, { readonly one: string; readonly many: string }>
> = {
  wells: { one: "well", many: "Wells" },
  valves: { one: "valve", many: "Valves" },
  tools: { one: "tool", many: "Tools" },
  strings: { one: "tool string", many: "Tool strings" },
  lines: { one: "line", many: "Lines" },
  stacks: { one: "pressure equipment", many: "Pressure equipment" },
  policies: { one: "policy", many: "Policies" },
};

/** A record as far as it is looked up by: thousands of these are held where the records are not. */
export interface Entry {
  readonly kind: LibraryKind;
  readonly id: string;
  /** serial, mark or name */
  readonly name: string;
  /** the same, letters and figures only, without capitals */
  readonly plain: string;
  /** what stands under the name, in words */
  readonly says: string;
  /** by which it stands among others: EM-2 before EM-10 */
  readonly order: string;
  /** within what its name stands for one thing, of a well */
  readonly within?: string;
  /** a valve's, where the record says one */
  readonly state?: Valve["state"];
  /** pockets that a valve's own history names, letters and figures only */
  readonly been?: readonly string[];
}

/** An entry with every word it is found by, its name as a whole first. */
export interface Shelved {
  readonly entry: Entry;
  readonly words: readonly string[];
}

/** @param also words it is found by besides its own, such as the well a valve sits in */
export function entryOf<K extends LibraryKind>(
  kind: K,
  record: RecordTypes[K],
  also = "",
): Shelved {
  const { name, says, words = "" } = describe[kind](record as never);
  const { remarks = "" } = record as { remarks?: string };
  const { state, history } = record as Partial<Valve>;
  const been = kind === "valves" ? (history ?? []).flatMap(({ where }) => where ?? []) : [];
  const entry: Entry = {
    kind,
    id: record.id,
    name,
    plain: bare(name),
    says,
    order: bare(name).replace(/\d+/g, (digits) => digits.padStart(8, "0")),
    ...("field" in record && { within: withinOf(record.field, record.name) }),
    ...(kind === "valves" && state && { state }),
    ...(been.length > 0 && { been: [...new Set(been.map(bare))] }),
  };
  return { entry, words: findable(name, says, words, also, remarks) };
}

/** A well's name is one thing in its field, and with its figures set apart as they are: 1-11 is not 11-1. */
export const withinOf = (field: string, name: string) =>
  [bare(field), ...(name.match(/\d+/g) ?? [])].join(" ");

interface Described {
  readonly name: string;
  readonly says: string;
  readonly words?: string;
}

const describe: { readonly [K in LibraryKind]: (record: RecordTypes[K]) => Described } = {
  wells: ({ name, field, mandrels }: Well) => ({
    name,
    says: `${field}, ${counted(mandrels.length, "mandrel")}`,
    words: [...new Set(mandrels.map(({ latchProfile }) => latchProfile ?? ""))].join(" "),
  }),
  valves: ({ serial, kind, size, latch, card }: Valve) => ({
    name: serial,
    says: listed([kind, size, latch, card && `card ${asEntered(card.testRackOpening60F)}`]),
  }),
  tools: ({ serial, name, kind, outsideDiameter, state }: OwnedTool) => ({
    name: serial,
    says: listed([
      name,
      name.toLowerCase().includes(kind) ? undefined : kind,
      asEntered(outsideDiameter),
      state,
    ]),
  }),
  strings: ({ name, purpose, tools }: ToolString) => ({
    name,
    says: `for the ${purpose} run, ${counted(tools.length, "tool")}`,
    words: tools.map((tool) => tool.name).join(" "),
  }),
  lines: ({ name, diameter, breakingStrength }: Line) => ({
    name,
    says: `${asEntered(diameter)}, breaks at ${asEntered(breakingStrength)}`,
  }),
  stacks: ({ name, items }: Stack) => ({
    name,
    says: counted(items.length, "item"),
    words: items.map((item) => item.name).join(" "),
  }),
  policies: ({ name }: Policy) => ({ name, says: "limits, each with where it comes from" }),
};

const counted = (count: number, what: string) => `${count} ${what}${count === 1 ? "" : "s"}`;
const listed = (parts: readonly (string | undefined)[]) =>
  parts.filter((part) => part !== undefined).join(", ");

/**
 * The words of a text as they are searched: "EM-0731" is found by em0731, em and 0731, "1-1/2 in" by 112 and in. The
 * first of them is the name as a whole.
 */
function findable(name: string, ...texts: readonly string[]): string[] {
  const words = new Set([bare(name)]);
  for (const chunk of [name, ...texts].join(" ").toLowerCase().split(/\s+/)) {
    words.add(bare(chunk));
    for (const piece of chunk.split(NOT_OF_A_WORD)) words.add(piece);
  }
  words.delete("");
  return [...words];
}

const NOT_OF_A_WORD = /[^\p{L}\p{N}]+/u;

/** Letters and figures only. */
export const bare = (words: string) => words.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "");
