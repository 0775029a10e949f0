import type { Writer } from "../display.ts";
import {
  type Answer,
  type Asked,
  againstRead,
  answered,
  type Check,
  gaugesOf,
  inList,
  isByProduction,
  type Lacking,
  lacksLeast,
  lowestInWords,
  mandrelsOf,
} from "./check.ts";
import { NEAR_EDGE } from "./doubts.ts";
import type { MandrelNow } from "./mandrelNow.ts";

/** Which valves pass gas now, against those that should. */
export function entryCheck(asked: Asked): Check {
  return answered("where gas enters", entry(asked));
}

function entry(asked: Asked): Answer {
  const { mandrels, meant, writer } = asked;
  const of = (passes: MandrelNow["passes"]) => mandrels.filter((each) => each.passes === passes);
  const [sure, perhaps, unknown] = [of("yes"), of("perhaps"), of("not known")];
  // Where it is not known what is meant, nothing is held against it.
  const isExtra = ({ mandrel }: MandrelNow) => meant.length > 0 && !meant.includes(mandrel);
  const enters = entersInWords(sure, perhaps);
  const [opened] = sure.filter(isExtra);
  if (opened) {
    const words = `By these pressures ${enters}; as planned it is to enter at mandrel ${inList(meant)}. ${openInWords(opened, asked)}`;
    return { says: "not consistent", words, nearEdge: isNear(opened) };
  }
  if (unknown.length > 0) {
    const needs = [...new Set(unknown.flatMap((each) => each.needs))];
    const rest = enters ? ` By these pressures ${enters}.` : "";
    const words = `What ${mandrelsOf(unknown)} ${unknown.length === 1 ? "does" : "do"} is not known: needs ${needs.join("; ")}.${rest}`;
    return { says: "cannot be told", words, needs };
  }
  if (sure.length + perhaps.length === 0) return nothingPasses(asked);
  const extra = perhaps.filter(isExtra);
  const edge = extra.filter(isEdge).map((each) => ` ${edgeInWords(each, writer)}`);
  const undecided = extra.filter((each) => !isEdge(each));
  if (undecided.length > 0) {
    const which = mandrelsOf(undecided);
    return {
      says: "cannot be told",
      words: `By these pressures ${enters}. What sits in ${which} should be shut; between opening and closing it is open or shut as it was before.${edge.join("")}`,
      needs: [`whether ${which} was shut before`],
    };
  }
  const shut = mandrels.filter(({ passes, state }) => passes === "no" && state.gate !== "blank");
  const others = shut.length > 0 ? `, and nothing at ${mandrelsOf(shut)}` : "";
  const planned =
    meant.length > 0
      ? " That is where it is to enter as planned."
      : " What is planned is not known.";
  return {
    says: "consistent",
    words: `By these pressures ${enters}${others}.${edge.length > 0 ? edge.join("") : planned}`,
    nearEdge: edge.length > 0,
  };
}

function entersInWords(sure: readonly MandrelNow[], perhaps: readonly MandrelNow[]): string {
  const at = sure.length > 0 ? `gas passes at ${mandrelsOf(sure)}` : "";
  if (perhaps.length === 0) return at;
  return `${at ? `${at} and` : "gas"} may pass at ${mandrelsOf(perhaps)}`;
}

/** Shut or open by less than the figures are good for. */
function isEdge({ state, acting, closing, opening, doubt }: MandrelNow): boolean {
  if (state.gate !== "as it was") return true;
  return (
    acting !== undefined &&
    closing !== undefined &&
    opening !== undefined &&
    acting - Math.min(closing, opening) <= doubt
  );
}

const beyondOpening = ({ acting, opening }: MandrelNow) => (acting ?? 0) - (opening ?? 0);
const isNear = (each: MandrelNow) =>
  each.opening !== undefined && beyondOpening(each) < (1 + NEAR_EDGE) * each.doubt;

function edgeInWords(each: MandrelNow, writer: Writer): string {
  const { mandrel, state, acting, opening, closing, doubt } = each;
  if (state.noDrop || acting === undefined || opening === undefined || closing === undefined) {
    return `At mandrel ${mandrel} the two pressures are too close to each other to tell.`;
  }
  const apart = (si: number) => writer.write("pressure difference", Math.abs(si));
  const shuts = Math.min(closing, opening);
  const stands =
    state.gate === "open"
      ? `is open by these figures, ${apart(acting - opening)} above where it opens`
      : state.gate === "shut"
        ? `is shut by these figures, but only ${apart(shuts - acting)} below where it shuts`
        : `stands ${apart(acting - shuts)} above where it shuts`;
  return `The valve in mandrel ${mandrel} should be shut and ${stands}; they are good for ${apart(doubt)}: near the edge.`;
}

/** An open valve that should be shut, by the pressure that opens it, at surface where that is read. */
function openInWords(each: MandrelNow, asked: Asked): string {
  const { well, writer } = asked;
  const { mandrel, opening } = each;
  if (opening === undefined) return `Nothing in mandrel ${mandrel} shuts.`;
  const apart = writer.write("pressure difference", beyondOpening(each));
  const doubt = writer.write("pressure difference", each.doubt);
  if (isByProduction(each)) {
    return `Production at mandrel ${mandrel}, ${writer.write("pressure", each.acting ?? 0)}, is ${apart} above where its valve opens; these figures are good for ${doubt}.`;
  }
  const surface = well.surfaceFor(mandrel, opening);
  const against =
    surface === undefined
      ? `${apart} at its depth`
      : `${writer.write("pressure difference", well.read.injection - surface)}${againstRead(asked, surface, "at most")}`;
  return `The valve in mandrel ${mandrel} should be shut, and the ${gaugesOf(asked).injection} stands above its opening pressure by ${against}; these figures are good for ${doubt}.`;
}

/** Every valve is shut, or production stands above injection: gas has no way in. */
function nothingPasses(asked: Asked): Answer {
  const { rate, writer } = asked;
  if (rate === 0) {
    return {
      says: "cannot be told",
      words:
        "By these pressures no valve passes gas, and none is injected: the well is not on lift.",
      needs: ["pressures and rate of the well on lift"],
    };
  }
  const nearest = lacksLeast(asked);
  const by = nearest ? ` ${lackingInWords(nearest, asked)}` : "";
  if (rate === undefined) {
    const words = `By these pressures no valve passes gas; whether gas goes in was not read.${by}`;
    return { says: "cannot be told", words, needs: ["the injection rate"] };
  }
  return {
    says: "not consistent",
    words: `${writer.write("gas rate", rate)} goes in, and by these pressures no valve passes gas.${by}`,
    nearEdge: nearest?.isNear ?? false,
  };
}

/** The valve that lacks least, and how much. */
function lackingInWords({ each, surface }: Lacking, asked: Asked): string {
  const { well, writer } = asked;
  const below = writer.write("pressure difference", surface - well.read.injection);
  return `The ${gaugesOf(asked).injection} stands ${below} below ${lowestInWords(each)}, which lacks least${againstRead(asked, surface, "at least")}.`;
}
