import { Link } from "wouter";
import { Nowhere } from "../App/Nowhere.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { useJob } from "../useJob.ts";
import { ReportActions } from "./ReportActions.tsx";
import { ReportPage } from "./ReportPage.tsx";
import { usePageFoot } from "./usePageFoot.ts";
import { useReport } from "./useReport.ts";
import "./Report.css";

export default function ReportScreen({ id }: { readonly id: string }) {
  const live = useJob(id);
  const report = useReport(live);
  usePageFoot(report?.foot);
  if (live === "missing") return <Nowhere what="job" />;
  if (live === "not issued") {
    return (
      <>
        <TopBar title="Report" />
        <main className="page">
          <p>No programme of this job has been issued: there is nothing to report on yet.</p>
          <div className="row">
            <Link href={`/jobs/${id}`} className="button next">
              To the brief
            </Link>
          </div>
        </main>
      </>
    );
  }
  if (!live || !report) {
    return (
      <main className="page" aria-busy="true">
        <p role="status">The report is being put together…</p>
      </main>
    );
  }
  return (
    <>
      <TopBar title={report.title} />
      <main className="page report-screen">
        <ReportActions live={live} report={report} />
        <ReportPage of={report} />
      </main>
    </>
  );
}
