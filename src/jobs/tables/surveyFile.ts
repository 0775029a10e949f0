import { asEntered } from "../display.ts";
import { pathOf, type Trajectory } from "../files/witsml.ts";
import { toSI } from "../quantity.ts";
import { type Well, well as wellSchema } from "../records/well.ts";
import { plainWell } from "../serial.ts";
import { isSamePath } from "./surveyDrafts.ts";

/** The well that a survey names, where just one well here has that name. */
export function wellByName(trajectory: Trajectory, wells: readonly Well[]): Well | undefined {
  const names = [trajectory.well, trajectory.wellbore].flatMap((name) =>
    name ? [plainWell(name)] : [],
  );
  const found = wells.filter(({ name }) => names.includes(plainWell(name)));
  return found.length === 1 ? found[0] : undefined;
}

/** What a survey makes of a well. */
export type SurveyFit =
  | { readonly is: "refused"; readonly why: string }
  | { readonly is: "same"; readonly words: string }
  | { readonly is: "changes"; readonly words: string; readonly well: Well };

/** Two depths nearer than this are one station, m: units are turned into one another on the way. */
const SAME_DEPTH = 0.01;

/** The well with the survey as its path, and in words which stations are new. Nothing of a survey that is not whole. */
export function surveyForWell(trajectory: Trajectory, well: Well): SurveyFit {
  const { problems } = trajectory;
  if (problems.length > 0) {
    return {
      is: "refused",
      why: `${problems.length === 1 ? "One station" : `${problems.length} stations`} of the survey cannot be read, so it is not taken. Have the file mended first.`,
    };
  }
  const found = pathOf(trajectory);
  if (found.state === "refused") return { is: "refused", why: found.why };
  const { path } = found;
  const after: Well = { ...well, path, revision: well.revision + 1 };
  const checked = wellSchema.safeParse(after);
  if (!checked.success) {
    return {
      is: "refused",
      why: `The well's record would not be whole: ${checked.error.issues[0]?.message}.`,
    };
  }
  const stations = path.kind === "surveyed" ? path.stations : [];
  if (isSamePath(well.path, stations)) {
    return {
      is: "same",
      words: `${well.name} has these very stations already. There is nothing to write.`,
    };
  }
  if (well.path.kind === "vertical") {
    return {
      is: "changes",
      well: after,
      words: `${well.name} was taken as vertical: all ${stations.length} stations are new.`,
    };
  }
  const before = well.path.stations;
  const depth = (station: (typeof stations)[number]) => toSI("length", station.depthAlongHole);
  const isIn = (of: typeof stations) => (station: (typeof stations)[number]) =>
    of.some((other) => Math.abs(depth(other) - depth(station)) <= SAME_DEPTH);
  const fresh = stations.filter((station) => !isIn(before)(station));
  const gone = before.filter((station) => !isIn(stations)(station));
  const changed = stations.length - fresh.length;
  const named = fresh.slice(0, 6).map(({ depthAlongHole }) => asEntered(depthAlongHole));
  const more = fresh.length > named.length ? ", …" : "";
  return {
    is: "changes",
    well: after,
    words: [
      `${well.name} has a path of ${before.length} stations.`,
      `${fresh.length} new${fresh.length > 0 ? ` (at ${named.join(", ")}${more})` : ""},`,
      `${changed} at depths that are here already and taken as the file has them,`,
      `${gone.length} that the file does not have and that go.`,
    ].join(" "),
  };
}
