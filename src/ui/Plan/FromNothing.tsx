import { useState } from "react";
import { understandQuantity } from "../../jobs/commands/entry.ts";
import { displayUnit, type UnitSystem } from "../../jobs/display.ts";
import {
  lineToBeginWith,
  policyToBeginWith,
  type RunPurpose,
  type StackFigures,
  stackProblems,
  stackToBeginWith,
  stringsToBeginWith,
  usualWire,
  wires,
} from "../../jobs/planning/fromNothing.ts";
import type { PlanLine } from "../../jobs/planning/line.ts";
import type { Proposal } from "../../jobs/planning/proposal.ts";
import type { Quantity } from "../../jobs/quantity.ts";
import type { Library } from "../../jobs/store/library.ts";
import type { Arrival } from "../../jobs/store/store.ts";
import { QuantityField, type TypedQuantity } from "../QuantityField.tsx";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

interface FromNothingProps {
  readonly proposal: Proposal;
  readonly library: Library;
  readonly units: UnitSystem;
}

const newId = () => crypto.randomUUID();

/** Records to begin with, where there are none to choose: offered, never made in silence. */
export function FromNothing({ proposal, library, units }: FromNothingProps) {
  const store = useStore();
  const [problem, setProblem] = useState("");
  const [wire, setWire] = useState(usualWire);
  const lacksPolicy = library.policies.length === 0;
  const lacksLine = library.lines.length === 0;
  const purposes = (["pull", "set", "gauge"] as const).filter((key) =>
    isLacking(proposal.lines.find((line) => line.key === key)),
  );
  const lacksStack = library.stacks.length === 0;
  const offered = lacksPolicy || lacksLine || purposes.length > 0;
  if (!offered && !lacksStack) return null;

  const write = async (records: Arrival["records"]) => {
    try {
      await store.receive({ records, events: [] });
      setProblem("");
      return true;
    } catch (error) {
      setProblem(notSaved(error));
      return false;
    }
  };
  return (
    <section className="card plan-nothing" aria-labelledby="plan-nothing">
      <h2 id="plan-nothing">Not in the library yet</h2>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {offered && (
        <Offered
          proposal={proposal}
          lacksPolicy={lacksPolicy}
          lacksLine={lacksLine}
          purposes={purposes}
          wire={wire}
          onWire={setWire}
          onMake={write}
        />
      )}
      {lacksStack && <StackForm units={units} onMake={write} />}
    </section>
  );
}

/** No string of the purpose reaches the pocket: the proposal is open, and nobody left it so. */
const isLacking = (line: PlanLine | undefined): boolean =>
  line?.kind === "choice" && line.source === "open" && !line.why.startsWith("Left open by you");

interface OfferedProps {
  readonly proposal: Proposal;
  readonly lacksPolicy: boolean;
  readonly lacksLine: boolean;
  readonly purposes: readonly RunPurpose[];
  readonly wire: string;
  readonly onWire: (name: string) => void;
  readonly onMake: (records: Arrival["records"]) => Promise<boolean>;
}

function Offered(props: OfferedProps) {
  const { proposal, lacksPolicy, lacksLine, purposes, wire, onWire, onMake } = props;
  const policy = lacksPolicy ? policyToBeginWith(newId) : undefined;
  const line = lacksLine ? lineToBeginWith(wire, newId) : undefined;
  const made = stringsToBeginWith(
    purposes,
    {
      ...proposal.programme,
      ...(policy && { policy: policy.record }),
      ...(line && { line: line.record }),
    },
    newId,
  );
  const count = (policy ? 1 : 0) + (line ? 1 : 0) + made.strings.length;
  return (
    <>
      <dl className="plan-made">
        {policy && <MadeOf name="Policy, with default limits" sources={policy.sources} />}
        {line && (
          <div>
            <dt>
              <label htmlFor="plan-wire">Line, generic wire</label>
            </dt>
            <dd>
              <select id="plan-wire" value={wire} onChange={(event) => onWire(event.target.value)}>
                {wires.map((name) => (
                  <option key={name}>{name}</option>
                ))}
              </select>
              {line.sources.map((says) => (
                <p key={says} className="small soft">
                  {says}
                </p>
              ))}
            </dd>
          </div>
        )}
        {made.strings.map(({ id, name, tools }) => (
          <MadeOf
            key={id}
            name={name}
            sources={[tools.map((tool) => tool.name).join("; "), ...made.sources]}
          />
        ))}
      </dl>
      {made.cannot.map((says) => (
        <p key={says} className="problem small">
          {says}
        </p>
      ))}
      {count > 0 && (
        <button
          type="button"
          className="button plan-make"
          onClick={() =>
            void onMake({
              ...(policy && { policies: [policy.record] }),
              ...(line && { lines: [line.record] }),
              ...(made.strings.length > 0 && { strings: made.strings }),
            })
          }
        >
          {count === 1 ? "Make this record" : `Make these ${count} records`}
        </button>
      )}
    </>
  );
}

