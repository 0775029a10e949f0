/** A figure read on location, SI. */
export interface Measured {
  readonly si: number;
  /** instant it was taken */
  readonly at: string;
  readonly by: string;
  /** hash of the event that carries it */
  readonly event: string;
}

/** What a reading can be of, so that one reading feeds every calculation that depends on it. */
export const channels = [
  "casing pressure",
  "wellhead pressure",
  "fluid level",
  "pull going in",
  "pull coming out",
  "tagged mandrel depth",
  "gauge diameter",
  "gauge depth reached",
  "card set pressure",
  "line angle",
  "known depth",
  "known counter",
] as const;
export type Channel = (typeof channels)[number];

/**
 * The latest reading of each channel. "packing friction" is half of the pull moving out less the pull moving in, as
 * the indicator shows it: what of it is on the line is worked out.
 */
export type Measurements = Partial<Readonly<Record<Channel | "packing friction", Measured>>>;
