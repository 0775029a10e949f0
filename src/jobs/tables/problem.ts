/** Why a table does not come in: where, what was there, what is wrong, and how to mend it. */
export interface Problem {
  /** rows as the file counts them, from 1 */
  readonly rows: readonly number[];
  /** as the file names it */
  readonly column?: string;
  readonly found?: string;
  readonly what: string;
  readonly mend: string;
}

/** More than these are counted, not listed. */
const MOST_LISTED = 1000;

/** Collects problems: the first of them in full, all of them by number. */
export class Problems {
  readonly listed: Problem[] = [];
  count = 0;

  add(problem: Problem): void {
    this.count += 1;
    if (this.listed.length < MOST_LISTED) this.listed.push(problem);
  }
}
