import type { Paper } from "../../jobs/report/pdf/paper.ts";

const KEY = "latchline.paper";

/** The paper that was chosen last: a convenience, and nothing of a job. */
export function keptPaper(): Paper {
  try {
    return localStorage.getItem(KEY) === "Letter" ? "Letter" : "A4";
  } catch {
    return "A4";
  }
}

export function keepPaper(paper: Paper): void {
  try {
    localStorage.setItem(KEY, paper);
  } catch {
    // Forbidden storage: the choice holds until the page is closed.
  }
}
