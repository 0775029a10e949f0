import type { FailingPocket, LifeOf } from "./fieldPicture.ts";

export const DAYS_OF_A_YEAR = 365.25;

/** Days as people speak of a valve's life: to the day below a season, in months below two years, then in years. */
export function daysInWords(days: number): string {
  if (days < 100) return `${Math.round(days)} ${Math.round(days) === 1 ? "day" : "days"}`;
  const months = (days * 12) / DAYS_OF_A_YEAR;
  if (months < 24) return `${Math.round(months)} months`;
  return `${(days / DAYS_OF_A_YEAR).toFixed(1)} years`;
}

/** Days with how far they may be off, in one unit. */
export function daysWithin(days: number, either: number): string {
  const unit = daysInWords(days).replace(/^[\d.]+ /, "");
  const per = { years: DAYS_OF_A_YEAR, months: DAYS_OF_A_YEAR / 12 }[unit] ?? 1;
  const digits = unit === "years" ? 1 : 0;
  return `${(days / per).toFixed(digits)} ± ${(either / per).toFixed(digits)} ${unit}`;
}

/** Half of them, in one sentence that says no more than what was watched. */
export function medianInWords({ median, curve, failures }: LifeOf): string {
  if (failures === 0) return `None has failed in up to ${daysInWords(curve.watchedTo)}.`;
  if (median !== undefined) return `Half have failed by ${daysInWords(median)}.`;
  return `Fewer than half have failed in up to ${daysInWords(curve.watchedTo)}.`;
}

/** A chance as a person says it: one in so many. */
export function chanceInWords(chance: number): string {
  if (chance >= 0.5) return "as likely as not by chance";
  const oneIn = 1 / chance;
  return oneIn > 1000
    ? "by chance fewer than 1 time in 1,000"
    : `by chance 1 time in ${Math.round(oneIn)}`;
}

/** What the test against the others says, and no more. */
export function besideInWords({ beside, isFew }: LifeOf): string {
  if (isFew) return "Too few to say.";
  if (!beside) return "";
  const { observed, expected, chance } = beside;
  if (chance > 0.05) return "No different from the others by more than chance.";
  const how = observed > expected ? "Fails sooner" : "Lasts longer";
  return `${how} than the others: so far apart ${chanceInWords(chance)}.`;
}

export function pocketInWords({ failures, runs, expected, chance }: FailingPocket): string {
  return `${failures} failures of ${runs.length} valves; ${expected.toFixed(1)} would be expected of the field's valves in as many days, so many ${chanceInWords(chance)}.`;
}
