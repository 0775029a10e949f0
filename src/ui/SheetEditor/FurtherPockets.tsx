import { useId, useState } from "react";
import { understandQuantity } from "../../jobs/commands/entry.ts";
import { displayUnit, type UnitSystem } from "../../jobs/display.ts";
import type { FurtherPocket } from "../../jobs/records/job.ts";
import type { Well } from "../../jobs/records/well.ts";
import { works } from "../../jobs/sheet/changeOut/options.ts";
import { ValvePicker } from "../Library/ValvePicker.tsx";
import { QuantityField } from "../QuantityField.tsx";
import { workNames } from "./WorkChoice.tsx";

interface FurtherPocketsProps {
  readonly pockets: readonly FurtherPocket[];
  /** what may be added; undefined when no pocket is left */
  readonly next: FurtherPocket | undefined;
  readonly well: Well | undefined;
  readonly units: UnitSystem;
  readonly onChange: (pockets: readonly FurtherPocket[]) => void;
  readonly onTakeOut: (place: number) => void;
}

/** Pockets that are worked after the first, in the same rig-up. */
export function FurtherPockets(props: FurtherPocketsProps) {
  const { pockets, next, well, onChange } = props;
  return (
    <section className="card further-pockets" aria-labelledby="further-pockets">
      <h2 id="further-pockets">Further pockets in this rig-up</h2>
      {pockets.length === 0 && <p className="small soft">None: one pocket, one rig-up.</p>}
      {pockets.map((pocket, place) => (
        <PocketFields
          key={pocket.mandrel}
          {...props}
          pocket={pocket}
          number={well?.mandrels.find(({ id }) => id === pocket.mandrel)?.number}
          onPocket={(to) => onChange(pockets.with(place, to))}
          onGone={() => props.onTakeOut(place)}
        />
      ))}
      {next && (
        <button type="button" className="button" onClick={() => onChange([...pockets, next])}>
          Add a pocket
        </button>
      )}
    </section>
  );
}

interface PocketFieldsProps extends FurtherPocketsProps {
  readonly pocket: FurtherPocket;
  readonly number: number | undefined;
  readonly onPocket: (to: FurtherPocket) => void;
  readonly onGone: () => void;
}

const designs = [
  ["openingAtMandrel", "Opening wanted at the mandrel"],
  ["productionAtMandrel", "Tubing pressure then, for an injection-operated valve"],
  ["injectionAtMandrel", "Injection pressure then, for a production-operated valve"],
] as const;

function PocketFields(props: PocketFieldsProps) {
  const { pocket, pockets, number, well, units, onPocket, onGone } = props;
  const id = useId();
  const named = `mandrel ${number ?? "?"}`;
  const choose = (replacement: string | undefined) => {
    const { replacement: _, ...rest } = pocket;
    onPocket(replacement === undefined ? rest : { ...rest, replacement });
  };
  return (
    <fieldset className="further-pocket">
      <legend>Then {named}</legend>
      <label htmlFor={`${id}-mandrel`}>Mandrel</label>
      <select
        id={`${id}-mandrel`}
        value={pocket.mandrel}
        onChange={(event) => onPocket({ ...pocket, mandrel: event.target.value })}
      >
        {well?.mandrels
          .filter(
            (each) =>
              each.id === pocket.mandrel || !pockets.some(({ mandrel }) => mandrel === each.id),
          )
          .map((each) => (
            <option key={each.id} value={each.id}>
              Mandrel {each.number}, {each.pocketState}
            </option>
          ))}
      </select>
      <label htmlFor={`${id}-work`}>Work</label>
      <select
        id={`${id}-work`}
        value={pocket.work}
        onChange={(event) =>
          onPocket({ ...pocket, work: event.target.value as FurtherPocket["work"] })
        }
      >
        {works.map((work) => (
          <option key={work} value={work}>
            {workNames[work]}
          </option>
        ))}
      </select>
      <label htmlFor={`${id}-valve`}>What goes in</label>
      <ValvePicker
        marks={{ id: `${id}-valve` }}
        what="What goes in"
        valve={pocket.replacement}
        onChoose={choose}
      />
      {designs.map(([key, label]) => (
        <DesignPressure
          key={key}
          label={label}
          stated={pocket.design[key]}
          unit={displayUnit(units, "pressure")}
          onStated={(stated) => {
            const { [key]: _, ...rest } = pocket.design;
            onPocket({ ...pocket, design: stated ? { ...rest, [key]: stated } : rest });
          }}
        />
      ))}
      <button type="button" className="button" onClick={onGone}>
        Take {named} out of this job
      </button>
    </fieldset>
  );
}

type Pressure = NonNullable<FurtherPocket["design"]["openingAtMandrel"]>;

interface DesignPressureProps {
  readonly label: string;
  readonly stated: Pressure | undefined;
  readonly unit: string;
  readonly onStated: (stated: Pressure | undefined) => void;
}

/** A pressure as it is typed: what cannot be understood stays on the screen and is not stated until it can. */
function DesignPressure({ label, stated, unit, onStated }: DesignPressureProps) {
  const [typed, setTyped] = useState(
    stated ? { text: String(stated.value), unit: stated.unit as string } : { text: "", unit },
  );
  const read = typed.text === "" ? undefined : understandQuantity(label, "pressure", typed);
  return (
    <QuantityField
      label={`${label} (may stay empty)`}
      typed={typed}
      unit={unit}
      problem={read && !read.ok ? `${read.why} It is not taken yet.` : undefined}
      className="further-design"
      onChange={(to) => {
        setTyped(to);
        const of = understandQuantity(label, "pressure", to);
        onStated(of.ok ? of.quantity : undefined);
      }}
    />
  );
}
