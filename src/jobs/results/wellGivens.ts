import type { Warning } from "../../calc/method.ts";
import { temperatureLineMethod } from "../../calc/temperatureProfile.ts";
import { verticalM } from "../../calc/units.ts";
import { asEntered } from "../display.ts";
import { toSI } from "../quantity.ts";
import type { GasRecord, Well } from "../records/well.ts";
import { type Context, partGiven, productionSide, ready, wellName } from "./context.ts";
import { type AnyResultId, from, type Given, type Traced, trace } from "./traced.ts";

/** What the well's record says of its path, gases and temperatures, as givens of a calculation. */

/** Where mandrels lie deeper than the survey goes: what the path is taken to be there. */
export function beyondSurvey(well: Well | undefined): string | undefined {
  if (well?.path.kind !== "surveyed") return undefined;
  const last = well.path.stations.at(-1);
  if (!last) return undefined;
  const end = toSI("length", last.depthAlongHole);
  const below = well.mandrels.filter((each) => toSI("length", each.depthAlongHole) > end);
  if (below.length === 0) return undefined;
  const numbers = below.map(({ number }) => number).join(", ");
  return `The survey ends at ${asEntered(last.depthAlongHole)}, above mandrel${below.length > 1 ? "s" : ""} ${numbers}: from there on the path is taken straight.`;
}

/** The survey, in words. */
export function pathGiven(context: Context): Given {
  const path = context.programme.well?.path;
  const shown =
    path?.kind === "surveyed" ? `${path.stations.length} survey stations` : "vertical well";
  const text = beyondSurvey(context.programme.well);
  return {
    ...partGiven("path", "Well path", context.path, shown, wellName(context)),
    ...(text && { warnings: [{ kind: "note", text }] }),
  };
}

/** What describes a gas, on one line. */
export function gasInWords(gas: GasRecord | undefined): string {
  if (!gas) return "";
  const { specificGravity, co2, h2s, n2, analysis } = gas;
  if (analysis) return `by analysis, ${Object.keys(analysis).length} components`;
  const impurity = (name: string, of: typeof co2) => (of ? `, ${name} ${of.value} ${of.unit}` : "");
  return `gravity ${specificGravity?.value}${impurity("CO2", co2)}${impurity("H2S", h2s)}${impurity("N2", n2)}`;
}

export function gasGiven(context: Context): Given {
  const words = gasInWords(context.programme.well?.injectionGas);
  return partGiven("gas", "Injection gas", context.gas, words, wellName(context));
}

/**
 * The gas that stands in one space of the shut-in well. On the side that produces, where nobody said which
 * it is, it is taken to be the injection gas, as an assumption.
 */
export function spaceGasGiven(context: Context, space: "annulus" | "tubing"): Given {
  const { well } = context.programme;
  if (space !== productionSide(context.programme)) return gasGiven(context);
  const gas = space === "tubing" ? context.tubingGas : context.annulusGas;
  const words = gasInWords(well?.tubingGas ?? well?.injectionGas);
  const given = partGiven("gas", `Gas in the ${space}`, gas, words, wellName(context));
  return well?.tubingGas
    ? given
    : { ...given, origin: { kind: "assumed", why: "the injection gas" } };
}

/** A gas twice as far from the truth as gravity 0.66 from 0.75 moves 900 psig at 5,000 ft by some 50 psi. */
export function gasAssumed({ programme }: Context, space: "annulus" | "tubing"): Warning[] {
  if (programme.well?.tubingGas || space !== productionSide(programme)) return [];
  const text = `the gas in the ${space} is taken to be the injection gas; a heavier one makes the ${space} pressure at the mandrel higher`;
  return [{ kind: "note", text }];
}

export function profileGiven(context: Context, condition: "shutIn" | "flowing"): Given {
  const points = context.programme.well?.temperatures[condition];
  const name = condition === "shutIn" ? "Shut-in temperatures" : "Flowing temperatures";
  const profile = context[condition];
  const given = partGiven(
    "T(h)",
    name,
    profile,
    points ? `${points.length} points` : "by correlation from what flows",
    wellName(context),
  );
  return points || !profile.ok
    ? given
    : { ...given, origin: { kind: "assumed", why: profile.value.method.name } };
}

/** Temperature at a depth, shut in or on lift. */
export function temperatureAt(
  context: Context,
  id: AnyResultId,
  label: string,
  condition: "shutIn" | "flowing",
  tvd: Traced,
): Traced {
  const profile = context[condition];
  return trace({
    id,
    label,
    dimension: "temperature",
    method: profile.ok ? profile.value.method : temperatureLineMethod,
    givens: { depth: from("h", tvd), profile: profileGiven(context, condition) },
    work: ({ depth }) => {
      const temperatures = ready(profile);
      const at = verticalM(depth);
      return { si: temperatures.at(at), warnings: temperatures.warningsAt(at) };
    },
  });
}
