import { pocketsOf } from "../pockets.ts";
import type { OpenPoint } from "../readiness.ts";
import type { Stack } from "../records/equipment.ts";
import type { Job } from "../records/job.ts";
import type { Programme } from "../records/programme.ts";
import type { Well } from "../records/well.ts";

/** The record that an open point is about, and the field of it that is lacking, where one is. */
export interface InRecord {
  readonly at: "record";
  readonly href: string;
  readonly says: string;
  /** the field's path in the record's editor */
  readonly field?: string;
}

/** A job with its records, as far as it has them. */
export interface About {
  readonly programme: Programme;
  readonly job: Job;
}

/** What is named by a point, and the field that takes it; the first that fits counts. */
const ofTheWell: readonly (readonly [RegExp, field: string])[] = [
  [/turns of the crown valve/i, "crownValveTurns"],
  [/shut-in temperatures/i, "temperatures.shutIn"],
  [/flowing temperatures/i, "temperatures.flowing"],
  [/operating injection pressure/i, "pressures.operatingInjectionAtSurface"],
  [/maximum shut-in wellhead/i, "pressures.maximumShutInWellhead"],
  [/full injection pressure/i, "pressures.fullInjectionAtSurface"],
  [/hydrogen sulfide of the injection gas/i, "injectionGas.h2s"],
  [/hydrogen sulfide of the gas in the tubing/i, "tubingGas.h2s"],
  [/injection gas/i, "injectionGas.specificGravity"],
  [/gradient of the tubing liquid/i, "tubingLiquidGradient"],
  [/liquid level in the annulus/i, "annulusLiquid.state"],
  [/gradient of the load liquid/i, "onLift.loadGradient"],
  [/gradient above/i, "onLift.liftedGradient"],
  [/gradient below/i, "onLift.gradientBelow"],
  [/wellhead pressure on lift/i, "onLift.wellhead"],
  [/injection rate/i, "onLift.injectionRate"],
  [/casing, inside/i, "annulus.casingInside"],
  [/tubing, outside/i, "annulus.tubingOutside"],
  [/drift of the tubing/i, "tubing"],
];
const ofTheValve: readonly (readonly [RegExp, field: string])[] = [
  [/bellows area/i, "bellowsArea"],
  [/seat seal area/i, "seat"],
  [/length of the valve/i, "length"],
  [/\bcard\b/i, "card.testRackOpening60F"],
];
const ofTheLine: readonly (readonly [RegExp, field: string])[] = [
  [/rope socket strength/i, "ropeSocketStrength"],
  [/breaking strength|certificate of the line|the line, from memory/i, "breakingStrength"],
];

const fieldIn = (named: typeof ofTheWell, says: string) =>
  named.find(([pattern]) => pattern.test(says))?.[1];

function fieldOfWell(says: string, well: Well): string | undefined {
  const number = /mandrel (\d+)/i.exec(says)?.[1];
  const index = well.mandrels.findIndex((each) => String(each.number) === number);
  if (index >= 0 && /orienting sleeve/i.test(says)) return `mandrels.${index}.orientingSleeve`;
  if (index >= 0 && /latch profile/i.test(says)) {
    const isPocket = well.mandrels[index]?.pocket === "not known";
    return `mandrels.${index}.${isPocket ? "pocket" : "latchProfile"}`;
  }
  // Where no other is stated the gas in the tubing is the injection gas.
  if (/^gas in the tubing/i.test(says)) {
    return `${well.injectionGas ? "tubingGas" : "injectionGas"}.specificGravity`;
  }
  return fieldIn(ofTheWell, says);
}

function fieldOfStack(says: string, { items }: Stack): string | undefined {
  const named = items.findIndex(({ name }) => says.startsWith(`${name}:`));
  if (named >= 0 && /certificate/i.test(says)) return `items.${named}.certificateUntil`;
  const section = items.findIndex(({ kind }) => kind === "lubricator section");
  return section >= 0 && /lubricator is .* short|usable length/i.test(says)
    ? `items.${section}.usableLength`
    : undefined;
}

/** The record that a point is about, where the job has one. */
export function recordOf(
  { group, says }: OpenPoint,
  { programme, job }: About,
): InRecord | undefined {
  const { well, strings, stack, line: wire, policy, installed } = programme;
  const record = (href: string, name: string, field?: string): InRecord => ({
    at: "record",
    href,
    says: name,
    ...(field !== undefined && { field }),
  });
  const ofWell =
    well && record(`/edit/wells/${well.id}`, `Record of ${well.name}`, fieldOfWell(says, well));
  if (/orienting sleeve\. /.test(says) && /not known|\bask\b/i.test(says)) return ofWell;
  if (/how much hydrogen sulfide/i.test(says)) return ofWell;
  const onLine = fieldIn(ofTheLine, says);
  if (onLine !== undefined) {
    return wire && record(`/edit/lines/${wire.id}`, `Record of ${wire.name}`, onLine);
  }
  if (/^(annulus may|fraction of it allowed|margin|test factor)/i.test(says)) {
    return policy && record(`/edit/policies/${policy.id}`, `Record of ${policy.name}`);
  }
  const replacements = [programme.replacement, ...(programme.replacements ?? [])];
  const valves = [...replacements, ...installed].flatMap((valve) => valve ?? []);
  const ofValve = (valve: (typeof valves)[number] | undefined) =>
    valve &&
    record(`/edit/valves/${valve.id}`, `Record of ${valve.serial}`, fieldIn(ofTheValve, says));
  if (/length of the valve on it/.test(says)) {
    // Only what goes in and what comes out hangs on a string, not what stays in the other pockets.
    const pulled = pocketsOf(job).map(
      (pocket) => well?.mandrels.find(({ id }) => id === pocket)?.valve,
    );
    const onString = valves.filter(
      ({ id }) => pulled.includes(id) || replacements.some((valve) => valve?.id === id),
    );
    return ofValve(onString.find(({ length }) => !length));
  }
  switch (group) {
    case "well":
      return ofWell;
    case "valve": {
      const named = valves.find(({ serial }) => says.includes(serial));
      return ofValve(named ?? programme.replacement) ?? ofWell;
    }
    case "string": {
      // The job says them, not a string.
      if (/running-tool pins/i.test(says)) {
        return record(`/edit/jobs/${job.id}`, "The job's record", "pins.material");
      }
      const purpose = (["gauge", "set", "pull", "catcher"] as const).find((each) =>
        says.toLowerCase().includes(`${each} string`),
      );
      const string = purpose ? strings[purpose] : (strings.pull ?? strings.set ?? strings.gauge);
      return string && record(`/strings/${string.id}`, string.name);
    }
    case "stack":
      return (
        stack &&
        record(`/edit/stacks/${stack.id}`, `Record of ${stack.name}`, fieldOfStack(says, stack))
      );
    case "people":
    case "sheet":
      return undefined;
  }
}
