import { useState } from "react";
import type { Well } from "../../jobs/records/well.ts";
import { History } from "./History.tsx";
import { usePocketHistory } from "./usePocketHistory.ts";
import "./Library.css";

/** What was set into each pocket of a well and pulled out of it; looked up when somebody asks. */
export function PocketsBefore({ well }: { readonly well: Well }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="pockets-before" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What sat in the pockets before</summary>
      {open && <Pockets well={well} />}
    </details>
  );
}

function Pockets({ well }: { readonly well: Well }) {
  const pockets = usePocketHistory(well);
  if (!pockets) return <p className="soft">Looking…</p>;
  return pockets.map(({ id, number, befell }) => (
    <div key={id}>
      <h3>Mandrel {number}</h3>
      {befell.length > 0 ? (
        <History befell={befell} serials />
      ) : (
        <p className="soft">Nothing is known of it.</p>
      )}
    </div>
  ));
}
