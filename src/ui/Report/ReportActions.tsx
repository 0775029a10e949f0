import { useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { ReportDocument } from "../../jobs/report/document.ts";
import type { Paper } from "../../jobs/report/pdf/paper.ts";
import { useStore } from "../storeContext.ts";
import type { LiveJob } from "../useJob.ts";
import { keepPaper, keptPaper } from "./keptPaper.ts";
import { makePdf } from "./pdfClient.ts";
import { saveReadings, saveRecord, saveReport } from "./saveReport.ts";

interface ReportActionsProps {
  readonly live: LiveJob;
  readonly report: ReportDocument;
}

const papers: readonly Paper[] = ["A4", "Letter"];

/** The ways in which a report leaves the tablet. */
export function ReportActions({ live, report }: ReportActionsProps) {
  const store = useStore();
  const [paper, setPaper] = useState(keptPaper);
  const [share, setShare] = useState<number>();
  const [said, setSaid] = useState("");
  const [problem, setProblem] = useState("");
  const making = useRef<AbortController>(undefined);
  // Whoever leaves the screen gives the PDF up: it would come to the downloads of another screen.
  useEffect(() => () => making.current?.abort(), []);

  const leave = async (save: () => Promise<string>) => {
    setProblem("");
    setSaid("Being put together.");
    try {
      setSaid(`${await save()} handed to the browser's downloads.`);
    } catch (error) {
      setSaid("");
      setProblem(`Not saved: ${(error as Error).message}. Everything is still on this tablet.`);
    }
  };

  const pdf = async (chosen: Paper) => {
    setPaper(chosen);
    keepPaper(chosen);
    setSaid("");
    setProblem("");
    setShare(0);
    const control = new AbortController();
    making.current = control;
    const absent = new Set<string>();
    try {
      const bytes = await makePdf(report, {
        paper: chosen,
        pictures: async (hash) => {
          const found = await store.picture(hash).catch(() => undefined);
          if (!found) absent.add(hash);
          return found && new Uint8Array(found.bytes);
        },
        onProgress: (progress) => setShare(progress.share),
        signal: control.signal,
      });
      const name = saveReport(live, bytes);
      setSaid(`${name} handed to the browser's downloads.`);
      if (absent.size > 0) {
        setProblem(
          `${absent.size} ${absent.size === 1 ? "picture" : "pictures"} could not be read from this tablet; the PDF says so in ${absent.size === 1 ? "its" : "their"} place.`,
        );
      }
    } catch (error) {
      if (control.signal.aborted) setSaid("The PDF was given up; nothing was saved.");
      else setProblem(`The PDF could not be made: ${(error as Error).message}`);
    }
    making.current = undefined;
    setShare(undefined);
  };

  const busy = share !== undefined;
  return (
    <div className="report-actions">
      <div className="row">
        {papers.map((each) => (
          <button
            key={each}
            type="button"
            className={each === paper ? "button next" : "button"}
            disabled={busy}
            onClick={() => void pdf(each)}
          >
            PDF, {each}
          </button>
        ))}
        <button type="button" className="button" onClick={() => window.print()}>
          Print
        </button>
        <button
          type="button"
          className="button"
          onClick={() => void leave(() => saveReadings(live, "xlsx"))}
        >
          Readings as workbook
        </button>
        <button
          type="button"
          className="button"
          onClick={() => void leave(() => saveReadings(live, "csv"))}
        >
          Readings as CSV
        </button>
        <button type="button" className="button" onClick={() => void leave(() => saveRecord(live))}>
          Record as JSON
        </button>
        <Link href={`/jobs/${live.id}/review`} className="button quiet">
          To the record
        </Link>
      </div>
      {busy && (
        <div className="row">
          <progress value={share} max={1} aria-label="The PDF is being set" />
          <span role="status">The PDF is being set.</span>
          <span className="figure">{Math.round(share * 100)} %</span>
          <button type="button" className="button" onClick={() => making.current?.abort()}>
            Give up
          </button>
        </div>
      )}
      {said && <p role="status">{said}</p>}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
