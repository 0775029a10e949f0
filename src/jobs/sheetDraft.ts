import canonicalize from "canonicalize";
import {
  type FurtherPocket,
  furtherPocket,
  type Job,
  type SheetWanted,
  sheetWanted as sheetWantedSchema,
} from "./records/job.ts";
import { dimensionName, z } from "./schema.ts";
import { ownFieldKinds, type TypedStep } from "./sheet/ownStep.ts";
import { sheetWanted } from "./sheet/sheetWanted.ts";
import { type ChangedIn, type Keeping, readDraft, writeDraft } from "./store/draftRow.ts";

/** What is changed of a job's run sheet and not saved yet, kept on the tablet: it outlasts the page. */

/** What of a job its sheet is made from. */
export interface Wanted extends SheetWanted {
  readonly also: readonly FurtherPocket[];
}

/** A step that is being written, and the item it goes behind. */
export interface Writing {
  readonly after: string;
  readonly step: TypedStep;
}

/** A pressure as it is typed, with the unit it was begun in. */
export interface TypedPressure {
  readonly text: string;
  readonly unit: string;
}

export interface SheetDraft {
  /** of the job that the changes were begun on */
  readonly revision: number;
  /** what that job wanted */
  readonly began: Wanted;
  readonly wanted: Wanted;
  readonly writing?: Writing | undefined;
  /** pressures as they are typed where that is not to the letter what is wanted, see `pressureName` */
  readonly typed: Readonly<Record<string, TypedPressure>>;
}

export const wantedOf = (job: Job): Wanted => ({ ...sheetWanted(job), also: job.also ?? [] });

/** The job with what is wanted of its sheet; what nobody wants is not there. */
export function withWanted(job: Job, { also, ...sheet }: Wanted): Job {
  const { also: _, ...rest } = job;
  return { ...rest, sheet, ...(also.length > 0 && { also: [...also] }) };
}

export const freshSheetDraft = (job: Job): SheetDraft => ({
  revision: job.revision,
  began: wantedOf(job),
  wanted: wantedOf(job),
  typed: {},
});

const isSame = (one: Wanted, other: Wanted) => canonicalize(one) === canonicalize(other);

export const isSheetChanged = ({ began, wanted }: SheetDraft) => !isSame(began, wanted);

/** Somebody saved the job since. */
const isNewer = (job: Job, { revision }: SheetDraft) => job.revision > revision;

/** The changes as of the job as it is saved now. */
export const ontoSaved = (draft: SheetDraft, job: Job): SheetDraft => ({
  ...draft,
  revision: job.revision,
  began: wantedOf(job),
});

/** The draft beside what is saved: without changes that the job does not have there is nothing to lose by showing it. */
export function besideSaved(draft: SheetDraft, job: Job): SheetDraft {
  if (!isNewer(job, draft)) return draft;
  if (isSame(draft.wanted, wantedOf(job))) return ontoSaved(draft, job);
  return isSheetChanged(draft) ? draft : { ...ontoSaved(draft, job), wanted: wantedOf(job) };
}

/**
 * What somebody saved under the changes: nothing, the job with the sheet as it was when they were begun, or with
 * another sheet.
 */
export function overtakenBy(draft: SheetDraft, job: Job): "the job" | "its sheet" | undefined {
  if (!isNewer(job, draft) || !isSheetChanged(draft)) return undefined;
  return isSame(draft.began, wantedOf(job)) ? "the job" : "its sheet";
}

/** Under which a pressure of a further pocket is kept as it is typed. */
export const pressureName = (mandrel: string, of: keyof FurtherPocket["design"]) =>
  `${mandrel} ${of}`;

const designPressures = [
  "openingAtMandrel",
  "productionAtMandrel",
  "injectionAtMandrel",
] as const satisfies readonly (keyof FurtherPocket["design"])[];

/** What was typed of a pocket that is not worked any more is gone with it. */
export function withoutStrayPressures(draft: SheetDraft): SheetDraft {
  const asked = new Set(
    draft.wanted.also.flatMap(({ mandrel }) =>
      designPressures.map((of) => pressureName(mandrel, of)),
    ),
  );
  const typed = Object.entries(draft.typed).filter(([name]) => asked.has(name));
  return { ...draft, typed: Object.fromEntries(typed) };
}

const keptWanted = z.strictObject({
  ...sheetWantedSchema.shape,
  also: z.array(furtherPocket),
});
const keptTyped = z.strictObject({ text: z.string(), unit: z.string() });
const keptSheetDraft = z.strictObject({
  revision: z.number().int(),
  began: keptWanted,
  wanted: keptWanted,
  writing: z
    .strictObject({
      after: z.string(),
      step: z.strictObject({
        id: z.string().optional(),
        title: z.string(),
        instruction: z.string(),
        caution: z.string(),
        fields: z.array(
          z.strictObject({
            id: z.string().optional(),
            label: z.string(),
            kind: z.enum(ownFieldKinds),
            dimension: dimensionName,
          }),
        ),
      }),
    })
    .optional(),
  typed: z.record(z.string(), keptTyped),
});

/** A row of the job's own: it goes with the job when that is removed from the tablet. */
const ROW = "draft of the run sheet";

/** Settles when the draft is durable. One in which nothing was begun leaves nothing behind. */
export function keepSheetDraft(
  store: Keeping,
  job: string,
  draft: SheetDraft,
  changed?: ChangedIn,
): Promise<void> {
  const begun = isSheetChanged(draft) || draft.writing || Object.keys(draft.typed).length > 0;
  return writeDraft(store, job, ROW, begun ? draft : undefined, changed);
}

/** The draft of a job's sheet that is kept here; undefined where there is none, or none that can be read. */
export async function keptSheetDraftOf(
  store: Keeping,
  job: string,
): Promise<SheetDraft | undefined> {
  try {
    const kept = keptSheetDraft.safeParse(await readDraft(store, job, ROW));
    return kept.success ? kept.data : undefined;
  } catch {
    return undefined;
  }
}
