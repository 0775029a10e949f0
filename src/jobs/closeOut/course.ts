import { durationInWords } from "../durationInWords.ts";
import { contingencyRemarks } from "../review/courseRemarks.ts";
import { exceededLimits, overLimits } from "../review/entryRemarks.ts";
import { exceptionRemarks } from "../review/holdRemarks.ts";
import { compare } from "../review/planActual.ts";
import type { Remarkable } from "../review/remarkable.ts";
import { timesOf } from "../state/times.ts";
import {
  type CloseOutLine,
  type CloseOutSection,
  inSentence,
  type Of,
  type Pocket,
  time,
} from "./line.ts";
import { hours } from "./valves.ts";

export function times(of: Of, pockets: readonly Pocket[]): CloseOutSection {
  const { state, now } = of;
  const { started, closed } = state;
  const spent = timesOf(state, now);
  const left = state.done.get("left-location");
  const at = (id: string, label: string, event: typeof started): CloseOutLine[] =>
    event ? [{ id, label, says: time(event.at), events: [event] }] : [];
  const phases = [
    ...spent.phases.map(({ phase, worked, attempts }) => ({
      id: `time-${phase.id}`,
      label: attempts > 1 ? `${phase.title}, made ${attempts} times` : phase.title,
      spent: worked,
    })),
    {
      id: "time-contingencies",
      label: "Dealing with what went wrong",
      spent: spent.contingencies,
    },
    { id: "time-standby", label: "Standby", spent: spent.standby },
    { id: "time-whole", label: "From start to end", spent: spent.whole },
  ].filter((each) => each.spent > 0);
  return {
    id: "times",
    title: "Times",
    lines: [
      ...at("started", "Run started", started),
      ...pockets.flatMap((pocket) => hours(of, pocket)),
      ...at("left", "Left the location", left),
      ...at("closed", "Run closed", closed),
      ...phases.map((each) => ({
        id: each.id,
        label: each.label,
        says: durationInWords(each.spent),
        events: [],
      })),
      ...(spent.clockMoved
        ? [
            {
              id: "clock-moved",
              label: "Clocks",
              says: "A clock was set back between two entries: the times around it say nothing.",
              events: [],
            },
          ]
        : []),
    ],
  };
}

/** What was let pass, what went over a limit, and what went wrong. That there was none is an answer, too. */
export function otherwise({ state, writer }: Of): CloseOutSection {
  const over = exceededLimits(state, overLimits(state, compare(state, writer)), writer);
  return {
    id: "otherwise",
    title: "Exceptions, limits and contingencies",
    lines: [
      ...remarks("exceptions", "Exceptions", exceptionRemarks(state)),
      ...remarks(
        "over-limit",
        "Over a limit",
        over.map((each) => ({ ...each, title: `Over the limit: ${inSentence(each.title)}` })),
      ),
      ...remarks("contingencies", "What went wrong", contingencyRemarks(state)),
    ],
  };
}

function remarks(id: string, label: string, found: readonly Remarkable[]): CloseOutLine[] {
  if (found.length === 0) return [{ id, label, says: "None.", events: [] }];
  return found.map(({ title, says, event }, index) => ({
    id: `${id}-${index + 1}`,
    label: title,
    says,
    events: event ? [event] : [],
  }));
}