function MadeOf({ name, sources }: { readonly name: string; readonly sources: readonly string[] }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {sources.map((says) => (
          <p key={says} className="small soft">
            {says}
          </p>
        ))}
      </dd>
    </div>
  );
}

const asked = [
  ["rating", "Rating of the stack", "pressure"],
  ["hoseRating", "Rating of test hose and gauge", "pressure"],
  ["bore", "Smallest bore", "diameter"],
  ["usableLength", "Usable length above the closed crown valve", "length"],
] as const;
type Asked = (typeof asked)[number][0];

interface StackFormProps {
  readonly units: UnitSystem;
  readonly onMake: OfferedProps["onMake"];
}

/** Pressure equipment is nobody's default: its few figures are asked for. */
function StackForm({ units, onMake }: StackFormProps) {
  const [name, setName] = useState("Stack A");
  const [until, setUntil] = useState("");
  const [typed, setTyped] = useState<Partial<Record<Asked, TypedQuantity>>>({});
  const [problems, setProblems] = useState<Partial<Record<string, string>>>({});
  const make = async () => {
    const found: Partial<Record<string, string>> = {};
    const figures: Partial<Record<Asked, Quantity>> = {};
    for (const [key, label, dimension] of asked) {
      const unit = displayUnit(units, dimension);
      const read = understandQuantity(label, dimension, typed[key] ?? { text: "", unit });
      if (read.ok) figures[key] = read.quantity;
      else found[key] = read.why;
    }
    if (name.trim() === "") found.name = "Name: nothing entered. Enter what the crew calls it.";
    const given = {
      ...figures,
      name: name.trim(),
      ...(until && { certificateUntil: until }),
    } as StackFigures;
    const all = Object.keys(found).length > 0 ? found : stackProblems(given);
    setProblems(all);
    if (Object.keys(all).length === 0) {
      await onMake({ stacks: [stackToBeginWith(given, newId)] });
    }
  };
  return (
    <form
      className="plan-stack"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void make();
      }}
    >
      <h3>Pressure equipment</h3>
      <p className="small soft">
        Read these off the unit's certificates. Nothing is taken for granted.
      </p>
      <div className="plan-stack-fields">
        <div className="plan-field">
          <label htmlFor="plan-stack-name" className="plan-field-label">
            Name
          </label>
          <input
            id="plan-stack-name"
            autoComplete="off"
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
          {problems.name && <p className="problem small">{problems.name}</p>}
        </div>
        {asked.map(([key, label, dimension]) => (
          <QuantityField
            key={key}
            className="plan-field"
            label={label}
            typed={typed[key] ?? { text: "", unit: displayUnit(units, dimension) }}
            unit={displayUnit(units, dimension)}
            problem={problems[key]}
            onChange={(to) => setTyped((before) => ({ ...before, [key]: to }))}
          />
        ))}
        <div className="plan-field">
          <label htmlFor="plan-stack-until" className="plan-field-label">
            Certificates until (may stay empty)
          </label>
          <input
            id="plan-stack-until"
            type="date"
            value={until}
            onChange={(event) => setUntil(event.target.value)}
          />
        </div>
      </div>
      <button type="submit" className="button plan-make">
        Make the stack
      </button>
    </form>
  );
}
