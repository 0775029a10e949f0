import { useEffect, useState } from "react";
import type { Question } from "../../jobs/state/jobState.ts";
import { keyOf } from "../../jobs/state/questions.ts";
import { useStore } from "../storeContext.ts";
import type { LiveJob } from "../useJob.ts";
import { AskForm } from "./Ask.tsx";
import { BEGUN } from "./begunQuestions.ts";

/** A question as it was begun: what it is about, and how that is called. */
interface Begun {
  readonly about: Question["about"];
  readonly what: string;
}

/** Questions that were half written when the page was left: in sight again, until they are asked. */
export function BegunBefore({ live }: { readonly live: LiveJob }) {
  const store = useStore();
  const [found, setFound] = useState<readonly Begun[]>([]);
  const [open, setOpen] = useState<string>();
  useEffect(() => {
    let current = true;
    const read = async () => {
      const { fields = {} } = (await store.halfTyped(live.id, BEGUN)) ?? {};
      const begun = Object.values(fields).flatMap(({ text }) =>
        text === "" ? [] : [JSON.parse(text) as Begun],
      );
      if (current) setFound(begun);
    };
    // Where nothing kept can be read there is nothing to show; each is found where it was begun.
    read().catch(() => {});
    return () => {
      current = false;
    };
  }, [store, live.id]);
  const asked = (key: string) => setFound((all) => all.filter(({ about }) => keyOf(about) !== key));
  return found.map(({ about, what }) => {
    const key = keyOf(about);
    return (
      <div key={key} className="question-begun">
        <p>
          <strong>A question is half written and not asked:</strong> {what}
        </p>
        {open === key ? (
          <AskForm
            live={live}
            about={about}
            what={what}
            onDone={() => setOpen(undefined)}
            onAsked={() => asked(key)}
          />
        ) : (
          <button type="button" className="button" onClick={() => setOpen(key)}>
            Go on with it
          </button>
        )}
      </div>
    );
  });
}
