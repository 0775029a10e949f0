import { useState } from "react";
import type { WellPath } from "../../calc/path.ts";
import { withEvidence } from "../../jobs/diagnosis/changeInvestigation.ts";
import { type EvidenceDraft, freshEvidence, typedOf } from "../../jobs/diagnosis/evidenceDraft.ts";
import { formOf, kindNames, kindsInOrder } from "../../jobs/diagnosis/evidenceFields.ts";
import { evidenceInWords } from "../../jobs/diagnosis/inWords.ts";
import { onRecord } from "../../jobs/diagnosis/onRecord.ts";
import type { Writer } from "../../jobs/display.ts";
import {
  type EvidenceKind,
  type Investigation,
  MOST_EVIDENCE,
} from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import { EvidenceForm } from "./EvidenceForm.tsx";
import { EvidenceList } from "./EvidenceList.tsx";
import type { KeptHere } from "./evidenceDrafts.ts";
import { LogImport } from "./LogImport.tsx";
import type { Changing } from "./useChange.ts";

interface EvidencePartProps {
  readonly investigation: Investigation;
  readonly well: Well;
  readonly path: WellPath | undefined;
  readonly states: readonly JobState[];
  readonly kept: KeptHere;
  readonly writer: Writer;
  readonly changing: Changing;
}

type Open =
  | { readonly is: "form"; readonly begun: EvidenceDraft; readonly kept: EvidenceDraft | undefined }
  | { readonly is: "log"; readonly kind: "trend" | "survey"; readonly fromKept: boolean };

/** What was begun here before is open again. */
function openAtFirst({ evidence, trend, survey }: KeptHere): Open | undefined {
  if (evidence) return { is: "form", begun: evidence, kept: evidence };
  if (trend) return { is: "log", kind: "trend", fromKept: true };
  return survey ? { is: "log", kind: "survey", fromKept: true } : undefined;
}

/** What is known, what is on record already, and a form for what somebody reads now. */
export function EvidencePart(props: EvidencePartProps) {
  const { investigation, well, path, states, kept, writer, changing } = props;
  const [open, setOpen] = useState(() => openAtFirst(kept));
  const { id, evidence } = investigation;
  const isFull = evidence.length >= MOST_EVIDENCE;
  const begin = (kind: EvidenceKind) => {
    if (kind === "trend") {
      setOpen({ is: "log", kind, fromKept: false });
      return;
    }
    const now = new Date().toISOString();
    const begun = freshEvidence(crypto.randomUUID(), kind, formOf(kind, well), now);
    setOpen({ is: "form", begun, kept: undefined });
  };
  return (
    <section className="evidence-part" aria-labelledby="evidence-title">
      <h2 id="evidence-title">Evidence</h2>
      <p role="status" className="evidence-said small">
        {changing.said}
      </p>
      {!open && changing.problem && (
        <p className="problem" role="alert">
          {changing.problem}
        </p>
      )}
      <OnRecordList
        investigation={investigation}
        well={well}
        path={path}
        states={states}
        changing={changing}
      />
      {open?.is === "form" && (
        <EvidenceForm
          key={open.begun.id}
          well={well}
          id={id}
          begun={open.begun}
          kept={open.kept}
          atmosphere={writer.atmosphere}
          changing={changing}
          onDone={() => setOpen(undefined)}
        />
      )}
      {open?.is === "form" && open.begun.kind === "survey" && (
        <button
          type="button"
          className="button"
          onClick={() => setOpen({ is: "log", kind: "survey", fromKept: false })}
        >
          Bring the survey in as a table instead
        </button>
      )}
      {open?.is === "log" && (
        <LogImport
          key={open.kind}
          kind={open.kind}
          well={well}
          id={id}
          writer={writer}
          kept={open.fromKept ? kept[open.kind] : undefined}
          changing={changing}
          onDone={() => setOpen(undefined)}
        />
      )}
      {!open &&
        (isFull ? (
          <p className="notice">
            {MOST_EVIDENCE} pieces are kept of one investigation. Begin a new one to go on.
          </p>
        ) : (
          <fieldset className="evidence-kinds">
            <legend>Add what was read, from cheap to dear</legend>
            {kindsInOrder.map((kind) => (
              <button key={kind} type="button" className="button" onClick={() => begin(kind)}>
                {kindNames[kind]}
              </button>
            ))}
          </fieldset>
        ))}
      {evidence.length === 0 && <p>No evidence yet.</p>}
      <EvidenceList
        investigation={investigation}
        well={well}
        changing={changing}
        mayEdit={!open}
        onEdit={(piece) =>
          setOpen({
            is: "form",
            begun: typedOf(piece, formOf(piece.kind, well)),
            kept: undefined,
          })
        }
      />
    </section>
  );
}

type OnRecordProps = Pick<
  EvidencePartProps,
  "investigation" | "well" | "path" | "states" | "changing"
>;

/** What nobody has to type: it is on record, and one tap takes it in. */
function OnRecordList({ investigation, well, path, states, changing }: OnRecordProps) {
  const taken = new Set(investigation.evidence.map(({ id }) => id));
  const offered = onRecord(well, path, states).filter(({ pieces }) =>
    pieces.some(({ id }) => !taken.has(id)),
  );
  if (offered.length === 0) return null;
  return (
    <section className="evidence-offers" aria-labelledby="evidence-offers">
      <h3 id="evidence-offers">On record already</h3>
      <ul>
        {offered.map(({ says, pieces }) => (
          <li key={pieces[0]?.id}>
            <button
              type="button"
              className="button"
              onClick={() =>
                void changing.change(withEvidence(...pieces), `Saved: taken in, ${says}.`)
              }
            >
              Take in: {says}
            </button>
            <span className="small soft">
              {pieces.map((piece) => evidenceInWords(piece, well.injectionDown)).join("; ")}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
