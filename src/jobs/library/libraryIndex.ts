import type { RecordTypes } from "../store/library.ts";
import type { Store } from "../store/store.ts";
import { entryOf, type LibraryKind, libraryKinds, type Shelved } from "./entry.ts";
import { type Place, type Places, pocketsNaming } from "./places.ts";
import { type LibraryProblem, problemsOf } from "./problems.ts";
import { emptyShelves, type Shelves } from "./search.ts";
import { Segment } from "./segment.ts";

/** The library as it is looked up in, as far as it has been read. */
export interface LibraryView {
  readonly shelves: Shelves;
  readonly places: Places;
  readonly problems: readonly LibraryProblem[];
  /** how many records have been read so far, until all are */
  readonly reading: number | undefined;
}

/** Records read at a time: so few that a key pressed meanwhile is answered in time. A well is large. */
const PAGE: Readonly<Record<LibraryKind, number>> = {
  wells: 100,
  valves: 500,
  tools: 500,
  strings: 50,
  lines: 500,
  stacks: 500,
  policies: 500,
};
/** Records of a segment: it is made between two keys. */
const SEGMENT = 3000;

/**
 * Every record of the library as it is searched, read in the background and kept in step with the store: what was
 * changed, in this window or in another, is read again by its kind while what was read before stays.
 */
export class LibraryIndex {
  readonly #store: Pick<Store, "page" | "onRecords">;
  readonly #listeners = new Set<() => void>();
  readonly #stale = new Set<LibraryKind>(libraryKinds);
  #places = new Map<string, Place[]>();
  #view: LibraryView = { shelves: emptyShelves, places: new Map(), problems: [], reading: 0 };
  #underWay: Promise<void> | undefined;

  constructor(store: Pick<Store, "page" | "onRecords">) {
    this.#store = store;
    store.onRecords((changed) => {
      const kind = libraryKinds.find((each) => each === changed);
      if (!kind) return;
      this.#stale.add(kind);
      // A valve is found by its well, too.
      if (kind === "wells") this.#stale.add("valves");
      // Where nobody looks it is read when somebody does.
      if (this.#listeners.size > 0) void this.upToDate().catch(() => {});
    });
  }

  readonly view = (): LibraryView => this.#view;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    void this.upToDate().catch(() => {});
    return () => this.#listeners.delete(listener);
  };

  /**
   * Settles when everything that is in the store by now has been read.
   *
   * @throws StoreFailed when the store does not answer; what was read before stays
   */
  async upToDate(): Promise<LibraryView> {
    while (this.#stale.size > 0) {
      this.#underWay ??= this.#read().finally(() => {
        this.#underWay = undefined;
      });
      await this.#underWay;
    }
    return this.#view;
  }

  async #read(): Promise<void> {
    const isFirst = this.#view.reading !== undefined;
    for (const kind of libraryKinds) {
      if (!this.#stale.delete(kind)) continue;
      try {
        await this.#readKind(kind, isFirst);
      } catch (error) {
        this.#stale.add(kind);
        throw error;
      }
    }
    const { shelves, places } = this.#view;
    this.#show({ problems: problemsOf(shelves, places), reading: undefined });
  }

  async #readKind<K extends LibraryKind>(kind: K, isFirst: boolean): Promise<void> {
    if (kind === "wells") this.#places = new Map();
    const segments: Segment[] = [];
    let entries: Shelved[] = [];
    let reading = this.#view.reading ?? 0;
    for (let after = "", isOver = false; !isOver; ) {
      const page: readonly RecordTypes[K][] = await this.#store.page(kind, after, PAGE[kind]);
      for (const record of page) entries.push(this.#entry(kind, record));
      after = page.at(-1)?.id ?? after;
      isOver = page.length < PAGE[kind];
      if (!isOver && entries.length < SEGMENT) continue;
      segments.push(new Segment(entries));
      reading += entries.length;
      entries = [];
      // What was read first is found before the rest is read; later there is something whole to look in meanwhile.
      if (isFirst) this.#put(kind, [...segments], reading);
    }
    if (!isFirst) this.#put(kind, segments, undefined);
  }

  #entry<K extends LibraryKind>(kind: K, record: RecordTypes[K]): Shelved {
    if (kind === "wells") {
      for (const [valve, place] of pocketsNaming(record as RecordTypes["wells"])) {
        this.#places.set(valve, [...(this.#places.get(valve) ?? []), place]);
      }
    }
    const wells = this.#places.get(record.id)?.map(({ wellName }) => wellName);
    return entryOf(kind, record, wells?.join(" "));
  }

  #put(kind: LibraryKind, segments: readonly Segment[], reading: number | undefined): void {
    this.#show({
      shelves: { ...this.#view.shelves, [kind]: segments },
      ...(kind === "wells" && { places: this.#places }),
      reading,
    });
  }

  #show(change: Partial<LibraryView>): void {
    this.#view = { ...this.#view, ...change };
    for (const listener of this.#listeners) listener();
  }
}
