import type { EntryValue, EventBody, JobEvent } from "../../src/jobs/log/event.ts";

type BodyOf<T extends EventBody["type"]> = Extract<EventBody, { type: T }>;
type EventOf<T extends EventBody["type"]> = JobEvent & { readonly body: BodyOf<T> };
type Hold = "h1" | "h2";

/** What a field reads, who said so last, and which reading that is of. */
interface Standing {
  readonly of: JobEvent;
  readonly value: EntryValue;
  readonly says: string;
}

/** The small sheet in the order it is worked, and which step a hold point guards. */
const ITEMS = ["a", "h1", "b", "c", "h2", "d", "e"];
const STEPS_BEFORE: Readonly<Record<Hold, readonly string[]>> = {
  h1: ["a"],
  h2: ["a", "b", "c"],
};
const GUARDS: Readonly<Record<Hold, string>> = { h1: "b", h2: "e" };
const RELEASED_BY: Readonly<Record<Hold, readonly string[]>> = {
  h1: ["wireline supervisor"],
  h2: ["wireline supervisor", "winch operator"],
};

/**
 * What a log of the small sheet means, said once more: slow, without a pass over the log, and with nothing of the
 * code it is held against. Every question is asked of the whole list of events.
 */
export class PlainLog {
  readonly events: readonly JobEvent[];
  private readonly byHash: ReadonlyMap<string, JobEvent>;
  private readonly back: readonly EventOf<"went back">[];

  constructor(events: readonly JobEvent[]) {
    this.byHash = new Map(events.map((event) => [event.hash, event]));
    this.events = [...events].sort((a, b) => a.tick - b.tick || (a.device < b.device ? -1 : 1));
    this.back = this.all("went back");
  }

  all<T extends EventBody["type"]>(type: T): EventOf<T>[] {
    return this.events.filter((event): event is EventOf<T> => event.body.type === type);
  }

  /** Of the attempt that is being made: whoever wrote it knew of every going back to before this item. */
  counts(event: JobEvent, item: string): boolean {
    return this.back.every(
      (back) => ITEMS.indexOf(back.body.to) > ITEMS.indexOf(item) || saw(event, back),
    );
  }

  isDone(step: string): boolean {
    return this.all("step done").some((e) => e.body.step === step && this.counts(e, step));
  }

  /** Each time a step was done by somebody who did not know that it had been; done once more by the same, it is not. */
  doneApart(): EventOf<"step done">[] {
    const done = this.all("step done");
    const apart: EventOf<"step done">[] = [];
    for (const event of done) {
      const same = (each: EventOf<"step done">) => each.body.step === event.body.step;
      const before = done.slice(0, done.indexOf(event)).filter(same);
      const unknown = before.some((each) => !saw(event, each));
      if (unknown && !apart.some((each) => same(each) && saw(event, each))) apart.push(event);
    }
    return apart;
  }

  isLeftOut(step: string): boolean {
    return this.all("step left out").some((e) => e.body.step === step && this.counts(e, step));
  }

  /** Something went wrong and is not closed, or somebody stands by. */
  get waits(): boolean {
    const closed = this.all("branch closed").map(({ body }) => body.opened);
    if (this.all("branch opened").some(({ hash }) => !closed.includes(hash))) return true;
    let standbys = 0;
    for (const { body } of this.events) {
      if (body.type === "standby started") standbys += 1;
      if (body.type === "standby ended") standbys = Math.max(0, standbys - 1);
    }
    return standbys > 0;
  }

  /** Questions that nobody answered, by hash. */
  get unanswered(): string[] {
    const answered = this.all("question answered").map(({ body }) => body.question);
    const asked = this.all("question asked").map(({ hash }) => hash);
    return asked.filter((hash) => !answered.includes(hash));
  }

  /** Readings on lift that stand: of those that correct one another, whichever they name, the last. */
  onLift(): EventOf<"lift observed">[] {
    const all = this.all("lift observed");
    const first = ({ body, hash }: EventOf<"lift observed">): string => {
      const of = all.find((each) => each.hash === body.corrects?.event);
      return of ? first(of) : hash;
    };
    return all.filter((event) => all.findLast((each) => first(each) === first(event)) === event);
  }

  /** Where the guarded step was done; undefined while it is not. */
  servedAt(hold: Hold): number | undefined {
    const step = GUARDS[hold];
    const place = this.events.findIndex(
      (e) => e.body.type === "step done" && e.body.step === step && this.counts(e, step),
    );
    return place === -1 ? undefined : place;
  }

  /** Everything that was said of a field in this attempt and that nobody who spoke of it since had seen. */
  private unseen(field: string): { readonly event: JobEvent; readonly value: EntryValue }[] {
    const said = this.events.flatMap((event) => {
      const of = this.origin(event.hash);
      const value = this.valueSaid(event, field);
      const step = of?.body.type === "readings taken" ? of.body.step : undefined;
      return of && value && step && this.counts(of, step) ? [{ event, value }] : [];
    });
    return said.filter(({ event }) => !said.some((later) => saw(later.event, event)));
  }

  /** What two tablets say of a field without having known of each other, where they differ. */
  differing(field: string): JobEvent[] {
    const unseen = this.unseen(field);
    const values = new Set(unseen.map(({ value }) => JSON.stringify(Object.entries(value).sort())));
    return values.size > 1 ? unseen.map(({ event }) => event) : [];
  }

