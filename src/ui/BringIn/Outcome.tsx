import type { Change } from "../../jobs/tables/changes.ts";
import type { Problem } from "../../jobs/tables/problem.ts";
import type { Outcome } from "../../jobs/tables/session.ts";

const SHOWN = 100;

/** What is wrong, row and column by name. */
export function ProblemList({ outcome }: { readonly outcome: Extract<Outcome, { ok: false }> }) {
  const { problems, count } = outcome;
  if (count === 0) return null;
  const shown = problems.slice(0, SHOWN);
  return (
    <section className="card bring-problems" aria-labelledby="bring-problems">
      <h2 id="bring-problems">
        {count === 1 ? "One thing is wrong" : `${count.toLocaleString("en-US")} things are wrong`}
      </h2>
      <p>
        Nothing comes in until all of it is mended: half a table helps nobody. Correct the file and
        choose it again; the mapping is kept. A column that is not needed can be left out.
      </p>
      <ol>
        {shown.map((problem, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two problems may read alike
          <ProblemRow key={index} problem={problem} />
        ))}
      </ol>
      {count > shown.length && (
        <p className="soft">
          and {(count - shown.length).toLocaleString("en-US")} more, further down.
        </p>
      )}
    </section>
  );
}

function ProblemRow({ problem }: { readonly problem: Problem }) {
  const { rows, column, found, what, mend } = problem;
  return (
    <li>
      <strong>
        {place(rows)}
        {column !== undefined && (
          <>
            {rows.length > 0 && ", "}
            <bdi>{column}</bdi>
          </>
        )}
      </strong>
      {(rows.length > 0 || column !== undefined) && ": "}
      {found !== undefined && (
        <>
          <q>
            <bdi>{found.length > 60 ? `${found.slice(0, 60)}…` : found}</bdi>
          </q>{" "}
        </>
      )}
      {`${what}. ${mend}`}
    </li>
  );
}

function place(rows: readonly number[]): string {
  if (rows.length === 0) return "";
  if (rows.length > 4) return `Rows ${rows.slice(0, 3).join(", ")} and ${rows.length - 3} more`;
  const last = rows.at(-1);
  return rows.length === 1 ? `Row ${last}` : `Rows ${rows.slice(0, -1).join(", ")} and ${last}`;
}

const kindWords = {
  wells: ["well", "wells"],
  valves: ["valve", "valves"],
  tools: ["tool", "tools"],
} as const;

/** What will come in: new, changed with what changes, and what stays as it is. */
export function ChangeList({ outcome }: { readonly outcome: Extract<Outcome, { ok: true }> }) {
  const { counts, changes } = outcome;
  return (
    <section className="card bring-changes" aria-labelledby="bring-changes">
      <h2 id="bring-changes">What comes in</h2>
      <dl className="bring-counts">
        <div>
          <dt>New</dt>
          <dd className="figure">{counts.new.toLocaleString("en-US")}</dd>
        </div>
        <div>
          <dt>Changed</dt>
          <dd className="figure">{counts.changed.toLocaleString("en-US")}</dd>
        </div>
        <div>
          <dt>Same as here</dt>
          <dd className="figure">{counts.same.toLocaleString("en-US")}</dd>
        </div>
      </dl>
      {(["changed", "new"] as const).map((is) => (
        <Changes
          key={is}
          is={is}
          of={changes.filter((each) => each.is === is)}
          count={counts[is]}
        />
      ))}
    </section>
  );
}

function Changes({
  is,
  of,
  count,
}: {
  readonly is: "new" | "changed";
  readonly of: readonly Change[];
  readonly count: number;
}) {
  if (count === 0) return null;
  const shown = of.slice(0, SHOWN);
  return (
    <details open={is === "changed" || count <= 12}>
      <summary>{is === "new" ? "New here" : "Changed"}</summary>
      <ul>
        {shown.map((change) => (
          <li key={`${change.kind} ${change.name}`}>
            <strong>
              {kindWords[change.kind][0]} <bdi>{change.name}</bdi>
            </strong>
            {is === "new" ? ` ${newInWords(change)}` : <ChangedFields change={change} />}
          </li>
        ))}
      </ul>
      {count > shown.length && (
        <p className="soft">and {(count - shown.length).toLocaleString("en-US")} more.</p>
      )}
    </details>
  );
}

/** A new record in one line: of a well its mandrels, of anything else what is known of it. */
function newInWords({ kind, fields }: Change): string {
  if (kind !== "wells") {
    return fields
      .slice(1, 6)
      .map(({ after }) => after)
      .join(", ");
  }
  const mandrels = fields.filter(({ label }) => /^Mandrel \d+: Mandrel depth/.test(label)).length;
  const valves = fields.filter(({ label }) => /^Mandrel \d+: valve$/.test(label)).length;
  return `with ${mandrels} ${mandrels === 1 ? "mandrel" : "mandrels"}, ${valves} ${valves === 1 ? "valve" : "valves"} in them`;
}

function ChangedFields({ change }: { readonly change: Change }) {
  return (
    <ul className="bring-fields">
      {change.fields.map(({ label, before, after }) => (
        <li key={label}>
          {label}: <bdi>{before || "nothing"}</bdi> becomes <bdi>{after || "nothing"}</bdi>
        </li>
      ))}
    </ul>
  );
}

/** e.g. `3 wells and 12 valves` */
export function recordsInWords(outcome: Extract<Outcome, { ok: true }>): string {
  const parts = (["wells", "valves", "tools"] as const).flatMap((kind) => {
    const count = outcome.records[kind].length;
    const [one, many] = kindWords[kind];
    return count === 0 ? [] : [`${count.toLocaleString("en-US")} ${count === 1 ? one : many}`];
  });
  return parts.join(" and ");
}
