import { itemId, itemsOf } from "../sheet/walk.ts";
import type { JobState, Question } from "../state/jobState.ts";
import { isTalkedAbout } from "../state/questions.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import type { Situation } from "./situation.ts";
import { MOST_LONG, MOST_WORDS, tidy, tooLong } from "./text.ts";

/** Why nothing is asked or answered now, or undefined. */
function notTalkedAbout(state: JobState): Decision | undefined {
  if (isTalkedAbout(state)) return undefined;
  return refuse(
    state.stage === "approved"
      ? "The record is approved. It is not changed any more."
      : "The run is not closed yet; questions are asked about a closed run.",
  );
}

/** The engineer asks about a line of the record. */
export function askQuestion(
  { state, actor }: Situation,
  about: Question["about"],
  given: string,
): Decision {
  const stopped = notTalkedAbout(state);
  if (stopped) return stopped;
  if (actor.role !== "production engineer") {
    return refuse(`A production engineer asks; ${actor.name} is here as ${actor.role}.`);
  }
  const unknown = notThere(state, about);
  if (unknown) return refuse(unknown);
  const text = tidy(given);
  if (text === "") return refuse("Write the question first.", "question");
  const long = tooLong("Question", text, MOST_LONG);
  if (long) return refuse(long, "question");
  return accept({ type: "question asked", about, text });
}

/** Why there is nothing there to ask about, or undefined. */
function notThere(state: JobState, about: Question["about"]): string | undefined {
  switch (about.kind) {
    case "whole record":
      return undefined;
    case "line": {
      const says = tidy(about.says);
      return says === "" ? "The line asked about says nothing." : tooLong("Line", says, MOST_WORDS);
    }
    case "item": {
      const items = state.programme ? itemsOf(state.programme.sheet) : [];
      return items.some((item) => itemId(item) === about.item)
        ? undefined
        : `The run sheet has no step "${about.item}".`;
    }
    case "event": {
      if (!state.position.has(about.event)) return "The entry asked about is not in the log.";
      const { field, event } = about;
      return field === undefined ||
        state.readings.some((each) => each.event.hash === event && each.field === field)
        ? undefined
        : "The entry asked about is not in the log.";
    }
  }
}

/**
 * Answers a question. The supervisor does, and the engineer may write down what was said on the telephone; a second
 * answer stands beside the first. The run is not opened for it.
 */
export function answerQuestion(
  { state, actor }: Situation,
  question: string,
  given: string,
): Decision {
  const stopped = notTalkedAbout(state);
  if (stopped) return stopped;
  if (actor.role !== "wireline supervisor" && actor.role !== "production engineer") {
    return refuse(
      `The wireline supervisor answers, or the engineer for a call; ${actor.name} is here as ${actor.role}.`,
    );
  }
  if (!state.questions.some(({ event }) => event.hash === question)) {
    return refuse("The question to answer is not in the log.");
  }
  const text = tidy(given);
  if (text === "") return refuse("Write the answer first.", "answer");
  const long = tooLong("Answer", text, MOST_LONG);
  if (long) return refuse(long, "answer");
  return accept({ type: "question answered", question, text });
}
