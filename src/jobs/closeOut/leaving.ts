import { holdPointsOf } from "../sheet/walk.ts";
import { asked, type CloseOutLine, type CloseOutSection, joined, type Of, time } from "./line.ts";

export function line(of: Of): CloseOutSection {
  return {
    id: "line",
    title: "Line",
    lines: [
      asked(of, {
        id: "line-cut",
        label: "Cut off",
        step: "line-left",
        fields: ["line-cut", "line-remarks"],
      }),
      asked(of, {
        id: "line-on-drum",
        label: "Left on the drum",
        step: "line-left",
        fields: ["line-on-drum"],
      }),
    ],
  };
}

/** How the well was left, and who has it now. */
export function left(of: Of): CloseOutSection {
  return {
    id: "left",
    title: "The well when left",
    lines: [
      asked(of, {
        id: "nothing-left",
        label: "Left in the hole",
        step: "account",
        fields: ["nothing-left", "left-words"],
      }),
      asked(of, {
        id: "well-status",
        label: "The well",
        step: "account",
        fields: ["well-status"],
      }),
      asked(of, {
        id: "lock-off",
        label: "Lock on the injection gas",
        step: "injection",
        fields: ["lock-off"],
      }),
      takenOver(of),
    ],
  };
}

const HANDOVER = "handover-hold";

function takenOver({ state, programme }: Of): CloseOutLine {
  const label = { id: "taken-over", label: "Taken over by" };
  const signed = state.signatures.findLast(
    ({ hold, by, setAside }) => hold === HANDOVER && by.role === "field operator" && !setAside,
  );
  if (signed) {
    const { by, event, drawn } = signed;
    const given = state.releases.findLast(({ hold }) => hold === HANDOVER);
    return {
      ...label,
      says: joined(
        `${by.name}, ${by.role}, signed ${time(event.at)}${drawn ? "" : " by name"}`,
        given && `given by ${given.event.actor.name}`,
      ),
      events: [event, ...(given ? [given.event] : [])],
    };
  }
  const asks = holdPointsOf(programme.sheet).some(({ id }) => id === HANDOVER);
  return asks
    ? { ...label, says: "Nobody signed.", events: [], gap: { at: HANDOVER } }
    : { ...label, says: "This job's run sheet does not ask for it.", events: [], gap: {} };
}
