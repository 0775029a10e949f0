import { type FieldDifference, MOST_DIFFERENCES } from "../../jobs/pack/differences.ts";

interface FieldTableProps {
  readonly fields: readonly FieldDifference[];
  /** read out, not shown */
  readonly caption: string;
}

/** Field by field: what is here beside what is in the pack. */
export function FieldTable({ fields, caption }: FieldTableProps) {
  const shown = fields.slice(0, MOST_DIFFERENCES);
  return (
    <>
      <table className="pack-fields">
        <caption className="hidden-label">{caption}</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Here</th>
            <th scope="col">In the pack</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ where, mine, theirs }, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two fields may be called the same; the list never changes
            <tr key={index}>
              <th scope="row">
                <bdi>{where}</bdi>
              </th>
              <td data-of="Here">
                <bdi>{mine}</bdi>
              </td>
              <td data-of="In the pack">
                <bdi>{theirs}</bdi>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {fields.length > shown.length && (
        <p className="small soft">And {fields.length - shown.length} more fields.</p>
      )}
    </>
  );
}
