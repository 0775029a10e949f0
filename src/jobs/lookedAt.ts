import { assemble } from "./assemble.ts";
import type { Programme } from "./records/programme.ts";
import type { Well } from "./records/well.ts";
import type { Library } from "./store/library.ts";

/** A well without a job, so that what is worked out of a programme can be looked at all the same. */
export function lookedAt(well: Well, library: Library): Programme {
  const [policy] = library.policies;
  return assemble(
    {
      id: "none",
      revision: 1,
      day: "2000-01-01",
      well: well.id,
      mandrel: "none",
      reason: "looked at",
      design: {},
      expected: {},
      strings: {},
      crew: {},
      sheet: "change-out",
      ...(policy && { policy: policy.id }),
    },
    library,
  );
}
