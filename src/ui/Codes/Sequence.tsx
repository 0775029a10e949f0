import { type ReactNode, useEffect, useState } from "react";
import type { Cut, Grain } from "../../jobs/codes/cut.ts";
import { shortName } from "../../jobs/codes/frame.ts";
import { inShort, numbersIn } from "../../jobs/codes/numbers.ts";
import { Choice } from "./Choice.tsx";
import { Code } from "./Code.tsx";
import { useAwake } from "./useAwake.ts";

/** Codes a second. A camera takes some thirty pictures a second, and a tablet reads about ten of them. */
const rates = [1, 2, 4, 6, 10] as const;
const USUAL_RATE = 4;

interface SequenceProps {
  readonly made: Extract<Cut, { readonly ok: true }>;
  readonly grain: Grain;
  readonly children: ReactNode;
}

/** The codes one after the other, over and over: all of them, or those that the other tablet still misses. */
export function Sequence({ made: { frames, transfer, bytes }, grain, children }: SequenceProps) {
  const [only, setOnly] = useState<readonly number[]>();
  const [at, setAt] = useState(0);
  const [rate, setRate] = useState<number>(USUAL_RATE);
  const [plays, setPlays] = useState(true);
  const isKeptOn = useAwake(plays);
  const numbers = only ?? frames.map((_, index) => index + 1);
  const length = numbers.length;
  useEffect(() => {
    if (!plays) return;
    const timer = setInterval(() => setAt((now) => (now + 1) % length), 1000 / rate);
    return () => clearInterval(timer);
  }, [plays, rate, length]);
  const number = numbers[at] ?? 1;
  const step = (by: number) => {
    setPlays(false);
    setAt((at + by + length) % length);
  };
  const show = (wanted: readonly number[] | undefined) => {
    setOnly(wanted);
    setAt(0);
    setPlays(true);
  };
  const seconds = Math.ceil(length / rate);
  return (
    <section className="codes-sequence">
      <figure className="codes-shown">
        <Code
          frame={frames[number - 1] ?? ""}
          grain={grain}
          label={`Code ${number} of ${frames.length}`}
        />
        <figcaption className="row">
          <strong className="codes-number">
            {number} of {frames.length}
          </strong>
          <span>Transfer {shortName(transfer)}</span>
        </figcaption>
      </figure>
      <div className="codes-controls">
        <p className="codes-lead">
          On the other tablet open "Read codes" and hold its camera so that the code fills the
          square there.
        </p>
        <div className="codes-keys">
          <button
            type="button"
            className={plays ? "button" : "button next"}
            onClick={() => setPlays(!plays)}
          >
            {plays ? "Stop" : "Play"}
          </button>
          <button type="button" className="button" onClick={() => step(-1)}>
            One back
          </button>
          <button type="button" className="button" onClick={() => step(1)}>
            One on
          </button>
        </div>
        <fieldset>
          <legend>Codes a second</legend>
          <div className="codes-choice">
            {rates.map((each) => (
              <Choice
                key={each}
                name="rate"
                label={`${each}`}
                isChosen={each === rate}
                onChoose={() => setRate(each)}
              />
            ))}
          </div>
        </fieldset>
        <p>
          {(bytes / 1000).toFixed(1)} kB in {frames.length} codes.{" "}
          {only ? `Showing ${only.length}: ${inShort(only)}. ` : ""}
          Once through takes {seconds} {seconds === 1 ? "second" : "seconds"}; what was missed comes
          round again.
          {plays && !isKeptOn && " This browser cannot keep the screen on: touch it now and then."}
        </p>
        <ShowOnly count={frames.length} isPart={only !== undefined} onShow={show} />
        {children}
      </div>
    </section>
  );
}

interface ShowOnlyProps {
  readonly count: number;
  readonly isPart: boolean;
  /** undefined: all */
  readonly onShow: (numbers: readonly number[] | undefined) => void;
}

/** Typed off the other tablet: what it still misses. */
function ShowOnly({ count, isPart, onShow }: ShowOnlyProps) {
  const [typed, setTyped] = useState("");
  const [problem, setProblem] = useState("");
  const show = () => {
    const numbers = numbersIn(typed, count);
    if ("why" in numbers) setProblem(numbers.why);
    else if (numbers.length === 0) setProblem("Type which codes the other tablet misses.");
    else {
      setProblem("");
      onShow(numbers);
    }
  };
  return (
    <form
      className="codes-only"
      onSubmit={(event) => {
        event.preventDefault();
        show();
      }}
    >
      <label htmlFor="codes-only">Missing on the other tablet</label>
      <input
        id="codes-only"
        value={typed}
        placeholder="3 17 20-22"
        autoComplete="off"
        aria-invalid={problem !== ""}
        aria-describedby={problem ? "codes-only-problem" : undefined}
        onChange={(event) => setTyped(event.target.value)}
      />
      <button type="submit" className="button">
        Show only these
      </button>
      {isPart && (
        <button type="button" className="button" onClick={() => onShow(undefined)}>
          Show all
        </button>
      )}
      {problem && (
        <p id="codes-only-problem" className="problem" role="alert">
          {problem}
        </p>
      )}
    </form>
  );
}
