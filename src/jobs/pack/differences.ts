import canonicalize from "canonicalize";
import { asEntered, unitLabel } from "../display.ts";

/** Where two states of one record differ, in words. */
export interface FieldDifference {
  readonly where: string;
  readonly mine: string;
  readonly theirs: string;
}

/** What a record is called that another one names by its id; undefined of what is no id. */
export type NameOf = (id: string) => string | undefined;

/** Every one is shown to a person; a well whose whole survey changed is told by its first ones. */
export const MOST_DIFFERENCES = 60;

type Item = Readonly<Record<string, unknown>>;
const nothing = "not said";

/**
 * The fields in which two states of one record differ, as a person reads them: quantities as they were typed, other
 * records by their names. What every record counts for itself is left out.
 */
export function differencesOf(mine: object, theirs: object, nameOf: NameOf): FieldDifference[] {
  const found: FieldDifference[] = [];
  const tell = (where: readonly string[], here: string, there: string) => {
    const words = where.join(", ");
    found.push({
      where: words.charAt(0).toUpperCase() + words.slice(1),
      mine: here,
      theirs: there,
    });
  };

  const compare = (where: readonly string[], name: string, here: unknown, there: unknown) => {
    if (same(here, there)) return;
    if (isList(here) || isList(there)) {
      compareLists(where, name, asList(here), asList(there));
    } else if (isGroup(here) || isGroup(there)) {
      compareGroups(where, asGroup(here), asGroup(there));
    } else if (name === "jpeg") {
      tell(
        where,
        here === undefined ? nothing : "one picture",
        there === undefined ? nothing : "another picture",
      );
    } else {
      tell(where, inWords(here, nameOf), inWords(there, nameOf));
    }
  };

  const compareGroups = (where: readonly string[], here: Item, there: Item) => {
    for (const key of new Set([...Object.keys(here), ...Object.keys(there)])) {
      // A limit of a policy is its value with where it comes from.
      const at = key === "value" && where.length > 0 ? where : [...where, labelOf(key)];
      compare(at, key, here[key], there[key]);
    }
  };

  const compareLists = (
    where: readonly string[],
    name: string,
    here: readonly unknown[],
    there: readonly unknown[],
  ) => {
    // Days of two pens are no list that a person reads line by line.
    if (name === "points") {
      tell(where, counted(here, name), counted(there, name));
      return;
    }
    if (![...here, ...there].every(isGroup)) {
      tell(where, listInWords(here, nameOf), listInWords(there, nameOf));
      return;
    }
    const [mineBy, theirsBy] = [here, there].map((list) => byKey(list as Item[]));
    if (!mineBy || !theirsBy) return;
    const before = where.slice(0, -1);
    for (const key of new Set([...mineBy.keys(), ...theirsBy.keys()])) {
      const [one, other] = [mineBy.get(key), theirsBy.get(key)];
      const title = itemTitle(name, (one ?? other) as Item, key);
      if (one && other) compareGroups([...before, title], one, other);
      else tell([...before, title], one ? "there" : "not there", other ? "there" : "not there");
    }
    const order = [...mineBy.keys()].filter((key) => theirsBy.has(key));
    const orderThere = [...theirsBy.keys()].filter((key) => mineBy.has(key));
    if (order.join() === orderThere.join()) return;
    const titles = (keys: readonly string[], from: ReadonlyMap<string, Item>) =>
      keys.map((key) => nameIn(from.get(key) ?? {}) ?? key).join(", ");
    tell([...where, "order"], titles(order, mineBy), titles(orderThere, theirsBy));
  };

  const { revision: _mine, ...here } = mine as Item;
  const { revision: _theirs, ...there } = theirs as Item;
  compareGroups([], here, there);
  return found;
}

const same = (a: unknown, b: unknown) =>
  a === b || (a !== undefined && b !== undefined && canonicalize(a) === canonicalize(b));

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const asList = (value: unknown) => (isList(value) ? value : []);

/** Something with fields of its own; a quantity is one value. */
const isGroup = (value: unknown): value is Item =>
  typeof value === "object" && value !== null && !isList(value) && !isQuantity(value);
const asGroup = (value: unknown) => (isGroup(value) ? value : {});

function isQuantity(value: object): value is { value: number; unit: string } {
  const { value: number, unit } = value as { value?: unknown; unit?: unknown };
  return typeof number === "number" && typeof unit === "string";
}

/** Items by what they keep when the list changes: their id, or else their place. */
function byKey(items: readonly Item[]): Map<string, Item> {
  return new Map(
    items.map((item, index) => [typeof item.id === "string" ? item.id : `${index + 1}`, item]),
  );
}

function nameIn({ name, number, line, kind, at }: Item): string | undefined {
  if (typeof name === "string") return name;
  if (typeof line === "string") return line;
  if (typeof number === "number") return String(number);
  // A piece of evidence is told by what it is and when it was read.
  const isRead = typeof kind === "string" && typeof at === "string";
  return isRead ? `${kind} of ${momentIn(at)}` : undefined;
}

/** An instant as records hold it. */
const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/;
const momentIn = (instant: string) => `${instant.slice(0, 16).replace("T", " ")} UTC`;

/** `mandrels`, number 3: "mandrel 3". */
function itemTitle(list: string, item: Item, key: string): string {
  const label = labelOf(list);
  const one = label.endsWith("s") && !label.endsWith("ss") ? label.slice(0, -1) : label;
  return `${one} ${nameIn(item) ?? key}`;
}

/** What the words of a name do not make by themselves. */
const labels: Readonly<Record<string, string>> = {
  also: "further pockets",
  co2: "carbon dioxide",
  h2s: "hydrogen sulfide",
  n2: "nitrogen",
  testRackOpening60F: "test-rack opening at 60 °F",
  maximumShutInWellhead: "maximum shut-in wellhead pressure",
  depthAlongHole: "depth along hole",
  loaded: "lines ticked as loaded",
  jpeg: "photograph",
  hypothesis: "answer",
};

/** `fullInjectionAtSurface`: "full injection at surface". */
function labelOf(key: string): string {
  return (
    (Object.hasOwn(labels, key) && labels[key]) ||
    key
      .replace(/_/g, " ")
      .replace(/([a-z0-9])([A-Z])/g, (_, before, after) => `${before} ${after.toLowerCase()}`)
  );
}

function inWords(value: unknown, nameOf: NameOf): string {
  if (value === undefined || value === null) return nothing;
  if (value === true) return "yes";
  if (value === false) return "no";
  if (typeof value === "object" && isQuantity(value)) return asEntered(value);
  const text = String(value);
  if (INSTANT.test(text)) return momentIn(text);
  const named = nameOf(text) ?? unitLabel(text);
  return named.length > 160 ? `${named.slice(0, 160)}…` : named;
}

const counted = (list: readonly unknown[], what: string) =>
  list.length === 0 ? nothing : `${list.length} ${what}`;
const listInWords = (list: readonly unknown[], nameOf: NameOf) =>
  list.map((each) => (isGroup(each) ? "…" : inWords(each, nameOf))).join(", ") || nothing;
