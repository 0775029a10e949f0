import { type Photograph, type Tool, type ToolString, toolString } from "./records/equipment.ts";
import { z } from "./schema.ts";
import { type ChangedIn, type Keeping, readDraft, writeDraft } from "./store/draftRow.ts";

/** What is changed of a string and not saved yet, kept on the tablet: it outlasts a page that the camera pushes out. */

export interface StringParts {
  readonly tools: readonly Tool[];
  readonly photographs: readonly Photograph[];
}

export interface StringDraft extends StringParts {
  /** the record that the changes were begun on */
  readonly base: ToolString;
}

export const freshDraft = (base: ToolString): StringDraft => ({
  base,
  tools: base.tools,
  photographs: base.photographs ?? [],
});

/** Photographs are compared one by one: writing them all as JSON at every tap would be felt. */
const samePhotographs = (one: readonly Photograph[], other: readonly Photograph[]) =>
  one.length === other.length && one.every(({ jpeg }, index) => jpeg === other[index]?.jpeg);

export const isChanged = ({ base, tools, photographs }: StringDraft): boolean =>
  JSON.stringify(tools) !== JSON.stringify(base.tools) ||
  !samePhotographs(photographs, base.photographs ?? []);

/** Tools are few and change at every tap, photographs are large: each has a row of its own. */
const rows = { tools: "draft of the tools", photographs: "draft of the photographs" } as const;
const place = (id: string) => `string ${id}`;

const keptTools = z.strictObject({
  revision: z.number().int(),
  // A string may be empty while it is put together.
  tools: z.array(toolString.shape.tools.element),
  /** whether the photographs were changed, too */
  photographs: z.boolean(),
});
const keptPhotographs = toolString.shape.photographs.unwrap();

/** Settles when the draft is durable. One without changes leaves nothing behind. */
export async function keepDraft(
  store: Keeping,
  draft: StringDraft,
  changed?: ChangedIn,
): Promise<void> {
  const { base, tools, photographs } = draft;
  const write = (step: string, value: unknown) =>
    writeDraft(store, place(base.id), step, value, changed);
  if (!isChanged(draft)) {
    await write(rows.tools, undefined);
    await write(rows.photographs, undefined);
    return;
  }
  const taken = !samePhotographs(photographs, base.photographs ?? []);
  // First what the other row speaks of.
  await write(rows.photographs, taken ? photographs : undefined);
  await write(rows.tools, { revision: base.revision, tools, photographs: taken });
}

/** The draft of a string that is kept here; undefined where there is none, or none that can be read. */
export async function keptDraft(
  store: Keeping,
  record: ToolString,
): Promise<StringDraft | undefined> {
  const read = (step: string) => readDraft(store, place(record.id), step);
  try {
    const kept = keptTools.safeParse(await read(rows.tools));
    if (!kept.success) return undefined;
    const { revision, tools } = kept.data;
    const taken = kept.data.photographs
      ? keptPhotographs.safeParse(await read(rows.photographs))
      : undefined;
    return {
      // Begun on what somebody has saved over since: it is seen by the revision.
      base: { ...record, revision },
      tools,
      photographs: taken?.success ? taken.data : (record.photographs ?? []),
    };
  } catch {
    return undefined;
  }
}
