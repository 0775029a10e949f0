import { format } from "date-fns";
import type { CloseOutLine, CloseOutSection } from "../../jobs/closeOut/line.ts";

export function Sections({ sections }: { readonly sections: readonly CloseOutSection[] }) {
  return (
    <div className="close-sections">
      {sections.map(({ id, title, lines }) => (
        <section key={id} className="card close-section" aria-label={title}>
          <h3>{title}</h3>
          <dl className="close-lines">
            {lines.map((line) => (
              <Line key={line.id} line={line} />
            ))}
          </dl>
        </section>
      ))}
    </div>
  );
}

/** The answer, and from whose entries it comes. */
function Line({ line: { label, says, gap, events } }: { readonly line: CloseOutLine }) {
  const last = events.at(-1);
  const at = last && format(new Date(last.at), "d MMM HH:mm");
  return (
    <div className={gap ? "close-line gap" : "close-line"}>
      <dt>{label}</dt>
      <dd>
        {says}
        {last && (
          <span className="close-from">
            {last.actor.name}
            {at !== says && `, ${at}`}
            {events.length > 1 && `, ${events.length} entries`}
          </span>
        )}
      </dd>
    </div>
  );
}
