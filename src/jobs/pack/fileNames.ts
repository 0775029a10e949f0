/** What some file system refuses in a name, and marks that are not seen or turn the reading direction. */
const REFUSED = /[<>:"/\\|?*\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\p{Co}\p{Cn}]+/gu;
/** Bytes of a name leave room for an ending and for what a browser puts behind a second one; most allow 255. */
const MOST_BYTES = 120;
const MOST_SHOWN = 80;

/** A well's name, a day: fit to stand in the name of a file. */
function clean(part: string): string {
  const cleaned = part
    .normalize("NFC")
    .replace(REFUSED, "-")
    .replace(/\s+/g, "-")
    .replace(/-{2,}/g, "-")
    .replace(/^[-.]+|[-.]+$/g, "");
  let short = cleaned;
  while (new TextEncoder().encode(short).length > MOST_BYTES)
    short = [...short].slice(0, -1).join("");
  return short.replace(/[-.]+$/, "") || "unnamed";
}

/** The name of a job's pack, e.g. `latchline-EM-07-2026-11-25.json`. */
export const jobPackName = (well: string, day: string) =>
  `latchline-${clean(well)}-${clean(day)}.json`;

/** The name of a day's pack, e.g. `latchline-day-2026-11-25.json`. */
export const dayPackName = (day: string) => `latchline-day-${clean(day)}.json`;

/** The name of something else that leaves of a job, e.g. `latchline-report-EM-07-2026-11-25.pdf`. */
export const jobFileName = (what: string, well: string, day: string, ending: string) =>
  `latchline-${what}-${clean(well)}-${clean(day)}.${ending}`;

/** The name of a file from elsewhere as it may stand on the screen: short, and reading as it is written. */
export function shownName(name: string): string {
  const cleaned = name.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, "\u25af").trim();
  const letters = [...cleaned];
  if (letters.length <= MOST_SHOWN) return cleaned || "a file without a name";
  return `${letters.slice(0, MOST_SHOWN - 20).join("")}…${letters.slice(-19).join("")}`;
}
