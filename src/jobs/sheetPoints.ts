import type { CheckContext } from "./checks/check.ts";
import { pushOutBeaten } from "./checks/envelopeChecks.ts";
import { staysUp } from "./linePoints.ts";
import { focus, pocketsOf } from "./pockets.ts";
import { targetMandrel } from "./programme.ts";
import { toSI } from "./quantity.ts";
import type { OpenPoint } from "./readiness.ts";
import type { Mandrel } from "./records/well.ts";
import { resultsOf } from "./results/results.ts";
import { sheetOf } from "./sheet/sheetOf.ts";
import { sheetWanted } from "./sheet/sheetWanted.ts";

const fails = (says: string, group: OpenPoint["group"] = "sheet"): OpenPoint => ({
  group,
  weight: "fails",
  says,
  stops: true,
});

/** The sheet as the planner changed it hangs together, and what it sets besides the valve is there to be set. */
export function sheetPoints(context: CheckContext): OpenPoint[] {
  const { job, well } = context.programme;
  const points = sheetOf(job, well).problems.map(({ says }) => fails(`Run sheet: ${says}`));
  return sheetWanted(job).catcher ? [...points, ...catcherPoints(context)] : points;
}

const depthOf = ({ depthAlongHole }: Mandrel) => toSI("length", depthAlongHole);

/** A catcher needs a nipple to sit in, and a string of its own that goes down. */
function catcherPoints(context: CheckContext): OpenPoint[] {
  const { programme, writer } = context;
  const { well } = programme;
  const pockets = pocketsOf(programme.job).flatMap(
    (pocket) => targetMandrel(focus(programme, pocket)) ?? [],
  );
  const [target] = pockets.toSorted((a, b) => depthOf(b) - depthOf(a));
  const points: OpenPoint[] = [];
  if (well && target) {
    const depth = depthOf(target);
    const nippleBelow = well.restrictions.some(
      (each) => each.kind === "nipple" && toSI("length", each.depthAlongHole) > depth,
    );
    if (!nippleBelow) {
      points.push(
        fails(
          `The sheet sets a catcher, and the well's record has no nipple below mandrel ${target.number}. Do without it, or mend the record.`,
        ),
      );
    }
  }
  const { catcher } = programme.strings;
  if (!catcher) {
    const says =
      "The sheet sets a catcher, and no catcher string is chosen. Choose one, or do without the catcher.";
    return [...points, { group: "string", weight: "missing", says, stops: true }];
  }
  // Weighed as the gauge is: neither has a valve on it.
  const alone = { ...programme, strings: { gauge: catcher, pull: catcher, set: catcher } };
  const results = resultsOf(alone, {});
  const pushOut = pushOutBeaten({ ...context, programme: alone, results });
  if (pushOut.state === "fails") {
    points.push(fails(`Catcher string: ${pushOut.says}`, "string"));
  }
  const left = results.value("least-in-gauge");
  if (left !== undefined && left <= 0) {
    points.push(fails(staysUp("catcher", left, writer), "string"));
  }
  return points;
}
