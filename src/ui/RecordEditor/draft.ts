import { parseNumber } from "../../jobs/commands/entry.ts";
import { entrySchemas } from "../../jobs/records/library.ts";
import type { RecordTypes } from "../../jobs/store/library.ts";
import { type EditedKind, type FieldSpec, type Section, sections } from "./fields.ts";

/** A record while it is being changed: numbers are what was typed, so that nothing typed is lost. */
export type Draft = { [key: string]: unknown };

/** The value at a path like `pressures.maximumShutInWellhead.value`. */
export function at(draft: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], draft);
}

/** A copy with the value at a path replaced, or taken out when it is undefined. */
export function withAt(draft: unknown, path: string, value: unknown): Draft {
  const [key = "", ...rest] = path.split(".");
  const copy: Draft = Array.isArray(draft)
    ? ([...draft] as unknown as Draft)
    : { ...(draft as Draft) };
  const next = rest.length === 0 ? value : withAt(copy[key] ?? {}, rest.join("."), value);
  if (next === undefined) delete copy[key];
  else copy[key] = next;
  return copy;
}

/** Every field of a record with its full path, the lists unrolled. */
function fieldsOf(kind: EditedKind, draft: Draft): FieldSpec[] {
  return sections[kind].flatMap((section) => unroll(section, draft));
}

export function unroll(section: Section, draft: Draft): FieldSpec[] {
  if (!("list" in section)) return [...section.fields];
  const items = (at(draft, section.list) as unknown[] | undefined) ?? [];
  return items.flatMap((_, index) =>
    section.fields.map((field) => ({ ...field, path: `${section.list}.${index}.${field.path}` })),
  );
}

export type Checked =
  | { readonly ok: true; readonly record: RecordTypes[EditedKind] }
  | { readonly ok: false; readonly problems: Readonly<Record<string, string>> };

/**
 * Turns a draft back into a record.
 *
 * @returns the record, or what is wrong by the path of the field that shows it
 */
export function check(kind: EditedKind, draft: Draft): Checked {
  const problems: Record<string, string> = {};
  let record: Draft = structuredClone(draft);
  for (const field of fieldsOf(kind, draft)) {
    const typed = at(draft, field.path);
    if (field.kind === "quantity") {
      const { value, unit } = (typed ?? { value: "" }) as { value: string | number; unit?: string };
      record = number(record, `${field.path}.value`, field, String(value), problems);
      if (String(value).trim() === "" && field.optional)
        record = withAt(record, field.path, undefined);
      else if (unit === undefined) problems[field.path] ??= `${field.label}: choose a unit.`;
    } else if (field.kind === "number") {
      record = number(record, field.path, field, String(typed ?? ""), problems);
    } else if (typed === "" || typed === undefined) {
      record = withAt(record, field.path, undefined);
      if (!field.optional) problems[field.path] = `${field.label}: nothing entered.`;
    }
  }
  const parsedInput = withoutEmpty(kind, record);
  const parsed = entrySchemas[kind].safeParse(parsedInput);
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  if (parsed.success) return { ok: true, record: parsed.data };
  const paths = fieldsOf(kind, draft);
  for (const issue of parsed.error.issues) {
    const path = issue.path.join(".");
    const field = paths.find((each) => path === each.path || path.startsWith(`${each.path}.`));
    // A complaint about a whole group stands at its first field.
    const first = field ?? paths.find((each) => each.path.startsWith(`${path}.`));
    const list = sections[kind].find((section) => "list" in section && section.list === path);
    if (issue.code === "too_small" && list && "list" in list) {
      problems[path] ??= `${list.title}: add at least one ${list.item.toLowerCase()}.`;
      continue;
    }
    const missing = issue.code === "invalid_type" && at(parsedInput, path) === undefined;
    const message = missing
      ? "fill it in too, or empty everything else of its group"
      : issue.message;
    problems[first?.path ?? ""] = field
      ? `${field.label}: ${message}.`
      : `${first ? sentence(message) : `${path}: ${message}`}.`;
  }
  return { ok: false, problems };
}

const sentence = (words: string) => words.replace(/^./, (first) => first.toUpperCase());

function number(
  record: Draft,
  path: string,
  field: FieldSpec,
  typed: string,
  problems: Record<string, string>,
): Draft {
  if (typed.trim() === "") {
    if (!field.optional) problems[field.path] = `${field.label}: nothing entered.`;
    return withAt(record, path, undefined);
  }
  const value = parseNumber(typed);
  if (value === undefined) {
    problems[field.path] =
      `${field.label}: "${typed}" is not a number. Enter digits, with a point for the decimals.`;
    return record;
  }
  return withAt(record, path, value);
}

/** Groups whose every part was left empty are not there at all. */
const groups: Partial<Record<EditedKind, readonly string[]>> = {
  // Inner groups before the ones that hold them.
  wells: [
    "injectionGas.analysis",
    "injectionGas",
    "tubingGas.analysis",
    "tubingGas",
    "temperatures.shutIn",
    "temperatures.flowing",
    "onLift",
    "lastFound.survey",
    "lastFound",
    "annulus",
    "stream",
  ],
  valves: ["card", "bench.readings", "bench", "history"],
  policies: ["sheaveRatio", "benchReadings", "benchSpread", "temperatureUncertainty"],
  jobs: ["pins", "unit", "release"],
  lines: ["cutBack"],
};

function withoutEmpty(kind: EditedKind, record: Draft): Draft {
  let result = record;
  const liquid = at(record, "annulusLiquid.state");
  // What was entered of a liquid that does not stand there is not part of the record.
  if (liquid !== undefined && liquid !== "standing") {
    result = withAt(result, "annulusLiquid", { state: liquid });
  }
  if (at(record, "path.kind") === "vertical") result = withAt(result, "path", { kind: "vertical" });
  const tools = kind === "strings" ? ((at(record, "tools") as unknown[] | undefined) ?? []) : [];
  const ofTools = tools.map((_, index) => `tools.${index}.shear`);
  for (const group of [...(groups[kind] ?? []), ...ofTools]) {
    const value = at(result, group);
    const isEmpty = Array.isArray(value)
      ? value.length === 0
      : value !== undefined && Object.keys(value as object).length === 0;
    if (isEmpty) result = withAt(result, group, undefined);
  }
  return result;
}
