import { defaultLimits } from "../records/policy.ts";
import type { RecordTypes } from "../store/library.ts";
import type { LibraryKind } from "./entry.ts";

/** A record that is not one yet: what nobody has said of it is not there. */
export type Begun = { readonly [key: string]: unknown };

/** What every record of a kind has before anything is said of it; nothing is made up. */
export function blankRecord(kind: LibraryKind, id: string): Begun {
  return { id, revision: 1, ...blanks[kind] };
}

const blanks: Readonly<Record<LibraryKind, Begun>> = {
  wells: { tubing: [], restrictions: [], mandrels: [], temperatures: {}, pressures: {} },
  valves: {},
  tools: {},
  strings: { tools: [] },
  lines: {},
  stacks: { items: [] },
  // Each limit says where it comes from.
  policies: defaultLimits,
};

/**
 * A record to begin another from. What belongs to the one thing and not to its make stays behind: its name or serial,
 * what was measured of it, its certificates and its history.
 */
export function copiedRecord<K extends LibraryKind>(
  kind: K,
  record: RecordTypes[K],
  id: string,
  /** makes ids for what has one of its own within the record */
  newId: () => string,
): Begun {
  const { invented: _, remarks: __, ...rest } = record as Begun;
  return { ...of[kind](rest as never, newId), id, revision: 1 };
}

const of: { readonly [K in LibraryKind]: (record: RecordTypes[K], newId: () => string) => Begun } =
  {
    wells: ({ name: _, lastFound: __, mandrels, ...rest }, newId) => ({
      ...rest,
      // A valve sits in one pocket: the other well's.
      mandrels: mandrels.map(({ valve: ___, ...mandrel }) => ({
        ...mandrel,
        id: newId(),
        pocketState: "not known",
      })),
    }),
    valves: ({ serial: _, state: __, history: ___, card: ____, bench: _____, ...rest }) => rest,
    tools: ({ serial: _, state: __, certificateUntil: ___, ...rest }) => rest,
    strings: ({ name: _, photographs: __, tools, ...rest }, newId) => ({
      ...rest,
      tools: tools.map((tool) => ({ ...tool, id: newId() })),
    }),
    lines: ({
      name: _,
      strengthFrom: __,
      wornDiameter: ___,
      cutBack: ____,
      lastCutAndTested: _____,
      ...rest
    }) => rest,
    stacks: ({ name: _, items, ...rest }, newId) => ({
      ...rest,
      items: items.map(({ certificateUntil: __, ...item }) => ({ ...item, id: newId() })),
    }),
    policies: ({ name: _, ...rest }) => rest,
  };
