import { type DragEvent, useState } from "react";
import { ChooseFile } from "../ChooseFile.tsx";
import type { BringIn } from "./useBringIn.ts";

/** Where the table comes from: a file, dropped or chosen, or cells pasted from a spreadsheet. */
export function SourceCard({ bringIn }: { readonly bringIn: BringIn }) {
  const [over, setOver] = useState(false);
  const [pasting, setPasting] = useState(false);
  const [text, setText] = useState("");
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const file = event.dataTransfer.files[0];
    const pasted = event.dataTransfer.getData("text/plain");
    if (file) void bringIn.openFile(file);
    else if (pasted) void bringIn.openSource({ is: "pasted", text: pasted });
  };
  return (
    <section className="card bring-source" aria-labelledby="bring-source">
      <h2 id="bring-source">What should come in?</h2>
      <p>
        Wells with their mandrels and valves, valves in stock, a deviation survey, or tools. Nothing
        is written before you have seen what it changes.
      </p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is one way more; the button inside does the same by keyboard */}
      <div
        className={over ? "bring-drop over" : "bring-drop"}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        <ChooseFile
          label="Choose a file"
          next
          accept=".csv,.tsv,.txt,.xlsx,.xml,text/csv,text/plain,text/xml,application/xml,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
          onFile={(file) => void bringIn.openFile(file)}
        />
        <span>or drop it here. CSV, a workbook (.xlsx), or a WITSML survey (.xml).</span>
      </div>
      {pasting ? (
        <form
          className="bring-paste"
          onSubmit={(event) => {
            event.preventDefault();
            void bringIn.openSource({ is: "pasted", text });
          }}
        >
          <label htmlFor="bring-pasted">Cells copied from a spreadsheet, header included</label>
          <textarea
            id="bring-pasted"
            rows={8}
            value={text}
            spellCheck={false}
            onChange={(event) => setText(event.target.value)}
          />
          <div className="row">
            <button type="submit" className="button next" disabled={text.trim() === ""}>
              Use what is pasted
            </button>
            <button type="button" className="button quiet" onClick={() => setPasting(false)}>
              Do not paste
            </button>
          </div>
        </form>
      ) : (
        <div className="row">
          <button type="button" className="button" onClick={() => setPasting(true)}>
            Paste cells instead
          </button>
        </div>
      )}
    </section>
  );
}
