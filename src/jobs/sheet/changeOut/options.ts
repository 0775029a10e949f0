/** What the job does with the pocket. */
export const works = ["change out", "pull and dummy off", "set into an empty pocket"] as const;
export type Work = (typeof works)[number];

/** What a run sheet is built for. */
export interface SheetOptions {
  readonly work: Work;
  /** by the mandrel's record */
  readonly kickover: "orienting" | "non-orienting";
  /** a catcher is set below the target before the pull run and recovered last */
  readonly catcher: boolean;
}

/** What goes into the pocket, in a word. */
export const goesIn = ({ work }: Pick<SheetOptions, "work">) =>
  work === "pull and dummy off" ? "dummy" : "valve";
