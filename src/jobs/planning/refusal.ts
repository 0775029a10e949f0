import type { Mandrel } from "../records/well.ts";
import type { Work } from "../sheet/changeOut/options.ts";

/** What wireline cannot do, and why. There is no run sheet for it, and no way round. */
export interface Refusal {
  readonly title: string;
  readonly why: string;
  readonly instead: string;
}

export function refusalOf({ number, construction }: Mandrel): Refusal | undefined {
  if (construction !== "conventional") return undefined;
  return {
    title: `Wireline cannot change the valve in mandrel ${number}`,
    why: "By its record the mandrel is conventional: its valve sits outside, as part of the tubing string, and no tool inside the tubing reaches it.",
    instead:
      "To change it the tubing must be pulled: that is a job for a workover rig, planned elsewhere. There is no run sheet for it here, and no programme to issue. If the record is wrong, mend it on the well.",
  };
}

/** Works that the pocket allows by its record; where it is not known what sits there, all of them. */
export function worksFor({ pocketState }: Mandrel): readonly Work[] {
  switch (pocketState) {
    case "empty":
      return ["set into an empty pocket"];
    case "holds a valve":
      return ["change out", "pull and dummy off"];
    case "not known":
      return ["change out", "pull and dummy off", "set into an empty pocket"];
  }
}

/** What is asked of a mandrel before anything can be planned on it. */
export function unknownsOf({
  number,
  orientingSleeve,
  pocket,
  latchProfile,
  pocketState,
}: Mandrel): string[] {
  return [
    orientingSleeve === "not known" &&
      `Mandrel ${number}: not known whether it has an orienting sleeve. Which kickover tool goes down hangs on it: ask, and put it on the well's record.`,
    pocket === "not known" && `Mandrel ${number}: its pocket size is not known.`,
    !latchProfile && `Mandrel ${number}: its latch profile is not known.`,
    pocketState === "not known" && `Mandrel ${number}: not known what sits in its pocket.`,
  ].filter((each) => each !== false);
}

/** Reasons met most, as taps; whoever has another writes it. */
export const usualReasons: readonly { readonly title: string; readonly words: string }[] = [
  {
    title: "Stays open",
    words:
      "Casing bleeds below the closing pressure of the valve: it stays open or its port is cut.",
  },
  {
    title: "Does not open",
    words: "Injection pressure climbs and no gas passes: the valve does not open.",
  },
  {
    title: "Packing leaks",
    words: "Gas enters at a mandrel whose valve should be shut: packing or latch leaks.",
  },
  {
    title: "Other set pressure",
    words: "The design asks for another set pressure at this mandrel.",
  },
  { title: "Not needed here", words: "No gas is to enter at this mandrel any more." },
];
