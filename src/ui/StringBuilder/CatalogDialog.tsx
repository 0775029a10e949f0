import { useState } from "react";
import {
  type CatalogTool,
  catalogKinds,
  catalogTools,
  sourcesOf,
} from "../../jobs/catalog/catalog.ts";
import type { ToolPart } from "../../jobs/catalog/part.ts";
import { asEntered } from "../../jobs/display.ts";
import type { Tool } from "../../jobs/records/equipment.ts";
import { useDialog } from "../useDialog.ts";

interface CatalogDialogProps {
  /** with it only its own kind is offered */
  readonly inPlaceOf: Tool | undefined;
  readonly onChoose: (tool: CatalogTool) => void;
  readonly onClose: () => void;
}

/** The generic tools, kind by kind; each with its figures and where they come from. */
export function CatalogDialog({ inPlaceOf, onChoose, onClose }: CatalogDialogProps) {
  const dialog = useDialog();
  const [kind, setKind] = useState<Tool["kind"] | undefined>(inPlaceOf?.kind);
  const offered = catalogTools.filter(
    ({ part }) => part.kind === kind && part.name !== inPlaceOf?.name,
  );
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="catalog-title" className="catalog">
      <div className="catalog-head">
        <h2 id="catalog-title">{inPlaceOf ? `Swap ${inPlaceOf.name} for` : "Add a tool"}</h2>
        <button type="button" className="button" onClick={onClose}>
          Close
        </button>
      </div>
      {!inPlaceOf && (
        <div className="catalog-kinds">
          {catalogKinds.map((each) => (
            <button
              key={each}
              type="button"
              className="button"
              aria-pressed={each === kind}
              onClick={() => setKind(each)}
            >
              {capital(each)}
            </button>
          ))}
        </div>
      )}
      {kind && offered.length === 0 && (
        <p>
          The catalog has no other tool of kind "{kind}". Close this and change the tools' figures
          instead.
        </p>
      )}
      {offered.length > 0 && (
        <>
          <p className="small">
            Generic figures to plan with. Every part is measured before it goes in.
          </p>
          <ul className="catalog-parts">
            {offered.map((tool) => (
              <PartCard
                key={tool.part.name}
                tool={tool}
                verb={inPlaceOf ? "Swap for" : "Add"}
                onChoose={() => onChoose(tool)}
              />
            ))}
          </ul>
        </>
      )}
    </dialog>
  );
}

const capital = (words: string) => words.replace(/^./, (first) => first.toUpperCase());

interface PartCardProps {
  readonly tool: CatalogTool;
  readonly verb: string;
  readonly onChoose: () => void;
}

function PartCard({ tool, verb, onChoose }: PartCardProps) {
  const { part } = tool;
  return (
    <li className="catalog-part">
      <button type="button" className="button" onClick={onChoose}>
        {verb} {part.name}
      </button>
      <ul>
        {sourcesOf(tool).map(({ source, figures }) => (
          <li key={source}>
            <p>{capital(figures.map((figure) => figureInWords(part, figure)).join(", "))}</p>
            <p className="small soft">{capital(source)}.</p>
          </li>
        ))}
      </ul>
    </li>
  );
}

const names: Readonly<Partial<Record<keyof ToolPart, string>>> = {
  length: "length",
  lengthExtended: "extended",
  outsideDiameter: "outside diameter",
  fishingNeck: "fishing neck",
  weight: "weight",
  strength: "steady pull it stands",
};

function figureInWords(part: ToolPart, figure: keyof ToolPart): string {
  const value = part[figure];
  if (figure === "shear" && part.shear) {
    const { count, diameter, planes, direction } = part.shear;
    return `${count === 1 ? "1 pin" : `${count} pins`} of ${asEntered(diameter)}, ${planes === 1 ? "single" : "double"} shear, jarred ${direction}`;
  }
  return typeof value === "object" && "value" in value
    ? `${names[figure] ?? figure} ${asEntered(value)}`
    : String(value);
}
