import { useLocation } from "wouter";
import { ChooseWell } from "../Plan/ChooseWell.tsx";
import "../Plan/Plan.css";
import { useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";

/** Which well's lift is in doubt. */
export default function ChooseInvestigated() {
  const library = useLibrary({ whole: ["wells"] });
  const [, go] = useLocation();
  if (!library) return <main className="page" aria-busy="true" />;
  return (
    <>
      <TopBar title="Which valve is at fault" />
      <main className="page plan">
        <ChooseWell wells={library.wells} onChoose={(id) => go(`/wells/${id}/fault`)} />
      </main>
    </>
  );
}