  /** What a field reads. @param before place in the log: readings taken from there on are left out */
  standing(field: string, before = Number.POSITIVE_INFINITY): Standing | undefined {
    const list: Standing[] = [];
    const placeOf = (hash: string) => list.findIndex(({ of }) => of === this.origin(hash));
    for (const [index, event] of this.events.entries()) {
      const { body } = event;
      const value = this.valueSaid(event, field);
      if (!value) continue;
      if (body.type === "readings taken" && index < before) {
        list.push({ of: event, value, says: event.hash });
      }
      if (body.type === "correction") {
        const place = placeOf(body.corrects);
        const reading = list[place];
        if (reading) list[place] = { ...reading, value, says: event.hash };
      }
      if (body.type === "conflict settled") {
        const place = placeOf(body.stands);
        const reading = list[place];
        const last = Math.max(place, ...body.over.map(placeOf));
        if (!reading) continue;
        list.splice(last + 1, 0, { ...reading, value, says: event.hash });
        list.splice(place, 1);
      }
    }
    return list.findLast(
      ({ of }) => of.body.type === "readings taken" && this.counts(of, of.body.step),
    );
  }

  /** The reading that an event took, corrected or settled. */
  private origin(hash: string): JobEvent | undefined {
    const event = this.byHash.get(hash);
    if (event?.body.type === "correction") return this.origin(event.body.corrects);
    return event?.body.type === "conflict settled" ? this.origin(event.body.stands) : event;
  }

  /** What an event says that a field reads. */
  private valueSaid({ body }: JobEvent, field: string): EntryValue | undefined {
    if (body.type === "readings taken") {
      return body.entries.find((entry) => entry.field === field)?.value;
    }
    if (body.type === "correction" && body.field === field) return body.value;
    if (body.type !== "conflict settled" || body.field !== field) return undefined;
    const stands = this.byHash.get(body.stands);
    return stands && this.valueSaid(stands, field);
  }

  private isYes(field: string, before?: number): boolean {
    const value = this.standing(field, before)?.value;
    return value?.kind === "choice" && value.choice === "yes";
  }

  /** The pressure lies inside, or an engineer let exactly these readings pass. */
  private isInside(before?: number): boolean {
    const standing = this.standing("a-pressure", before);
    const differing = before === undefined ? this.differing("a-pressure") : [];
    const value = standing?.value;
    const inside = value?.kind === "quantity" && value.value >= 0 && value.value <= 100;
    if (inside && differing.length === 0) return true;
    const basis = new Set(differing.map(({ hash }) => hash));
    if (standing) basis.add(standing.says);
    const last = this.all("exception granted").findLast((e) => this.counts(e, "h1"));
    return (
      last !== undefined &&
      last.body.basis.length === basis.size &&
      last.body.basis.every((hash) => basis.has(hash))
    );
  }

  /** Ids of the conditions of a hold point that are open now, but for signatures. */
  open(hold: Hold): string[] {
    const agreed = (field: string) => this.differing(field).length === 0;
    const found: readonly (readonly [string, boolean])[] =
      hold === "h1"
        ? [
            ["a-yes", agreed("a-answer") && this.isYes("a-answer")],
            ["a-inside", this.isInside()],
          ]
        : [
            ["a-still-yes", agreed("a-answer") && this.isYes("a-answer")],
            ["c-yes", agreed("c-answer") && this.isYes("c-answer")],
            ["c-noted", agreed("c-note") && this.standing("c-note") !== undefined],
          ];
    return found.flatMap(([id, met]) => (met ? [] : [id]));
  }

  /** Whether the readings that a hold point was served on still say, as corrected since, what it asks for. */
  wasServedWell(hold: Hold): boolean {
    const before = this.servedAt(hold);
    if (!this.isYes("a-answer", before)) return false;
    if (hold === "h1") return this.isInside(before);
    return this.isYes("c-answer", before) && this.standing("c-note", before) !== undefined;
  }

  /** Whether the second person has signed what stands now. */
  isSigned(hold: Hold): boolean {
    if (hold === "h2") return true;
    const fields = ["a-answer", "a-pressure"];
    const basis = fields.flatMap((field) => {
      const says = this.standing(field)?.says;
      return [...this.differing(field).map(({ hash }) => hash), ...(says ? [says] : [])];
    });
    const placeOf = (hash: string) => this.events.findIndex((each) => each.hash === hash);
    const signed = this.all("hold signed").findLast(
      (e) => e.body.hold === hold && e.body.by.role === "field operator" && this.counts(e, "h1"),
    );
    return signed !== undefined && basis.every((hash) => placeOf(hash) < placeOf(signed.hash));
  }

  /** Whether a hold point that does not stand may be released by somebody. */
  mayRelease(hold: Hold, role: string): boolean {
    return (
      !this.waits &&
      RELEASED_BY[hold].includes(role) &&
      this.servedAt(hold) === undefined &&
      STEPS_BEFORE[hold].every((step) => this.isDone(step) || this.isLeftOut(step)) &&
      this.open(hold).length === 0 &&
      this.isSigned(hold)
    );
  }
}

/** Whether whoever wrote one event had the other on their tablet. */
function saw(later: JobEvent, earlier: JobEvent): boolean {
  if (later.device === earlier.device) return later.sequence > earlier.sequence;
  if (later.format === 1) throw new Error("the test writes no format 1");
  return (later.seen[earlier.device] ?? 0) >= earlier.sequence;
}
