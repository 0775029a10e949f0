import { placesOf, whereInWords } from "../library/places.ts";
import type { Valve } from "../records/valve.ts";
import { plainSerial } from "../serial.ts";
import type { Draft } from "./changes.ts";
import { pocketSizes, valveKinds } from "./choices.ts";
import { byPlainName, type Reading } from "./reading.ts";
import { merged, type RowValues } from "./rowValues.ts";
import { valveFields, valveRemarks } from "./valveFields.ts";

const optionsOf = (choices: readonly { readonly value: string }[]) =>
  choices.map(({ value }) => ({ value, label: value }));

/** The valves of a table, each by its serial, new or as it was with what the row says. */
export class ValveDrafts {
  private readonly reading: Reading;
  private readonly known;
  private readonly rowOf = new Map<string, number>();
  readonly drafts = new Map<string, Draft<"valves">>();

  constructor(reading: Reading) {
    this.reading = reading;
    this.known = byPlainName(reading.library.valves, (valve) => valve.serial, plainSerial);
  }

  /** @returns the valve's draft, or undefined where the row cannot stand as it is */
  take(row: RowValues, isStock: boolean): Draft<"valves"> | undefined {
    const { reading } = this;
    const name = String(row.values.get("serial"));
    const key = plainSerial(name);
    if (key === "") {
      reading.complain(
        [row.row],
        "serial",
        "has no letter and no digit in it",
        "Write the serial that is on the valve's body.",
        name,
      );
      return undefined;
    }
    const earlier = this.rowOf.get(key);
    if (earlier !== undefined) {
      reading.complain(
        [earlier, row.row],
        "serial",
        "is there twice (blanks, dashes and capitals do not count)",
        "A valve is in one place: correct one of the serials, or leave out one of the rows.",
        name,
      );
      return undefined;
    }
    this.rowOf.set(key, row.row);
    if (this.known.twice.has(key)) {
      reading.complain(
        [row.row],
        "serial",
        "is the serial of two valves here already",
        "Correct one of them in the library first.",
        name,
      );
      return undefined;
    }
    const before = this.known.found.get(key);
    const after = this.filled(row, before, name, isStock);
    if (!after) return undefined;
    const draft = { kind: "valves", before, after, rows: [row.row] } as const;
    this.drafts.set(after.id, draft);
    return draft;
  }

  private filled(
    row: RowValues,
    before: Valve | undefined,
    name: string,
    isStock: boolean,
  ): Valve | undefined {
    const { reading } = this;
    const fields = isStock ? [...valveFields, valveRemarks] : valveFields;
    const start = before ?? ({ id: reading.newId(), revision: 1, serial: name } as Valve);
    let after = merged(start, fields, row);
    if (!before) {
      const kind =
        row.values.get("valveKind") ??
        this.forAll(row, "valveKind", "Kind of the valves", optionsOf(valveKinds));
      const pocket = row.values.get("pocket");
      const size =
        row.values.get("valveSize") ??
        // A valve has the nominal size of the pocket it sits in.
        (pocketSizes.some(({ value }) => value === pocket) ? pocket : undefined) ??
        this.forAll(row, "valveSize", "Size of the valves", optionsOf(pocketSizes));
      // Asked for the whole table: this row is not at fault.
      if (kind === undefined || size === undefined) return undefined;
      after = { ...after, kind: kind as Valve["kind"], size: size as Valve["size"] };
    }
    return this.withCard(row, before, after);
  }

  private forAll(
    { bad }: RowValues,
    id: string,
    what: string,
    options: { value: string; label: string }[],
  ): string | undefined {
    if (bad.has(id)) return undefined;
    return this.reading.answer({
      id,
      ask: `${what}, where the table does not say`,
      means: "For valves that are new here.",
      answer: { kind: "choice", options },
    });
  }

  /** A figure of the shop's card needs its day; a day, its figure. */
  private withCard(row: RowValues, before: Valve | undefined, after: Valve): Valve | undefined {
    const { card } = after;
    if (!card) return after;
    if (row.bad.has("testRack") || row.bad.has("testDay")) return undefined;
    if (card.testRackOpening60F === undefined) {
      const field = row.values.has("testDay") ? "testDay" : "testBy";
      this.reading.complain(
        [row.row],
        field,
        "said of a test whose opening pressure is not given",
        "Give the test-rack opening in this row too, or clear this cell.",
      );
      return undefined;
    }
    const isNewFigure = card.testRackOpening60F !== before?.card?.testRackOpening60F;
    if (!isNewFigure || row.values.has("testDay")) return after;
    const day = this.reading.answer({
      id: "testDay",
      ask: "Day of the shop's test, where the table does not say",
      means: "A test-rack opening is kept with the day of its test.",
      answer: { kind: "day" },
    });
    return day === undefined ? undefined : { ...after, card: { ...card, day } };
  }
}

/** A table of valves that are in no pocket. */
export function stockDrafts(reading: Reading, rows: readonly RowValues[]): Draft[] {
  const valves = new ValveDrafts(reading);
  const places = placesOf(reading.library.wells);
  for (const row of rows) {
    if (!row.values.has("serial")) {
      reading.complain(
        [row.row],
        "serial",
        "no serial",
        "Write the valve's serial, or leave the row out.",
      );
      continue;
    }
    const draft = valves.take(row, true);
    if (!draft) continue;
    if (row.bad.has("valveState")) continue;
    const state = row.values.get("valveState") ?? stateForAll(reading);
    const isPlaced = draft.before !== undefined && places.has(draft.before.id);
    if (isPlaced && state !== undefined && state !== "not said") {
      reading.complain(
        [row.row],
        row.values.has("valveState") ? "valveState" : "serial",
        `does not fit: ${draft.after.serial} is ${whereInWords(draft.after, places)} by the well's record`,
        `Take it out of that pocket in the well's record first, leave the row out, or say that the table does not tell where valves are.`,
        String(state),
      );
    }
    if (state !== undefined && state !== "not said" && !isSameState(draft, state)) {
      valves.drafts.set(draft.after.id, {
        ...draft,
        after: { ...draft.after, state: state as Valve["state"] } as Valve,
      });
    }
  }
  return [...valves.drafts.values()];
}

const isSameState = (draft: Draft<"valves">, state: unknown) =>
  draft.before ? (draft.before.state ?? "in stock") === state : draft.after.state === state;

const stateForAll = (reading: Reading) =>
  reading.answer({
    id: "valveState",
    ask: "Where are the valves of this table, where it does not say?",
    means: "A valve in a pocket is known by its well's record.",
    answer: {
      kind: "choice",
      options: [
        { value: "in stock", label: "in stock" },
        { value: "pulled", label: "pulled" },
        { value: "scrapped", label: "scrapped" },
        { value: "not said", label: "the table does not tell" },
      ],
    },
  });
