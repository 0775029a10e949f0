/** What the job does with the pocket. */
export const works = ["change out", "pull and dummy off", "set into an empty pocket"] as const;
export type Work = (typeof works)[number];

/** One pocket's part of a run sheet. */
export interface PocketOptions {
  readonly work: Work;
  /** by the mandrel's record */
  readonly kickover: "orienting" | "non-orienting";
}

/** One of several pockets of a sheet. */
export interface PocketOfSeveral extends PocketOptions {
  /** by its id */
  readonly mandrel: string;
  /** as the crew calls it */
  readonly number: number | undefined;
}

/** What a run sheet is built for. */
export interface SheetOptions extends PocketOptions {
  /** a catcher is set below the target before the pull run and recovered last */
  readonly catcher: boolean;
  /** Where it is for more than one: all of them, in the order they are worked. The first has the work above. */
  readonly pockets?: readonly PocketOfSeveral[];
  /** the lowest of them, by its id: gauge and catcher go below it */
  readonly lowest?: string;
}

/** What goes into the pocket, in a word. */
export const goesIn = ({ work }: Pick<PocketOptions, "work">) =>
  work === "pull and dummy off" ? "dummy" : "valve";
