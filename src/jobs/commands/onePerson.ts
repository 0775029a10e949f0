import type { EventBody } from "../log/event.ts";
import type { Actor } from "../roles.ts";
import { holdPointsOf } from "../sheet/walk.ts";
import type { JobState, Signature } from "../state/jobState.ts";
import { isCrew } from "./situation.ts";
import { samePerson } from "./text.ts";

/** Somebody's part in a job. */
interface Part {
  readonly as: Actor;
  readonly did: string;
  /** hold point at which they signed */
  readonly hold?: string;
}

/**
 * Why somebody cannot act in a role, or undefined: they have another one on this job, and a second person is one.
 * Supervisor and winch operator are one crew, of which a run may change who is which; at one hold point not even they.
 *
 * @param hold the hold point at which they act
 */
export function secondRole(state: JobState, person: Actor, hold?: string): string | undefined {
  const before = partsIn(state).find(
    (part) =>
      samePerson(part.as.name, person.name) &&
      part.as.role !== person.role &&
      ((hold !== undefined && part.hold === hold) || !(isCrew(part.as) && isCrew(person))),
  );
  if (!before) return undefined;
  const { as, did } = before;
  const mistaken =
    before.hold === undefined ? "" : ` Where that name is wrong, the ${as.role} signs there again.`;
  return `${as.name} ${did} as ${as.role}. One person has one role on a job: the ${person.role} is somebody else.${mistaken}`;
}

function partsIn(state: JobState): Part[] {
  const titleOf = (hold: string) =>
    state.programme && holdPointsOf(state.programme.sheet).find(({ id }) => id === hold)?.title;
  return [
    ...standing(state.signatures).map(({ by, hold }) => ({
      as: by,
      did: `signed "${titleOf(hold) ?? hold}"`,
      hold,
    })),
    ...state.exceptions
      .filter(({ setAside }) => !setAside)
      .map(({ authoriser, hold }) => ({
        as: authoriser,
        did: `gave an exception at "${titleOf(hold) ?? hold}"`,
      })),
    ...state.crewChanges.flatMap(({ by, to }) => [
      { as: by, did: "had the run" },
      { as: to, did: "took the run over" },
    ]),
    ...state.events.flatMap(({ actor, body }): Part[] => {
      const did = doings[body.type];
      return did === undefined ? [] : [{ as: actor, did }];
    }),
  ];
}

/** The signatures that count: somebody who signs again in a role replaces who signed there before. */
function standing(signatures: readonly Signature[]): Signature[] {
  return signatures.filter(
    (each, index) =>
      !each.setAside &&
      !signatures
        .slice(index + 1)
        .some(({ hold, by }) => hold === each.hold && by.role === each.by.role),
  );
}

/** What is done in a role. Notes and photographs are anybody's; planning and review are not the run. */
const doings: Partial<Readonly<Record<EventBody["type"], string>>> = {
  "run started": "started the run",
  "readings taken": "entered readings",
  "step done": "recorded steps",
  correction: "corrected readings",
  "hold released": "released a hold point",
  "run closed": "closed the run",
};
