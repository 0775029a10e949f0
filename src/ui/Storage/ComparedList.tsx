import { type Compared, countOf } from "../../jobs/store/held.ts";

/** Job by job: what is here now beside what this tablet held before. */
export function ComparedList({ of }: { readonly of: readonly Compared[] }) {
  return (
    <ul className="storage-compared">
      {of.map((each) => (
        <li key={each.held.job}>
          <strong>{each.held.name}</strong>: {inWords(each)}
        </li>
      ))}
    </ul>
  );
}

function inWords({ held, is, missing }: Compared): string {
  const known = countOf(held);
  const log = known === 0 ? "nothing in its log" : `a log of ${known}, ${closing(held.heads)}`;
  switch (is) {
    case "the same":
      return `here again, ${log}, the same as before.`;
    case "further":
      return `here, and further than it was; all of the log of ${known} is in it.`;
    case "behind":
      return `here, and the last ${missing} of ${known} events are missing. Bring in a later backup or pack if there is one.`;
    case "another log":
      return "here, with another log than before. Ask the office to compare the two.";
    case "not here":
      return `not here. It had ${log}.`;
  }
}

/** A closing hash as people read it to each other. */
function closing(heads: Compared["held"]["heads"]): string {
  const hashes = Object.values(heads).map(({ hash }) => hash.slice(0, 12));
  return `closing ${hashes.length === 1 ? "hash" : "hashes"} ${hashes.join(", ")}`;
}
