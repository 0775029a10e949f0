import { targetMandrel } from "../programme.ts";
import { toSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import { type Check, type Finding, finding, valuesOf } from "./check.ts";

export const serialMatches: Check = (context) => {
  const reading = context.reading("serial");
  const planned = context.programme.replacement?.serial;
  const typed = reading?.value.kind === "text" ? reading.value.text : undefined;
  if (!typed || !planned) {
    return finding("not known", "Not known yet: needs the serial on the valve in hand.", [reading]);
  }
  const same = plain(typed) === plain(planned);
  return same
    ? finding("passes", `Serial ${typed} is the programme's.`, [reading])
    : finding(
        "fails",
        `The valve in hand is ${typed}; the programme says ${planned}. Find the right valve, or ask for a new revision of the programme.`,
        [reading],
      );
};

/** A serial without the dashes, blanks and capitals that a tag may or may not have. */
const plain = (serial: string) => serial.replace(/[\s\-_.]/g, "").toLowerCase();

export const setPressure: Check = (context) => {
  const { replacement, policy } = context.programme;
  const reading = context.reading("card");
  if (replacement?.kind === "orifice" || replacement?.kind === "dummy") {
    return finding("passes", `A valve of kind ${replacement.kind} has no set pressure.`);
  }
  const found = valuesOf(context, ["card-difference", "test-rack-needed"]);
  if ("missing" in found || !policy || !reading) {
    const needs = "missing" in found ? found.missing : "the set pressure read from the card";
    return finding("not known", `Not known: needs ${needs}.`, [reading]);
  }
  const [difference = 0, needed = 0] = found.values;
  const allowed = toSI("pressure difference", policy.setPressureTolerance.value);
  const { write } = context.writer;
  const side = difference < 0 ? "below" : "above";
  const words = `The card is ${write("pressure difference", Math.abs(difference))} ${side} the ${write("pressure", needed)} needed on the test rack at 60 °F`;
  return Math.abs(difference) <= allowed
    ? finding("passes", `${words}.`, [reading], ["card-difference", "test-rack-needed"])
    : finding(
        "fails",
        `${words}; ${write("pressure difference", allowed)} is allowed. The valve of another depth? Set it again in the shop, or ask the engineer.`,
        [reading],
        ["card-difference", "test-rack-needed"],
      );
};

export const kickoverToolMatches: Check = ({ programme }) => kickoverFinding(programme);

/** Whether both strings carry a kickover tool made for this mandrel. */
export function kickoverFinding(programme: Programme): Finding {
  const mandrel = targetMandrel(programme);
  if (!mandrel || mandrel.orientingSleeve === "not known") {
    return finding(
      "not known",
      "Not known whether the mandrel has an orienting sleeve. Ask before anything is rigged up.",
    );
  }
  const wanted = mandrel.orientingSleeve === "yes" ? "orienting" : "not orienting";
  for (const purpose of ["pull", "set"] as const) {
    const string = programme.strings[purpose];
    const tool = string?.tools.find((each) => each.kind === "kickover tool");
    if (!tool) {
      return finding(
        string ? "fails" : "not known",
        string
          ? `The ${purpose} string has no kickover tool: it cannot reach the pocket.`
          : `Not known: needs the ${purpose} string.`,
      );
    }
    if (tool.kickover !== wanted) {
      const sleeve = mandrel.orientingSleeve === "yes" ? "has" : "has no";
      return finding(
        "fails",
        `Mandrel ${mandrel.number} ${sleeve} orienting sleeve, and the ${purpose} string carries a kickover tool made for ${tool.kickover === "orienting" ? "an orienting" : tool.kickover ? "a mandrel without an orienting" : "an unstated"} sleeve. Take the one made for it.`,
      );
    }
  }
  return finding("passes", `Both strings carry a kickover tool for this mandrel (${wanted}).`);
}
