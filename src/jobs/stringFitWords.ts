import type { Writer } from "./display.ts";
import type {
  Aspect,
  GoingInFit,
  JobFit,
  KickoverFit,
  OrderFit,
  PushOutFit,
  Room,
} from "./stringFit.ts";
import { figuresOf } from "./toolString.ts";

/** How a string fits, in words: the verdict in a few, then what it is held against, and the way out. */

export const aspectTitles: Readonly<Record<Aspect, string>> = {
  order: "Order",
  bore: "Bore",
  lubricator: "Lubricator",
  pushOut: "Push-out",
  goingIn: "Going in",
  kickover: "Pocket",
};

interface Words {
  readonly short: string;
  readonly heldAgainst: string;
  /** where it does not fit and what it is held against does not say it yet */
  readonly wayOut?: string;
}

/** In a few words, e.g. `too long by 3.2 ft`. */
export function fitInShort(fit: JobFit, aspect: Aspect, writer: Writer): string {
  const given = fit[aspect];
  if (given?.state === "not known") return `not known: needs ${given.needs.join("; ")}`;
  return wordsOf(fit, aspect, writer)?.short ?? "not asked of this string";
}

/** What the string is held against, and the way out when it does not fit. */
export function fitInWords(fit: JobFit, aspect: Aspect, writer: Writer): string {
  const words = wordsOf(fit, aspect, writer);
  const where = `${fit.well}, job of ${fit.job.day}`;
  if (!words) return `${where}.`;
  const wayOut = fit[aspect]?.state === "does not fit" && words.wayOut;
  return `${words.heldAgainst} (${where}).${wayOut ? ` ${wayOut}` : ""}`;
}

function wordsOf(fit: JobFit, aspect: Aspect, writer: Writer): Words | undefined {
  const { order, bore, lubricator, pushOut, goingIn, kickover } = fit;
  switch (aspect) {
    case "order":
      return "needs" in order ? undefined : ofOrder(order);
    case "bore":
      return "needs" in bore ? undefined : ofBore(bore, fit, writer);
    case "lubricator":
      return "needs" in lubricator ? undefined : ofLubricator(lubricator, fit, writer);
    case "pushOut":
      return "needs" in pushOut ? undefined : ofPushOut(pushOut, writer);
    case "goingIn":
      return "needs" in goingIn ? undefined : ofGoingIn(goingIn, fit, writer);
    case "kickover":
      return !kickover || "needs" in kickover ? undefined : ofKickover(kickover, fit);
  }
}

function ofOrder({ state, wrong, remarks }: OrderFit): Words {
  const also = remarks.length > 0 ? `; this one ${remarks.join(" and ")}` : "";
  return {
    short:
      state === "fits"
        ? `as usual${remarks.length > 0 ? `, but it ${remarks.join(" and ")}` : ""}`
        : wrong.join("; "),
    heldAgainst: `Top down by common practice: one rope socket, stem, jars, knuckle joint, then what the run is for${also}`,
    wayOut: "Move, add or take out a tool.",
  };
}

const spareOr = (fits: boolean, tooMuch: string, far: string) =>
  fits ? `${far} to spare` : `${tooMuch} by ${far}`;

/** Two diameters typed alike may differ in their last digits. */
const MICRON = 1e-6;

function ofBore(given: Room, { string, narrowest }: JobFit, writer: Writer): Words {
  const diameter = (si: number) => writer.write("diameter", si);
  const { state, spare, asked, available } = given;
  const far = Math.abs(spare);
  const fits = state === "fits";
  return {
    short:
      !fits && far < MICRON ? "as large as the bore" : spareOr(fits, "too large", diameter(far)),
    heldAgainst: `${figuresOf(string).largest?.tool.name}, ${diameter(asked)}. ${narrowest}, ${diameter(available)}`,
    wayOut: "As it is it does not go in: swap it for a smaller one.",
  };
}

function ofLubricator(given: Room, { stack, valve, margin }: JobFit, writer: Writer): Words {
  const length = (si: number) => writer.write("length", si);
  const parts = [
    `string ${length(given.asked - valve - margin)} extended`,
    valve > 0 && `valve ${length(valve)}`,
    `margin ${length(margin)}`,
  ].filter(Boolean);
  return {
    short: spareOr(given.state === "fits", "too long", length(Math.abs(given.spare))),
    heldAgainst: `${stack} holds ${length(given.available)}; asked for: ${parts.join(", ")}`,
    wayOut: "Take out or swap a tool, or add a lubricator section.",
  };
}

/** What rounds to nothing would read as no lack at all. */
const isNothing = (number: string) => Number(number) === 0;

function ofPushOut(given: PushOutFit, writer: Writer): Words {
  const weight = (si: number) => writer.write("weight", si);
  const force = (si: number) => writer.write("force", si);
  const { state, weight: own, needed, ratio, wanted } = given;
  const far = Math.abs(given.spare);
  const fits = state === "fits";
  return {
    short:
      !fits && isNothing(writer.parts("weight", far).number)
        ? "just too light"
        : spareOr(fits, "too light", weight(far)),
    heldAgainst: Number.isFinite(ratio)
      ? `${weight(own)} in air, ${weight(needed)} needed: effective weight is ${writer.write("ratio", ratio)} times push-out of ${force(given.force)} and packing friction of ${force(given.friction)}, at least ${wanted} is wanted`
      : `${weight(own)} in air; nothing pushes it out and nothing rubs`,
    wayOut: "Add stem, or bring the wellhead pressure down.",
  };
}

function ofGoingIn(given: GoingInFit, { mandrel }: JobFit, writer: Writer): Words {
  const force = (si: number) => writer.write("force", si);
  const { state, spare, goingIn, hanging, depth } = given;
  const far = Math.abs(spare);
  const push = isNothing(writer.parts("force", far).number)
    ? "nothing is left on the line"
    : `the line would have to push with ${force(far)}`;
  const at = `At mandrel ${mandrel?.number}, ${writer.write("length", depth)}`;
  return {
    short: state === "fits" ? `${force(far)} of line pull left` : push,
    heldAgainst: `${at}, the line carries ${force(hanging)} hanging still and ${force(goingIn)} going in; the least on its way down is ${force(spare)}`,
    wayOut: "Its weight does not take it there: add stem, or rollers.",
  };
}

function ofKickover({ state, tool, says }: KickoverFit, { mandrel }: JobFit): Words {
  const sleeve = mandrel?.orientingSleeve === "yes" ? "with" : "without";
  return {
    short:
      state === "fits"
        ? "the kickover tool matches"
        : tool
          ? "the kickover tool does not match"
          : "no kickover tool",
    heldAgainst: says.replace(/\.$/, ""),
    ...(!tool && { wayOut: `Add one made for a mandrel ${sleeve} an orienting sleeve.` }),
  };
}
