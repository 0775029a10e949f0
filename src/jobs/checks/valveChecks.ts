import { targetMandrel, valveToPull } from "../programme.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import type { Programme } from "../records/programme.ts";
import type { Mandrel } from "../records/well.ts";
import { plainSerial } from "../serial.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, type Finding, finding, valuesOf } from "./check.ts";
import { atMost } from "./compare.ts";

/** What a text field holds. */
function textOf(context: CheckContext, part: string) {
  const reading = context.reading(part);
  return { reading, typed: reading?.value.kind === "text" ? reading.value.text : undefined };
}

/** The serial on the valve in hand is the programme's; blanks, dashes and capitals do not count. */
export const serialMatches: Check = (context) => {
  const { reading, typed } = textOf(context, "serial");
  const planned = context.programme.replacement?.serial;
  if (!typed || !planned) {
    return finding("not known", "Not known yet: needs the serial on the valve in hand.", [reading]);
  }
  return plainSerial(typed) === plainSerial(planned)
    ? finding("passes", `Serial ${typed} is the programme's.`, [reading])
    : finding(
        "fails",
        `The valve in hand is ${typed}; the programme says ${planned}. Find the right valve, or ask for a new revision of the programme.`,
        [reading],
      );
};

/** The valve that came out is the one the schematic has in this pocket. */
export const oldSerialMatches: Check = (context) => {
  const { reading, typed } = textOf(context, "serial");
  const recorded = valveToPull(context.programme)?.serial;
  if (!typed)
    return finding("not known", "Not known yet: needs the pulled valve's serial.", [reading]);
  if (!recorded) {
    return finding(
      "not known",
      "Not known: needs the serial of the valve in this pocket on the well's record.",
      [reading],
    );
  }
  return plainSerial(typed) === plainSerial(recorded)
    ? finding("passes", `Serial ${typed}, as the well's record has it.`, [reading])
    : finding(
        "fails",
        `${typed} came out; the well's record has ${recorded} in this pocket. Either this is another pocket or the record is wrong: ask the engineer before the next valve goes in.`,
        [reading],
      );
};

/** Pins as the programme asks for: count and batch. Material is a condition of its own. */
export const pinsAsProgrammed: Check = (context) => {
  const pins = context.programme.job.pins;
  const counted = context.reading("count");
  const batch = textOf(context, "batch");
  const count = counted?.value.kind === "count" ? counted.value.count : undefined;
  const readings = [counted, batch.reading];
  if (count === undefined || !batch.typed || !pins) {
    return finding(
      "not known",
      "Not known yet: needs the number of pins and their batch.",
      readings,
    );
  }
  const problems = [
    count !== pins.count && `${count} in the tool, the programme says ${pins.count}`,
    pins.batch !== undefined &&
      plainSerial(batch.typed) !== plainSerial(pins.batch) &&
      `batch ${batch.typed}, the programme says ${pins.batch}`,
  ].filter((problem) => problem !== false);
  return problems.length === 0
    ? finding("passes", `${count} pins of batch ${batch.typed}.`, readings)
    : finding(
        "fails",
        `Pins are not the programme's: ${problems.join("; ")}. Count and batch decide what they shear at.`,
        readings,
      );
};

/** Whoever witnessed is not the one who holds the tablet. */
export const witnessedByAnother: Check = (context) => {
  const { reading, typed } = textOf(context, "witness");
  if (!typed || !reading) return finding("not known", "Not known yet: needs a witness.", [reading]);
  return plainSerial(typed) === plainSerial(reading.event.actor.name)
    ? finding("fails", `${typed} cannot witness what ${typed} entered. A second person looks.`, [
        reading,
      ])
    : finding("passes", `Witnessed by ${typed}.`, [reading]);
};

/** The card read on location is within the policy's tolerance of the test-rack figure that the mandrel needs. */
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
  const [difference, needed] = found.values as [number, number];
  const allowed = toSI("pressure difference", policy.setPressureTolerance.value);
  const { write } = context.writer;
  const side = difference < 0 ? "below" : "above";
  const words = `The card is ${write("pressure difference", Math.abs(difference))} ${side} the ${write("pressure", needed)} needed on the test rack at 60 °F`;
  return atMost(Math.abs(difference), allowed)
    ? finding("passes", `${words}.`, [reading], ["card-difference", "test-rack-needed"])
    : finding(
        "fails",
        `${words}; ${write("pressure difference", allowed)} is allowed. The valve of another depth? Set it again in the shop, or ask the engineer.`,
        [reading],
        ["card-difference", "test-rack-needed"],
      );
};

/** Both strings carry a kickover tool made for this mandrel, with or without orienting sleeve. */
export const kickoverToolMatches: Check = ({ programme }) => kickoverFinding(programme);

/** Whether both strings carry a kickover tool made for this mandrel. */
export function kickoverFinding(programme: Programme): Finding {
  const mandrel = targetMandrel(programme);
  const { pull, set } = programme.strings;
  const ofPull = kickoverOf("pull", pull, mandrel);
  return ofPull.state === "passes" ? kickoverOf("set", set, mandrel, "Both strings carry") : ofPull;
}

/**
 * Whether one string carries a kickover tool made for this mandrel.
 *
 * @param carries how the sentence begins when it does
 */
export function kickoverOf(
  purpose: "pull" | "set",
  string: ToolString | undefined,
  mandrel: Mandrel | undefined,
  carries = `The ${purpose} string carries`,
): Finding {
  if (!mandrel || mandrel.orientingSleeve === "not known") {
    return finding(
      "not known",
      "Not known whether the mandrel has an orienting sleeve. Ask before anything is rigged up.",
    );
  }
  const wanted = mandrel.orientingSleeve === "yes" ? "orienting" : "not orienting";
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
    const sleeve = mandrel.orientingSleeve === "yes" ? "has an" : "has no";
    return finding(
      "fails",
      `Mandrel ${mandrel.number} ${sleeve} orienting sleeve, and the ${purpose} string carries a kickover tool made for ${tool.kickover === "orienting" ? "an orienting" : tool.kickover ? "a mandrel without an orienting" : "an unstated"} sleeve. Take the one made for it.`,
    );
  }
  return finding("passes", `${carries} a kickover tool for this mandrel (${wanted}).`);
}

/**
 * The test pull was more than picking up took just above the pocket, both read at the same indicator: what is less hangs
 * the string and pulls at no latch.
 */
export const pulledOverPickingUp: Check = (context) => {
  const parts = ["pull", "pick-up"].map((part) => context.reading(part));
  const { atmosphere } = context.results.context;
  const [pull, pickUp] = parts.map((reading) => quantitySI(reading, atmosphere));
  if (pull === undefined || pickUp === undefined) {
    return finding(
      "not known",
      "Not known yet: needs the test pull, and picking up just above the pocket.",
      parts,
    );
  }
  const { write } = context.writer;
  const words = `Pulled to ${write("force", pull)}; picking up took ${write("force", pickUp)}`;
  return !atMost(pull, pickUp)
    ? finding("passes", `${words}, ${write("force", pull - pickUp)} less.`, parts)
    : finding(
        "fails",
        `${words}: nothing pulled at the latch. Pull lightly over that, 100 to 200 lbf (common practice), and look whether it holds.`,
        parts,
      );
};
