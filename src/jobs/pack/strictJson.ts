/** Deeper than any pack goes; what works through a pack piece by piece never has to go further down than this. */
const DEEPEST = 64;

/**
 * What is wrong with JSON that is written correctly and no program would write: one name twice in one object, of
 * which readers keep different ones; a name that has a meaning of its own to JavaScript; nesting without end.
 *
 * @param text that `JSON.parse` takes
 * @returns the fault in words; undefined when there is none
 */
export function jsonFault(text: string): string | undefined {
  /** for every object or list that is open the names so far; undefined of a list */
  const open: (Set<string> | undefined)[] = [];
  const mark = /[{}[\]"]/g;
  for (let found = mark.exec(text); found; found = mark.exec(text)) {
    switch (found[0]) {
      case "{":
      case "[":
        open.push(found[0] === "{" ? new Set() : undefined);
        if (open.length > DEEPEST) return `it is nested more than ${DEEPEST} deep`;
        break;
      case "}":
      case "]":
        open.pop();
        break;
      default: {
        const end = endOfString(text, found.index);
        mark.lastIndex = end + 1;
        const names = open.at(-1);
        if (!names || !isName(text, end + 1)) continue;
        const name = JSON.parse(text.slice(found.index, end + 1)) as string;
        if (name === "__proto__") return 'it has a field "__proto__", which no pack has';
        if (names.has(name))
          return `it says ${JSON.stringify(name.slice(0, 40))} twice in one place`;
        names.add(name);
      }
    }
  }
  return undefined;
}

/** Where the string that begins at a quotation mark ends. */
function endOfString(text: string, start: number): number {
  let end = text.indexOf('"', start + 1);
  while (end !== -1 && isEscaped(text, end)) end = text.indexOf('"', end + 1);
  return end === -1 ? text.length : end;
}

function isEscaped(text: string, at: number): boolean {
  let first = at;
  while (text[first - 1] === "\\") first -= 1;
  return (at - first) % 2 === 1;
}

function isName(text: string, after: number): boolean {
  let at = after;
  while (/\s/.test(text[at] ?? "")) at += 1;
  return text[at] === ":";
}
