import { useState } from "react";
import { catalogLines } from "../../jobs/catalog/lines.ts";
import { asEntered } from "../../jobs/display.ts";

interface LineLibraryProps {
  /** puts the figures of a generic line into the record that is being changed */
  readonly onTake: (figures: Readonly<Record<string, unknown>>) => void;
}

/** Generic wire to start from; whoever takes one puts its certificate's figures in the place of these. */
export function LineLibrary({ onTake }: LineLibraryProps) {
  const [chosen, setChosen] = useState("");
  const of = catalogLines.find(({ part }) => part.name === chosen);
  return (
    <details className="card editor-section">
      <summary>Start from a generic wire</summary>
      <div className="editor-field">
        <label htmlFor="line-library">Wire</label>
        <select
          id="line-library"
          value={chosen}
          onChange={(event) => setChosen(event.target.value)}
        >
          <option value="">not chosen</option>
          {catalogLines.map(({ part }) => (
            <option key={part.name}>{part.name}</option>
          ))}
        </select>
      </div>
      {of && (
        <>
          <ul className="small">
            <li>
              Weight {asEntered(of.part.massPerLength)}: {of.sources.massPerLength}.
            </li>
            <li>
              Breaking strength {asEntered(of.part.breakingStrength)}: {of.sources.breakingStrength}
              .
            </li>
            {of.part.modulus && (
              <li>
                Modulus {asEntered(of.part.modulus)}: {of.sources.modulus}.
              </li>
            )}
          </ul>
          <button
            type="button"
            className="button"
            onClick={() => {
              const { name: _, ...figures } = of.part;
              onTake(figures);
            }}
          >
            Put these figures in
          </button>
        </>
      )}
    </details>
  );
}
