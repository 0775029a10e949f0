import { useState } from "react";
import { CatalogDialog } from "../StringBuilder/CatalogDialog.tsx";
import "../StringBuilder/StringBuilder.css";

interface PartLibraryProps {
  /** puts a generic tool below those that are in the string */
  readonly onTake: (part: Readonly<Record<string, unknown>>) => void;
}

/** Generic tools to put a string together from; each is measured before it goes in. */
export function PartLibrary({ onTake }: PartLibraryProps) {
  const [choosing, setChoosing] = useState(false);
  const [said, setSaid] = useState("");
  return (
    <div className="row">
      <button type="button" className="button" onClick={() => setChoosing(true)}>
        Add a tool from the catalog
      </button>
      <span role="status">{said}</span>
      {choosing && (
        <CatalogDialog
          inPlaceOf={undefined}
          onChoose={({ part }) => {
            onTake({ ...part, id: crypto.randomUUID() });
            setSaid(`${part.name} added at the bottom.`);
            setChoosing(false);
          }}
          onClose={() => setChoosing(false)}
        />
      )}
    </div>
  );
}
