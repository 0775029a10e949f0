import { format, parseISO } from "date-fns";
import { setAside } from "../../jobs/diagnosis/changeInvestigation.ts";
import { kindNames, kindsInOrder } from "../../jobs/diagnosis/evidenceFields.ts";
import { evidenceInWords } from "../../jobs/diagnosis/inWords.ts";
import type { Evidence, Investigation } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { Changing } from "./useChange.ts";

interface EvidenceListProps {
  readonly investigation: Investigation;
  readonly well: Well;
  readonly changing: Changing;
  /** While one piece is typed no other is opened over it. */
  readonly mayEdit: boolean;
  readonly onEdit: (piece: Exclude<Evidence, { kind: "trend" }>) => void;
}

/** What is known, by kind, each piece with when, where from and how far it is trusted. */
export function EvidenceList(props: EvidenceListProps) {
  const { investigation, well, changing, mayEdit, onEdit } = props;
  const { evidence } = investigation;
  return (
    <div className="evidence-list">
      {kindsInOrder
        .filter((kind) => evidence.some((piece) => piece.kind === kind))
        .map((kind) => (
          <section key={kind}>
            <h3>{kindNames[kind]}</h3>
            <ul>
              {evidence
                .filter((piece) => piece.kind === kind)
                .sort((a, b) => b.at.localeCompare(a.at))
                .map((piece) => (
                  <li key={piece.id} className={piece.setAside ? "evidence aside" : "evidence"}>
                    <p>
                      <strong>{evidenceInWords(piece, well.injectionDown)}</strong>
                      {piece.setAside && <span className="evidence-aside"> set aside</span>}
                    </p>
                    <p className="small">
                      {format(parseISO(piece.at), "d MMM yyyy HH:mm")}, {piece.source}, trusted:{" "}
                      {piece.confidence}
                    </p>
                    {piece.remark && <p className="small soft">{piece.remark}</p>}
                    <div className="row">
                      {piece.kind !== "trend" && (
                        <button
                          type="button"
                          className="button"
                          disabled={!mayEdit}
                          onClick={() => onEdit(piece)}
                        >
                          Change
                        </button>
                      )}
                      <button
                        type="button"
                        className="button"
                        onClick={({ detail }) => {
                          // The second of two quick taps would take back what the first did.
                          if (detail > 1) return;
                          void changing.change(
                            setAside(piece.id, !piece.setAside),
                            piece.setAside
                              ? "Saved: it counts again."
                              : "Saved: it is kept and does not count.",
                          );
                        }}
                      >
                        {piece.setAside ? "Count it again" : "Set aside"}
                      </button>
                    </div>
                  </li>
                ))}
            </ul>
          </section>
        ))}
    </div>
  );
}
