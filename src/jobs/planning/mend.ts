import type { OpenPoint } from "../readiness.ts";
import { openInWords, type Proposal } from "./proposal.ts";
import { type InRecord, recordOf } from "./recordOf.ts";

/** Where an open point is mended: on a line of the plan, or in the record that it is about. */
export type Mend = { readonly at: "line"; readonly key: string; readonly says: string } | InRecord;

/** What is named by a point, and the line that takes it; the first that fits counts. */
const named: readonly (readonly [RegExp, line: string])[] = [
  [/opening pressure wanted/i, "opening of "],
  [/pressure at the mandrel when it opens/i, "seat of "],
  [/^(expected )?wellhead pressure|wellhead pressure: not known/i, "wellhead"],
  [/fluid level/i, "level"],
  [/packing friction/i, "packing"],
  [/density of the gas/i, "density"],
  [/friction coefficient/i, "friction"],
  [/replacement valve is chosen/i, "replacement of "],
  [/gauge string is not chosen/i, "gauge"],
  [/pull string is not chosen|needs pull string|needs the pull string/i, "pull"],
  [/set string is not chosen|needs the set string/i, "set"],
  [/running-tool pins/i, "pins.material"],
  [/where the line's pull is read|hay pulley/i, "unit"],
  [/plan of the pull run.*jar hits/i, "limits.hits"],
  [/plan of the pull run.*kickover tool lets go/i, "limits.kickover"],
  [/plan of the pull run.*cut back/i, "limits.cut"],
  [/no wireline supervisor/i, "supervisor"],
  [/no production engineer/i, "engineer"],
  [/no field operator/i, "fieldOperator"],
  [/no policy|needs policy|policy: not known/i, "policy"],
  [/pressure equipment: not known|needs( the)? pressure equipment/i, "stack"],
  [/^line: not known|needs line|diameter of the line/i, "line"],
];

export function mendOf(point: OpenPoint, proposal: Proposal): Mend | undefined {
  const { group, says } = point;
  const { lines } = proposal;
  const problem = lines.find((line) => line.kind !== "choice" && line.problem === says);
  const lacking = lines.find((line) => openInWords(line) === says);
  if (problem) return { at: "line", key: problem.key, says: "Enter it again" };
  if (lacking) return { at: "line", key: lacking.key, says: lacking.label };
  for (const [pattern, key] of named) {
    if (!pattern.test(says)) continue;
    const line = lineOf(key, says, proposal);
    if (line) return { at: "line", key: line.key, says: line.label };
  }
  return recordOf(point, proposal) ?? chosenBy(group, says, proposal);
}

/** Without a record there is the line that chooses one. */
function chosenBy(
  group: OpenPoint["group"],
  says: string,
  { lines, programme }: Proposal,
): Mend | undefined {
  const keys = [
    !programme.policy && /^(annulus may|fraction of it|margin|test factor)/i.test(says) && "policy",
    group === "stack" && !programme.stack && "stack",
    group === "string" && !programme.line && "line",
    /length of the valve on it|valve/i.test(says) && !programme.replacement && "replacement of ",
  ];
  const key = keys.find((each) => typeof each === "string");
  const line = key === undefined ? undefined : lines.find((each) => each.key.startsWith(key));
  return line && { at: "line", key: line.key, says: line.label };
}

/** Of several pockets the one whose mandrel is named. */
function lineOf(key: string, says: string, { lines, programme }: Proposal) {
  if (!key.endsWith(" of ")) return lines.find((line) => line.key === key);
  const of = lines.filter((line) => line.key.startsWith(key));
  const number = /mandrel (\d+):/i.exec(says)?.[1];
  const mandrel = programme.well?.mandrels.find((each) => String(each.number) === number)?.id;
  return of.find(({ pocket }) => pocket === mandrel) ?? of[0];
}
