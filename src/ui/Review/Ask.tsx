import { useContext, useEffect, useRef, useState } from "react";
import { askQuestion } from "../../jobs/commands/questions.ts";
import type { Question } from "../../jobs/state/jobState.ts";
import { isTalkedAbout, keyOf, sameAbout } from "../../jobs/state/questions.ts";
import { useSettings } from "../settings.ts";
import type { LiveJob } from "../useJob.ts";
import { BegunQuestions } from "./begunQuestions.ts";
import { useWords } from "./useWords.ts";
import "./Questions.css";

interface AskProps {
  readonly live: LiveJob;
  readonly about: Question["about"];
  /** what it is about, for those who do not see where the button stands */
  readonly what: string;
  /** on the button, where it does not stand on what it is about */
  readonly label?: string;
}

/** On any line of the record: what was asked about it, and for the engineer the way to ask. */
export function Ask({ live, about, what, label }: AskProps) {
  const { actor } = useSettings();
  const [open, setOpen] = useState(false);
  // Beside the questions themselves no link leads to them.
  const before =
    label === undefined ? live.state.questions.filter((each) => sameAbout(each.about, about)) : [];
  const may = isTalkedAbout(live.state) && actor?.role === "production engineer";
  if (before.length === 0 && !may) return null;
  return (
    <span className="ask">
      {before.map(({ event, answers }) => (
        <a key={event.hash} href={`#question-${event.hash}`} className="ask-asked">
          {answers.length > 0 ? "Asked and answered" : "Asked, not answered yet"}
        </a>
      ))}
      {may &&
        (open ? (
          <AskForm live={live} about={about} what={what} onDone={() => setOpen(false)} />
        ) : (
          <button
            type="button"
            className="button quiet ask-button"
            aria-label={`Ask about ${what}`}
            onClick={() => setOpen(true)}
          >
            {label ?? "Ask"}
          </button>
        ))}
    </span>
  );
}

interface AskFormProps extends AskProps {
  readonly onDone: () => void;
  readonly onAsked?: () => void;
}

export function AskForm({ live, about, what, onDone, onAsked }: AskFormProps) {
  const begun = useContext(BegunQuestions);
  const key = keyOf(about);
  const words = useWords(
    live.id,
    `question about ${key}`,
    "question",
    (situation, text) => askQuestion(situation, about, text),
    () => {
      begun?.change(key, { text: "" });
      onAsked?.();
      onDone();
    },
  );
  const write = (text: string) => {
    words.change(text);
    begun?.change(key, { text: text.trim() === "" ? "" : JSON.stringify({ about, what }) });
  };
  const field = useRef<HTMLTextAreaElement>(null);
  useEffect(() => field.current?.focus(), []);
  return (
    <span className="ask-form">
      <label>
        Question about {what}
        <textarea
          ref={field}
          rows={2}
          value={words.text}
          onChange={(event) => write(event.target.value)}
        />
      </label>
      {words.problem && (
        <span className="problem" role="alert">
          {words.problem}
        </span>
      )}
      <span className="row">
        <button type="button" className="button" onClick={() => void words.send()}>
          Ask the supervisor
        </button>
        <button type="button" className="button quiet" onClick={onDone}>
          Not now
        </button>
      </span>
    </span>
  );
}
