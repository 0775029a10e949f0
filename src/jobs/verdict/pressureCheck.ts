import {
  type Answer,
  type Asked,
  againstRead,
  answered,
  type Check,
  gaugesOf,
  isByProduction,
  lowestInWords,
  lowestToPass,
} from "./check.ts";
import { NEAR_EDGE } from "./doubts.ts";
import type { MandrelNow } from "./mandrelNow.ts";

/** Injection pressure against the band in which the well works where gas is to enter. */
export function pressureCheck(asked: Asked): Check {
  return answered("injection pressure", pressure(asked));
}

function pressure(asked: Asked): Answer {
  const { operating, writer, well, meantNeeds } = asked;
  if (!operating) {
    const lacks = meantNeeds.length > 0 ? `: needs ${meantNeeds.join("; ")}` : "";
    const words = `At which mandrel the well is to work is not known${lacks}.`;
    return { says: "cannot be told", words, needs: meantNeeds };
  }
  const { mandrel, doubt, dropDoubt, passes, needs } = operating;
  if (passes === "not known") {
    const words = `What the valve in mandrel ${mandrel} does, where the well is to work, is not known: needs ${needs.join("; ")}.`;
    return { says: "cannot be told", words, needs };
  }
  if (isByProduction(operating)) return byItsProduction(operating, asked);
  const wanted = lowestToPass(operating);
  const low = wanted === undefined ? undefined : well.surfaceFor(mandrel, wanted);
  if (low === undefined) {
    const words = `At which pressure the valve in mandrel ${mandrel} works cannot be worked out.`;
    return { says: "cannot be told", words, needs };
  }
  const apart = (si: number) => writer.write("pressure difference", si);
  const what = lowestInWords(operating);
  const good = wanted === operating.production ? dropDoubt : doubt;
  const { injection } = well.read;
  const short = low - injection;
  if (short > good) {
    return {
      says: "not consistent",
      words: `The ${gaugesOf(asked).injection} stands ${apart(short)} below ${what}, where gas is to enter${againstRead(asked, low, "at least")}; these figures are good for ${apart(good)}.`,
      nearEdge: short < (1 + NEAR_EDGE) * good,
    };
  }
  const ceiling = lowestAbove(asked);
  const band = ceiling
    ? `The well works at mandrel ${mandrel} between ${writer.write("pressure", low)}, ${what} brought to surface, and ${writer.write("pressure", ceiling.surface)}, where the valve in mandrel ${ceiling.each.mandrel} opens.`
    : `The well works at mandrel ${mandrel} from ${writer.write("pressure", low)} up, ${what} brought to surface.`;
  const read = `${writer.write("pressure", injection)} was read`;
  const over = ceiling ? injection - ceiling.surface : Number.NEGATIVE_INFINITY;
  if (ceiling && over > ceiling.each.doubt) {
    return {
      says: "not consistent",
      words: `${band} ${read}, ${apart(over)} above that; these figures are good for ${apart(ceiling.each.doubt)}.`,
      nearEdge: over < (1 + NEAR_EDGE) * ceiling.each.doubt,
    };
  }
  const off = Math.max(short, over);
  if (off > 0) {
    const side = short > 0 ? "below" : "above";
    const by = short > 0 ? good : (ceiling?.each.doubt ?? 0);
    const words = `${band} ${read}, ${apart(off)} ${side} that, and these figures are good for ${apart(by)}: near the edge.`;
    return { says: "consistent", words, nearEdge: true };
  }
  return { says: "consistent", words: `${band} ${read}.` };
}

/** A production-operated valve goes by the production pressure at its depth. */
function byItsProduction(operating: MandrelNow, asked: Asked): Answer {
  const { writer } = asked;
  const { mandrel, acting, closing, opening, doubt, state, passes, injection } = operating;
  const write = (si: number) => writer.write("pressure", si);
  const apart = (si: number) => writer.write("pressure difference", si);
  if (acting === undefined || closing === undefined || opening === undefined) {
    const words = `At which pressure the valve in mandrel ${mandrel} works cannot be worked out.`;
    return { says: "cannot be told", words, needs: operating.needs };
  }
  const stands = `By the ${gaugesOf(asked).production} pressure read, production stands at ${write(acting)} at mandrel ${mandrel}`;
  if (state.noDrop) {
    return {
      says: passes === "no" ? "not consistent" : "consistent",
      words: `${stands}, and injection at ${write(injection ?? 0)} below it: nothing passes.`,
      nearEdge: passes !== "no",
    };
  }
  const low = Math.min(closing, opening);
  const works = `Its valve, worked by production, shuts at ${write(low)}`;
  const short = low - acting;
  const good = `these figures are good for ${apart(doubt)}`;
  if (short > doubt) {
    return {
      says: "not consistent",
      words: `${stands}. ${works}, ${apart(short)} above that, and gas is to enter there; ${good}.`,
      nearEdge: short < (1 + NEAR_EDGE) * doubt,
    };
  }
  return short > 0
    ? {
        says: "consistent",
        words: `${stands}. ${works}, ${apart(short)} above that, and ${good}: near the edge.`,
        nearEdge: true,
      }
    : { says: "consistent", words: `${stands}. ${works}.` };
}

/** The valve above the one at work that opens first, at surface. */
function lowestAbove({
  mandrels,
  operating,
  meant,
  well,
}: Asked): { readonly each: MandrelNow; readonly surface: number } | undefined {
  const found = mandrels.flatMap((each) => {
    const { mandrel, valve, opening } = each;
    if (valve?.kind !== "injection-operated" || opening === undefined) return [];
    if (operating === undefined || mandrel >= operating.mandrel) return [];
    if (meant.includes(mandrel)) return [];
    const surface = well.surfaceFor(mandrel, opening);
    return surface === undefined ? [] : [{ each, surface }];
  });
  return found.sort((one, other) => one.surface - other.surface)[0];
}
