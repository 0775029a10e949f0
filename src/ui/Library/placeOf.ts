import type { RecordKind } from "../../jobs/store/library.ts";

/** Where a record is looked at. */
export function placeOf({ kind, id }: { readonly kind: RecordKind; readonly id: string }): string {
  switch (kind) {
    case "wells":
      return `/wells/${id}`;
    case "strings":
      return `/strings/${id}`;
    case "jobs":
      return `/jobs/${id}`;
    default:
      return `/edit/${kind}/${id}`;
  }
}
