import { toSI } from "./quantity.ts";
import type { OpenPoint } from "./readiness.ts";
import type { Programme } from "./records/programme.ts";
import { sheetOf, sheetWanted } from "./sheet/sheetOf.ts";

/** The sheet as the planner changed it hangs together, and the well has a place for what it sets. */
export function sheetPoints({ job, well }: Programme): OpenPoint[] {
  const fails = (says: string): OpenPoint => ({
    group: "sheet",
    weight: "fails",
    says,
    stops: true,
  });
  const points = sheetOf(job, well).problems.map(({ says }) => fails(`Run sheet: ${says}`));
  const target = well?.mandrels.find((each) => each.id === job.mandrel);
  if (!sheetWanted(job).catcher || !well || !target) return points;
  const depth = toSI("length", target.depthAlongHole);
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
  return points;
}
