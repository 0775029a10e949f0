import { format } from "date-fns";
import { type FormEvent, useState } from "react";
import { PA_PER_PSI } from "../../calc/units.ts";
import { understandQuantity } from "../../jobs/commands/entry.ts";
import { asEntered, displayUnit, type Writer } from "../../jobs/display.ts";
import { fromSI, type Quantity, toSI } from "../../jobs/quantity.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import {
  type BenchReading,
  benchJudgements,
  type Judgement,
} from "../../jobs/results/benchResults.ts";
import type { Results } from "../../jobs/results/results.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { QuantityField, type TypedQuantity } from "../QuantityField.tsx";
import { useSettings } from "../settings.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { SetLine } from "./SetLine.tsx";

interface BenchProps {
  readonly valve: Valve;
  readonly results: Results;
  readonly writer: Writer;
}

const HALF_PSI = PA_PER_PSI / 2;
/** As many as a record takes. */
const MOST_READINGS = 20;

/** What the test rack read, each reading at its temperature, and whether the setting can be believed. */
export function Bench({ valve, results, writer }: BenchProps) {
  const store = useStore();
  const { actor } = useSettings();
  const [problem, setProblem] = useState("");
  const readings = valve.bench?.readings ?? [];
  const judgements = benchJudgements(results, writer);

  /** @returns whether it was kept */
  const keep = async (change: Partial<Valve>): Promise<boolean> => {
    const { bench: _, ...rest } = valve;
    try {
      await store.put("valves", { ...rest, revision: valve.revision + 1, ...change });
      setProblem("");
      return true;
    } catch (error) {
      setProblem(error instanceof Outdated ? error.message : notSaved(error));
      return false;
    }
  };
  const today = format(new Date(), "yyyy-MM-dd");
  const add = async (reading: BenchReading): Promise<boolean> => {
    if (!actor) {
      setProblem("Say first who holds this tablet: the name stands under the readings.");
      return false;
    }
    return keep({ bench: { day: today, by: actor.name, readings: [...readings, reading] } });
  };
  const takeOut = (index: number) => {
    const left = readings.toSpliced(index, 1);
    return keep(
      valve.bench && left.length > 0 ? { bench: { ...valve.bench, readings: left } } : {},
    );
  };
  const mean = results.value("bench-mean");
  const toCard = () => {
    if (mean === undefined || !actor || !valve.bench) return;
    const unit = displayUnit(writer.system, "pressure");
    const read = Math.round(fromSI("pressure", mean, unit, results.context.atmosphere) * 10) / 10;
    const testRackOpening60F = { value: read, unit } as Quantity<"pressure">;
    const card = { ...valve.card, testRackOpening60F, day: today, by: actor.name };
    void keep({ bench: valve.bench, card });
  };
  const ready = judgements.every(({ what, state }) => what === "mean" || state === "passes");
  const card = valve.card && asEntered(valve.card.testRackOpening60F);
  const onCard =
    valve.card && toSI("pressure", valve.card.testRackOpening60F, results.context.atmosphere);
  // Closer than a gauge is read, the card says the same already.
  const differs =
    mean !== undefined && (onCard === undefined || Math.abs(mean - onCard) > HALF_PSI);

  return (
    <section aria-labelledby="bench-title" className="bench">
      <h2 id="bench-title">On the test rack</h2>
      {valve.bench && (
        <p className="small soft">
          Read {valve.bench.day}
          {valve.bench.by && ` by ${valve.bench.by}`}.
        </p>
      )}
      <ol className="bench-readings">
        {readings.map((reading, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two readings may be alike in everything but their place
          <li key={index}>
            <p>
              <span className="figure">{asEntered(reading.opening)}</span> at{" "}
              {asEntered(reading.temperature)}
            </p>
            <HoldButton
              label={`Take out reading ${index + 1}`}
              consequence="It is not kept anywhere else."
              aside
              onHeld={() => void takeOut(index)}
            />
          </li>
        ))}
      </ol>
      {readings.length < MOST_READINGS ? (
        <NewReading writer={writer} onKeep={add} />
      ) : (
        <p>A record takes {MOST_READINGS} readings. Take one out before another goes in.</p>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <ul className="bench-judgements" aria-label="Against the policy">
        {judgements.map(({ what, state, says }) => (
          <li key={what} className={`bench-judgement ${state.replace(" ", "-")}`}>
            <strong>{stateWords[state]}.</strong> {says}
          </li>
        ))}
      </ul>
      {ready && differs && (
        <div className="row">
          <button type="button" className="button next" disabled={!actor} onClick={toCard}>
            Put {writer.write("pressure", mean)} on the valve's card
          </button>
          <p className="small">
            {actor ? `The card says ${card ?? "nothing yet"}.` : "Say first who holds this tablet."}
          </p>
        </div>
      )}
      <ol className="set-sheet-lines">
        <SetLine id="bench-mean" results={results} writer={writer} />
        <SetLine id="bench-difference" results={results} writer={writer} />
      </ol>
      <div className="bench-sign">
        <p>Read by</p>
        <p>Checked by</p>
        <p>Date</p>
      </div>
    </section>
  );
}

const stateWords: Readonly<Record<Judgement["state"], string>> = {
  passes: "Passes",
  fails: "Fails",
  "not known": "Open",
};

interface NewReadingProps {
  readonly writer: Writer;
  readonly onKeep: (reading: BenchReading) => Promise<boolean>;
}

const NOTHING: TypedQuantity = { text: "", unit: "" };

/** One more reading. What was typed stays until it is kept. */
function NewReading({ writer, onKeep }: NewReadingProps) {
  const [opening, setOpening] = useState(NOTHING);
  const [temperature, setTemperature] = useState(NOTHING);
  const [problems, setProblems] = useState<{ opening?: string; temperature?: string }>({});
  const [keeping, setKeeping] = useState(false);
  const units = {
    opening: displayUnit(writer.system, "pressure"),
    temperature: displayUnit(writer.system, "temperature"),
  };
  const add = async (event: FormEvent) => {
    event.preventDefault();
    if (keeping) return;
    const read = {
      opening: understandQuantity("Opening pressure", "pressure", opening),
      temperature: understandQuantity("Temperature", "temperature", temperature),
    };
    setProblems({
      ...(!read.opening.ok && { opening: read.opening.why }),
      ...(!read.temperature.ok && { temperature: read.temperature.why }),
    });
    if (!read.opening.ok || !read.temperature.ok) return;
    setKeeping(true);
    const kept = await onKeep({
      opening: read.opening.quantity,
      temperature: read.temperature.quantity,
    });
    if (kept) setOpening(NOTHING);
    setKeeping(false);
  };
  return (
    <form className="bench-new" onSubmit={(event) => void add(event)} noValidate>
      <QuantityField
        className="bench-field"
        label="Opening pressure"
        unit={units.opening}
        typed={opening}
        problem={problems.opening}
        onChange={setOpening}
      />
      <QuantityField
        className="bench-field"
        label="Temperature of the valve"
        unit={units.temperature}
        typed={temperature}
        problem={problems.temperature}
        onChange={setTemperature}
      />
      <button type="submit" className="button" disabled={keeping}>
        Add the reading
      </button>
    </form>
  );
}
