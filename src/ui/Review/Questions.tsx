import { format } from "date-fns";
import { useState } from "react";
import { answerQuestion } from "../../jobs/commands/questions.ts";
import type { Question } from "../../jobs/state/jobState.ts";
import { aboutInWords, isTalkedAbout, openQuestions } from "../../jobs/state/questions.ts";
import { useSettings } from "../settings.ts";
import type { LiveJob } from "../useJob.ts";
import { Ask } from "./Ask.tsx";
import { useWords } from "./useWords.ts";
import "./Questions.css";

/** What was asked about the record, the open questions first, each with its answers or the field for one. */
export function Questions({ live }: { readonly live: LiveJob }) {
  const { state } = live;
  const { actor } = useSettings();
  const open = openQuestions(state);
  const answered = state.questions.filter((each) => !open.includes(each));
  const mayAnswer =
    isTalkedAbout(state) &&
    (actor?.role === "wireline supervisor" || actor?.role === "production engineer");
  const about = { kind: "whole record" } as const;
  const ask = (
    <Ask live={live} about={about} what="the whole record" label="Ask about the whole record" />
  );
  if (state.questions.length === 0) return ask;
  return (
    <section className="card review-section" aria-label="Questions">
      <h2>
        {open.length === 0
          ? "Questions, all answered"
          : `${open.length} ${open.length === 1 ? "question waits" : "questions wait"} for the supervisor`}
      </h2>
      <ul className="questions">
        {[...open, ...answered].map((question) => (
          <Asked
            key={question.event.hash}
            live={live}
            question={question}
            mayAnswer={mayAnswer}
            asEngineer={actor?.role === "production engineer"}
          />
        ))}
      </ul>
      {ask}
    </section>
  );
}

interface AskedProps {
  readonly live: LiveJob;
  readonly question: Question;
  readonly mayAnswer: boolean;
  readonly asEngineer: boolean;
}

function Asked({ live, question, mayAnswer, asEngineer }: AskedProps) {
  const { event, text, answers, about } = question;
  const [adds, setAdds] = useState(false);
  // For the supervisor the field is there; the engineer writes only what was said on a call.
  const asks = mayAnswer && (adds || (answers.length === 0 && !asEngineer));
  return (
    <li id={`question-${event.hash}`}>
      <p className="small soft">{aboutInWords(live.state, about)}</p>
      <p className="question-text">{text}</p>
      <By of={event} />
      {answers.map((answer) => (
        <div key={answer.event.hash} className="question-answer">
          <p>{answer.text}</p>
          <By
            of={answer.event}
            what={answer.event.actor.role === "production engineer" ? "Told, and written down" : ""}
          />
        </div>
      ))}
      {asks && <Answer live={live} question={event.hash} onDone={() => setAdds(false)} />}
      {mayAnswer && !asks && (
        <button type="button" className="button quiet" onClick={() => setAdds(true)}>
          {asEngineer ? "Write down an answer given on the telephone" : "Add to the answer"}
        </button>
      )}
    </li>
  );
}

interface ByProps {
  readonly of: Question["event"];
  readonly what?: string;
}

function By({ of: { at, actor }, what = "" }: ByProps) {
  return (
    <p className="small soft">
      {what} {format(new Date(at), "d MMM HH:mm")}, {actor.name}, {actor.role}
    </p>
  );
}

interface AnswerProps {
  readonly live: LiveJob;
  readonly question: string;
  readonly onDone: () => void;
}

function Answer({ live, question, onDone }: AnswerProps) {
  const words = useWords(
    live.id,
    `answer to ${question}`,
    "answer",
    (situation, text) => answerQuestion(situation, question, text),
    onDone,
  );
  return (
    <div className="answer-form">
      <label>
        Answer
        <textarea
          rows={3}
          value={words.text}
          onChange={(event) => words.change(event.target.value)}
        />
      </label>
      {words.problem && (
        <p className="problem" role="alert">
          {words.problem}
        </p>
      )}
      <button type="button" className="button next" onClick={() => void words.send()}>
        Record the answer
      </button>
    </div>
  );
}
