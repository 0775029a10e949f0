import { format } from "date-fns";
import { type FormEvent, useId, useState } from "react";
import { understandQuantity } from "../../jobs/commands/entry.ts";
import { asEntered, displayUnit, type Writer } from "../../jobs/display.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import {
  type BenchReading,
  benchJudgements,
  type Judgement,
} from "../../jobs/results/benchResults.ts";
import type { Results } from "../../jobs/results/results.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { unitLabel } from "../Working/unitLabel.ts";
import { SetLine } from "./SetLine.tsx";

interface BenchProps {
  readonly valve: Valve;
  readonly results: Results;
  readonly writer: Writer;
}

/** What the test rack read, each reading at its temperature, and whether the setting can be believed. */
export function Bench({ valve, results, writer }: BenchProps) {
  const store = useStore();
  const [problem, setProblem] = useState("");
  const readings = valve.bench?.readings ?? [];

  /** @returns whether it was kept */
  const keep = async (next: readonly BenchReading[]): Promise<boolean> => {
    const { bench, ...rest } = valve;
    const record: Valve = {
      ...rest,
      revision: valve.revision + 1,
      ...(next.length > 0 && {
        bench: { day: format(new Date(), "yyyy-MM-dd"), ...byOf(bench), readings: [...next] },
      }),
    };
    try {
      await store.put("valves", record);
      setProblem("");
      return true;
    } catch (error) {
      setProblem(error instanceof Outdated ? error.message : notSaved(error));
      return false;
    }
  };

  return (
    <section aria-labelledby="bench-title" className="bench">
      <h2 id="bench-title">On the test rack</h2>
      {valve.bench && <p className="small soft">Read {valve.bench.day}.</p>}
      <ol className="bench-readings">
        {readings.map((reading, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two readings may be alike in everything but their place
          <li key={index}>
            <span className="figure">{asEntered(reading.opening)}</span>
            <span>
              at {reading.temperature.value} {unitLabel(reading.temperature.unit)}
            </span>
            <button
              type="button"
              className="button quiet"
              onClick={() => void keep(readings.toSpliced(index, 1))}
            >
              Take out reading {index + 1}
            </button>
          </li>
        ))}
      </ol>
      <NewReading writer={writer} onKeep={(reading) => keep([...readings, reading])} />
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <ul className="bench-judgements" aria-label="Against the policy">
        {benchJudgements(results, writer).map((judgement) => (
          <li
            key={judgement.says}
            className={`bench-judgement ${judgement.state.replace(" ", "-")}`}
          >
            <strong>{stateWords[judgement.state]}.</strong> {judgement.says}
          </li>
        ))}
      </ul>
      <ol className="set-sheet-lines">
        <SetLine id="bench-mean" results={results} writer={writer} />
        <SetLine id="bench-difference" results={results} writer={writer} />
      </ol>
    </section>
  );
}

const stateWords: Readonly<Record<Judgement["state"], string>> = {
  passes: "Passes",
  fails: "Fails",
  "not known": "Open",
};

const byOf = (bench: Valve["bench"]) => (bench?.by ? { by: bench.by } : {});

interface NewReadingProps {
  readonly writer: Writer;
  readonly onKeep: (reading: BenchReading) => Promise<boolean>;
}

/** One more reading. What was typed stays until it is kept. */
function NewReading({ writer, onKeep }: NewReadingProps) {
  const [typed, setTyped] = useState({ opening: "", temperature: "" });
  const [problems, setProblems] = useState<Partial<typeof typed>>({});
  const units = {
    opening: displayUnit(writer.system, "pressure"),
    temperature: displayUnit(writer.system, "temperature"),
  };
  const add = async (event: FormEvent) => {
    event.preventDefault();
    const opening = understandQuantity("Opening pressure", "pressure", {
      text: typed.opening,
      unit: units.opening,
    });
    const temperature = understandQuantity("Temperature", "temperature", {
      text: typed.temperature,
      unit: units.temperature,
    });
    setProblems({
      ...(!opening.ok && { opening: opening.why }),
      ...(!temperature.ok && { temperature: temperature.why }),
    });
    if (!opening.ok || !temperature.ok) return;
    const reading = { opening: opening.quantity, temperature: temperature.quantity };
    if (await onKeep(reading)) setTyped({ ...typed, opening: "" });
  };
  return (
    <form className="bench-new" onSubmit={(event) => void add(event)} noValidate>
      <ReadingField
        label="Opening pressure"
        unit={units.opening}
        text={typed.opening}
        problem={problems.opening}
        onChange={(opening) => setTyped({ ...typed, opening })}
      />
      <ReadingField
        label="Temperature of the valve"
        unit={units.temperature}
        text={typed.temperature}
        problem={problems.temperature}
        onChange={(temperature) => setTyped({ ...typed, temperature })}
      />
      <button type="submit" className="button">
        Add the reading
      </button>
    </form>
  );
}

interface ReadingFieldProps {
  readonly label: string;
  readonly unit: string;
  readonly text: string;
  readonly problem: string | undefined;
  readonly onChange: (text: string) => void;
}

function ReadingField({ label, unit, text, problem, onChange }: ReadingFieldProps) {
  const id = useId();
  return (
    <div className="bench-field">
      <label htmlFor={id}>
        {label}, {unitLabel(unit)}
      </label>
      <input
        id={id}
        inputMode="decimal"
        autoComplete="off"
        value={text}
        aria-invalid={problem !== undefined}
        aria-describedby={problem ? `${id}-problem` : undefined}
        onChange={(event) => onChange(event.target.value)}
      />
      {problem && (
        <p id={`${id}-problem`} className="problem small">
          {problem}
        </p>
      )}
    </div>
  );
}
