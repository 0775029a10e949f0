import { type ReactNode, useState } from "react";
import type { Writer } from "../../jobs/display.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import { type Worked, weighedAs } from "../../jobs/results/lineChart.ts";
import { lightestString } from "../../jobs/results/lineResults.ts";
import type { Balance as BalanceOf } from "../../jobs/results/pushOutBalances.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import { Figure } from "../Working/Figure.tsx";
import { ResultRow } from "../Working/ResultRow.tsx";
import { WorkingDialog } from "../Working/WorkingDialog.tsx";
import { BalancePicture, type Part, Sample } from "./BalancePicture.tsx";
import { unknownInWords } from "./unknown.ts";

type Place = "surface" | "mandrel";

interface BalanceProps {
  readonly balances: Readonly<Record<Place, Worked<BalanceOf>>>;
  readonly results: Results;
  readonly writer: Writer;
  /** the next action */
  readonly children: ReactNode;
}

/** What pushes the string up and what pulls it down, just under the closed valve and at the mandrel. */
export function Balance({ balances, results, writer, children }: BalanceProps) {
  const string = lightestString(results.context);
  const mandrel = targetMandrel(results.context.programme);
  const places: readonly { readonly place: Place; readonly name: string }[] = [
    { place: "surface", name: "Under the valve" },
    { place: "mandrel", name: `At mandrel ${mandrel?.number ?? "?"}` },
  ];
  const shown = places.map(({ place, name }) => ({ place, name, of: balances[place] }));
  return (
    <section className="balance" aria-labelledby="balance-title">
      <div className="balance-words">
        <h2 id="balance-title">Weight against push-out</h2>
        <p className="balance-verdict">{verdict(balances.surface, writer)}</p>
        {string && <p>Lightest: {string.name}.</p>}
        {children}
      </div>
      <BalancePicture places={shown} writer={writer} />
      <div className="balance-figures">
        {shown.map(
          ({ place, name, of }) =>
            of.state !== "known" && (
              <p key={place} className="problem">
                {name}: {unknownInWords(of)}
              </p>
            ),
        )}
        {shown.some(({ of }) => of.state === "known") && (
          <Forces
            places={shown}
            hung={string && weighedAs(string)}
            results={results}
            writer={writer}
          />
        )}
        <ResultRow id="push-out-ratio" results={results} writer={writer} />
        <ResultRow id="weight-needed" results={results} writer={writer} />
      </div>
    </section>
  );
}

function verdict(of: Worked<BalanceOf>, writer: Writer): string {
  if (of.state !== "known") return "Not known yet whether the lightest string goes down.";
  const force = (si: number) => writer.write("force", si);
  const weighs = `Just under the closed valve the lightest string pulls down ${force(of.string)}, against ${force(of.pushOut + of.packing)} up.`;
  if (of.margin === undefined) return `${weighs} No policy says how much more it takes.`;
  return of.margin < 0
    ? `${weighs} The policy asks for ${force(-of.margin)} more: add stem, or bring the wellhead pressure down.`
    : `${weighs} That is ${force(of.margin)} more than the policy asks for.`;
}

interface Row {
  readonly part: Part;
  readonly label: string;
  readonly of: (balance: BalanceOf) => number | undefined;
  /** the working that the figure is part of, under the valve and at the mandrel */
  readonly working: Readonly<Record<Place, ResultId>>;
}

function rowsFor(hung: "gauge" | "pull" | "set"): readonly Row[] {
  const goingIn = { surface: "push-out-ratio", mandrel: `in-${hung}` } as const;
  const hanging = { surface: "push-out-ratio", mandrel: `hanging-${hung}` } as const;
  const both = { surface: "push-out", mandrel: "push-out" } as const;
  return [
    { part: "push-out", label: "Up: push-out", of: (b) => b.pushOut, working: both },
    { part: "packing", label: "Up: packing friction", of: (b) => b.packing, working: goingIn },
    { part: "drag", label: "Up: drag on the tubing", of: (b) => b.drag, working: goingIn },
    { part: "string", label: "Down: string", of: (b) => b.string, working: hanging },
    { part: "line", label: "Down: line", of: (b) => b.line, working: hanging },
    {
      part: "wanted",
      label: "Policy asks",
      of: (b) => b.wanted,
      working: { surface: "push-out-ratio", mandrel: "push-out-ratio" },
    },
    { part: "expected", label: "Weight, expected", of: (b) => b.string + b.line, working: hanging },
    { part: "measured", label: "Weight, by the readings", of: (b) => b.measured, working: hanging },
  ];
}

interface ForcesProps {
  readonly places: readonly {
    readonly place: Place;
    readonly name: string;
    readonly of: Worked<BalanceOf>;
  }[];
  readonly hung: "gauge" | "pull" | "set" | undefined;
  readonly results: Results;
  readonly writer: Writer;
}

/** Every force of the picture as a figure that opens its working. */
function Forces({ places, hung = "gauge", results, writer }: ForcesProps) {
  const [open, setOpen] = useState<ResultId>();
  return (
    <>
      <table className="forces">
        <caption className="hidden-label">The forces of the picture</caption>
        <thead>
          <tr>
            <th scope="col">Going in</th>
            {places.map(({ place, name }) => (
              <th key={place} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rowsFor(hung).map(({ part, label, of: figure, working }) => (
            <tr key={part} className={`forces-${part}`}>
              <th scope="row">
                <span className="forces-name">
                  <Sample part={part} />
                  {label}
                </span>
              </th>
              {places.map(({ place, name, of }) => {
                const si = of.state === "known" ? figure(of) : undefined;
                return (
                  <td key={place}>
                    {si === undefined ? (
                      <span className="small">
                        {part === "measured" ? "not read" : "not known"}
                      </span>
                    ) : (
                      <button
                        type="button"
                        className="forces-figure"
                        aria-label={`${label}, ${name}: ${writer.write("force", si)}, its working`}
                        onClick={() => setOpen(working[place])}
                      >
                        <Figure
                          dimension="force"
                          si={si}
                          writer={writer}
                          calculated={part !== "measured" && part !== "packing"}
                        />
                      </button>
                    )}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
      {open && (
        <WorkingDialog
          id={open}
          results={results}
          writer={writer}
          onClose={() => setOpen(undefined)}
        />
      )}
    </>
  );
}
