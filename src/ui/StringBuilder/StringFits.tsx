import type { Writer } from "../../jobs/display.ts";
import type { ToolString } from "../../jobs/records/equipment.ts";
import { type JobFit, type Verdict, verdictsOf } from "../../jobs/stringFit.ts";
import { aspectTitles, fitInShort, fitInWords } from "../../jobs/stringFitWords.ts";
import { figuresOf } from "../../jobs/toolString.ts";
import { Figure } from "../Working/Figure.tsx";

interface StringFitsProps {
  readonly string: ToolString;
  readonly fits: readonly JobFit[];
  readonly writer: Writer;
}

/** Everything that the string is held against in one job, what it does not fit first. */
const allInShort = (fit: JobFit, writer: Writer) =>
  verdictsOf([fit])
    .map(({ aspect }) => `${aspectTitles[aspect].toLowerCase()} ${fitInShort(fit, aspect, writer)}`)
    .join("; ");

/** What the string comes to and whether it fits, the worst first; every job is a tap away. */
export function StringFits({ string, fits, writer }: StringFitsProps) {
  return (
    <section className="string-fits" aria-labelledby="string-fits-title">
      <h2 id="string-fits-title" className="hidden-label">
        What it comes to
      </h2>
      <Figures string={string} writer={writer} />
      {fits.length === 0 && (
        <p className="string-fit not-known">
          <strong>Open.</strong> No job that is still to be done uses this string: choose it in a
          job's plan and it is held against the well, the line and the lubricator there.
        </p>
      )}
      {verdictsOf(fits).map((verdict) => (
        <VerdictInWords key={verdict.aspect} verdict={verdict} writer={writer} />
      ))}
      {fits.length > 1 && (
        <details className="string-jobs">
          <summary>All {fits.length} jobs with this string</summary>
          <ul>
            {fits.map((fit) => (
              <li key={fit.job.id}>
                <strong>
                  {fit.well}, {fit.job.day}
                </strong>
                : {allInShort(fit, writer)}
              </li>
            ))}
          </ul>
          <p className="small">
            A job that is issued keeps the string it was issued with until its next revision.
          </p>
        </details>
      )}
    </section>
  );
}

interface VerdictProps {
  readonly verdict: Verdict;
  readonly writer: Writer;
}

/** What does not fit says why at once; what fits is one line, its figures a tap away. */
function VerdictInWords({ verdict, writer }: VerdictProps) {
  const { aspect, fit, state } = verdict;
  const look = `string-fit ${state.replaceAll(" ", "-")}`;
  const short = (
    <>
      <strong>
        {aspectTitles[aspect]}: {fitInShort(fit, aspect, writer)}.
      </strong>{" "}
      {fit.well}.
    </>
  );
  const says = fitInWords(fit, aspect, writer);
  return state === "fits" ? (
    <details className={look}>
      <summary>{short}</summary>
      <p className="string-fit-why">{says}</p>
    </details>
  ) : (
    <p className={look}>
      {short} {says}
    </p>
  );
}

function Figures({ string, writer }: Omit<StringFitsProps, "fits">) {
  const { closed, extended, lengthsOpen, weight, largest } = figuresOf(string);
  return (
    <dl className="string-figures">
      <div>
        <dt>Length, closed</dt>
        <dd>
          <Figure dimension="length" si={closed} writer={writer} calculated />
        </dd>
      </div>
      <div>
        <dt>Jars extended</dt>
        <dd>
          {lengthsOpen.length > 0 ? (
            "not known"
          ) : (
            <Figure dimension="length" si={extended} writer={writer} calculated />
          )}
        </dd>
      </div>
      <div>
        <dt>Weight in air</dt>
        <dd>
          <Figure dimension="weight" si={weight} writer={writer} calculated />
        </dd>
      </div>
      {largest && (
        <div>
          <dt>Largest diameter</dt>
          <dd>
            <Figure dimension="diameter" si={largest.diameter} writer={writer} calculated />
            <span className="string-largest">{largest.tool.name}</span>
          </dd>
        </div>
      )}
    </dl>
  );
}
