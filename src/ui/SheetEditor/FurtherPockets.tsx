import { useId } from "react";
import { understandQuantity } from "../../jobs/commands/entry.ts";
import { displayUnit, type UnitSystem } from "../../jobs/display.ts";
import type { FurtherPocket } from "../../jobs/records/job.ts";
import type { Well } from "../../jobs/records/well.ts";
import { works } from "../../jobs/sheet/changeOut/options.ts";
import { pressureName, type SheetDraft, type TypedPressure } from "../../jobs/sheetDraft.ts";
import { ValvePicker } from "../Library/ValvePicker.tsx";
import { QuantityField } from "../QuantityField.tsx";
import { workNames } from "./WorkChoice.tsx";

interface FurtherPocketsProps {
  readonly pockets: readonly FurtherPocket[];
  /** pressures that are typed and not, or not to the letter, stated */
  readonly typed: SheetDraft["typed"];
  /** what may be added; undefined when no pocket is left */
  readonly next: FurtherPocket | undefined;
  readonly well: Well | undefined;
  readonly units: UnitSystem;
  readonly onChange: (pockets: readonly FurtherPocket[], typed?: SheetDraft["typed"]) => void;
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
          onPocket={(to, typed) => onChange(pockets.with(place, to), typed)}
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
  readonly onPocket: (to: FurtherPocket, typed?: SheetDraft["typed"]) => void;
  readonly onGone: () => void;
}

const designs = [
  ["openingAtMandrel", "Opening wanted at the mandrel"],
  ["productionAtMandrel", "Tubing pressure then, for an injection-operated valve"],
  ["injectionAtMandrel", "Injection pressure then, for a production-operated valve"],
] as const;

function PocketFields(props: PocketFieldsProps) {
  const { pocket, pockets, number, well, units, onPocket, onGone } = props;
  const typedIn = (key: (typeof designs)[number][0]) => pressureName(pocket.mandrel, key);
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
          typed={props.typed[typedIn(key)]}
          unit={displayUnit(units, "pressure")}
          onTyped={(stated, left) => {
            const { [key]: _, ...rest } = pocket.design;
            const { [typedIn(key)]: __, ...others } = props.typed;
            onPocket(
              { ...pocket, design: stated ? { ...rest, [key]: stated } : rest },
              left ? { ...others, [typedIn(key)]: left } : others,
            );
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
  readonly typed: TypedPressure | undefined;
  readonly unit: string;
  /** @param typed where what is stated does not say it to the letter */
  readonly onTyped: (stated: Pressure | undefined, typed: TypedPressure | undefined) => void;
}

const asTyped = (stated: Pressure | undefined, unit: string): TypedPressure =>
  stated ? { text: String(stated.value), unit: stated.unit } : { text: "", unit };

/** A pressure as it is typed: what cannot be understood is kept and not stated until it can. */
function DesignPressure({ label, stated, typed, unit, onTyped }: DesignPressureProps) {
  const shown = typed ?? asTyped(stated, unit);
  const read = shown.text === "" ? undefined : understandQuantity(label, "pressure", shown);
  return (
    <QuantityField
      label={`${label} (may stay empty)`}
      typed={shown}
      unit={unit}
      problem={read && !read.ok ? `${read.why} It is not taken yet.` : undefined}
      className="further-design"
      onChange={(to) => {
        const of = understandQuantity(label, "pressure", to);
        const next = of.ok ? of.quantity : undefined;
        onTyped(next, asTyped(next, unit).text === to.text ? undefined : to);
      }}
    />
  );
}
