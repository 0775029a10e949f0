import type { JobEvent } from "../log/event.ts";
import type { Sheet } from "../sheet/sheet.ts";
import { itemId, itemsOf } from "../sheet/walk.ts";
import { wasAgainBy } from "./attempts.ts";
import { DoneSteps } from "./doneSteps.ts";
import type {
  Branch,
  CrewChange,
  DoneBefore,
  Exception,
  GoneBack,
  JobState,
  LiftObserved,
  Note,
  Photograph,
  Question,
  Release,
  Review,
  Signature,
  Stage,
  Standby,
  Unfollowed,
} from "./jobState.ts";
import { Readings } from "./readings.ts";

/**
 * A log being read, event by event. `state` is a live view: it shows what was read so far and changes with
 * the next event, so that a whole log costs one pass.
 */
export class LogReader {
  private readonly events: JobEvent[] = [];
  private readonly issues: JobEvent[] = [];
  private readonly readings = new Readings();
  private readonly done = new DoneSteps();
  private readonly leftOut = new Map<string, { reason: string; event: JobEvent }>();
  private readonly signatures: Signature[] = [];
  private readonly releases: Release[] = [];
  private readonly exceptions: Exception[] = [];
  private readonly notes: Note[] = [];
  private readonly branches: Branch[] = [];
  private readonly goneBack: GoneBack[] = [];
  private readonly doneBefore: DoneBefore[] = [];
  private readonly standbys: Standby[] = [];
  private readonly crewChanges: CrewChange[] = [];
  private readonly photographs: Photograph[] = [];
  private readonly observed: LiftObserved[] = [];
  private readonly questions: Question[] = [];
  private readonly reviews: Review[] = [];
  private readonly unfollowed: Unfollowed[] = [];
  private readonly position = new Map<string, number>();
  private stage: Stage = "draft";
  private issued: JobEvent | undefined;
  private started: JobEvent | undefined;
  private closed: JobEvent | undefined;
  private decidedBy: Review | undefined;

  get state(): JobState {
    const issue = this.issue;
    return {
      events: this.events,
      stage: this.stage,
      programme: issue?.programme,
      revision: issue?.revision ?? 0,
      issued: this.issued,
      started: this.started,
      closed: this.closed,
      readings: this.readings.all,
      done: this.done.standing,
      leftOut: this.leftOut,
      signatures: this.signatures,
      releases: this.releases,
      exceptions: this.exceptions,
      notes: this.notes,
      branches: this.branches,
      goneBack: this.goneBack,
      doneBefore: this.doneBefore,
      doneApart: this.done.apart,
      standbys: this.standbys,
      crewChanges: this.crewChanges,
      photographs: this.photographs,
      conflicts: this.readings.conflicts,
      observed: this.observed,
      questions: this.questions,
      reviews: this.reviews,
      decidedBy: this.decidedBy,
      unfollowed: this.unfollowed,
      position: this.position,
    };
  }

  /** Takes in the next event in log order. */
  read(event: JobEvent): void {
    const { body } = event;
    const index = this.events.length;
    this.events.push(event);
    this.position.set(event.hash, index);
    switch (body.type) {
      case "programme issued":
        this.issues.push(event);
        if (this.started) {
          this.unfollowed.push({
            event,
            why: `Revision ${body.revision} was issued without knowing that the run had been started. The crew works on the revision it started with.`,
          });
          return;
        }
        this.issued = event;
        if (this.stage === "draft") this.stage = "issued";
        return;
      case "run started":
        this.start(event, body.programme);
        return;
      case "readings taken":
        for (const entry of body.entries) {
          const again = this.wasAgain(event, body.step);
          this.unlessFits(event, this.readings.take(event, body, entry, this.sheet, again));
        }
        this.done.lookAgain(body, this.readings, this.sheet);
        return;
      case "correction":
        this.unlessFits(event, this.readings.correct(event, body, this.sheet));
        this.done.lookAgain(body, this.readings, this.sheet);
        return;
      case "conflict settled":
        this.unlessFits(event, this.readings.settle(event, body));
        this.done.lookAgain(body, this.readings, this.sheet);
        return;
      case "step done": {
        this.done.lookApart(event, body.step);
        const again = this.wasAgain(event, body.step);
        if (again) this.doneBefore.push({ event, step: body.step, again });
        else this.done.record(event, body.step);
        return;
      }
      case "step left out":
        if (this.wasAgain(event, body.step)) return;
        this.leftOut.set(body.step, { reason: body.reason, event });
        return;
      case "hold signed": {
        const { hold, by, drawn } = body;
        this.signatures.push({ event, hold, by, drawn, index, ...this.setAsideOf(event, hold) });
        return;
      }
      case "hold released":
        this.releases.push({ event, hold: body.hold, basis: body.basis });
        return;
      case "exception granted":
        this.exceptions.push({ event, ...body, ...this.setAsideOf(event, body.hold) });
        return;
      case "note":
        this.notes.push({ event, step: body.step, text: body.text });
        return;
      case "went back":
        this.goBack(event, body.to, body.reason);
        return;
      case "branch opened":
        this.branches.push({ event, contingency: body.contingency, at: body.at });
        return;
      case "branch closed":
        this.closeBranch(event, body.opened, body.option, body.outcome);
        return;
      case "standby started":
        this.standbys.push({ event, reason: body.reason });
        return;
      case "standby ended":
        this.endStandby(event);
        return;
      case "crew changed": {
        const { by, to, state, drawn } = body;
        this.crewChanges.push({ event, by, to, state, drawn });
        return;
      }
      case "photograph": {
        const { picture, width, height, caption, at } = body;
        this.photographs.push({ event, picture, width, height, caption, at });
        return;
      }
      case "lift observed":
        this.observe(event, body);
        return;
      case "question asked":
        this.questions.push({ event, about: body.about, text: body.text, answers: [] });
        return;
      case "question answered":
        this.answer(event, body.question, body.text);
        return;
      case "run closed":
        this.closed = event;
        if (this.stage === "running" || this.stage === "sent back") this.stage = "closed";
        return;
      case "review": {
        const review = { event, decision: body.decision, remark: body.remark, heads: body.heads };
        this.reviews.push(review);
        if (this.stage === "closed") {
          this.stage = body.decision === "sent back" ? "sent back" : "approved";
          this.decidedBy = review;
        } else {
          this.unfollowed.push({
            event,
            why: `${event.actor.name} decided "${body.decision}" on a record that was ${this.stage} by then.`,
          });
        }
        return;
      }
    }
  }

  /** The crew names the programme it works on; one that another device issued meanwhile does not count. */
  private start(event: JobEvent, programme: string): void {
    if (this.started) {
      this.unfollowed.push({ event, why: "The run had been started on another tablet." });
      return;
    }
    this.started = event;
    const chosen = this.issues.find((issue) => issue.hash === programme);
    if (chosen && chosen !== this.issued && this.issued) {
      this.unfollowed.push({
        event: this.issued,
        why: "This revision had not reached the crew when it started. It works on the revision it had.",
      });
    }
    this.issued = chosen ?? this.issued;
    if (this.stage === "issued") this.stage = "running";
  }

  private get issue() {
    const body = this.issued?.body;
    return body?.type === "programme issued" ? body : undefined;
  }

  private get sheet(): Sheet | undefined {
    return this.issue?.programme.sheet;
  }

  private unlessFits(event: JobEvent, misfit: string | undefined): void {
    if (misfit !== undefined) this.unfollowed.push({ event, why: misfit });
  }

  /** Steps from an item on are open again; what was read in them proves nothing for the new attempt. */
  private goBack(event: JobEvent, to: string, reason: string): void {
    const items = this.sheet ? itemsOf(this.sheet) : [];
    const from = items.findIndex((item) => itemId(item) === to);
    if (from === -1) {
      this.unlessFits(event, `The run sheet has no step "${to}".`);
      return;
    }
    this.goneBack.push({ event, to, reason });
    const again = new Set(items.slice(from).map(itemId));
    for (const step of again) {
      const done = this.done.open(step);
      if (done) this.doneBefore.push({ event: done, step, again: event });
      this.leftOut.delete(step);
    }
    this.readings.setAside(again, event);
    setAside(this.signatures, again, event);
    setAside(this.exceptions, again, event);
  }

  private wasAgain(event: JobEvent, item: string): JobEvent | undefined {
    return wasAgainBy(event, item, { goneBack: this.goneBack, programme: this.issue?.programme });
  }

  private setAsideOf(event: JobEvent, hold: string): { setAside?: JobEvent } {
    const again = this.wasAgain(event, hold);
    return again ? { setAside: again } : {};
  }

  private closeBranch(
    event: JobEvent,
    opened: string,
    option: string | undefined,
    outcome: string,
  ): void {
    const index = this.branches.findIndex((branch) => branch.event.hash === opened);
    const branch = this.branches[index];
    if (!branch || branch.closed) {
      this.unlessFits(
        event,
        branch
          ? "What went wrong had been closed on another tablet."
          : "It closes something that was not opened.",
      );
      return;
    }
    this.branches[index] = { ...branch, closed: { event, option, outcome } };
  }

  private observe(event: JobEvent, observed: LiftObserved["observed"]): void {
    const { corrects } = observed;
    if (corrects) {
      const index = this.standingFor(corrects.event);
      const wrong = this.observed[index];
      if (!wrong) {
        this.unlessFits(event, "It corrects a reading on lift that is not there.");
        return;
      }
      const apart = wrong.event.hash !== corrects.event;
      this.observed[index] = { ...wrong, corrected: { event, reason: corrects.reason, apart } };
    }
    this.observed.push({ event, observed });
  }

  /** Place of the reading on lift that stands where an event's did. */
  private standingFor(hash: string): number {
    const index = this.observed.findIndex(({ event }) => event.hash === hash);
    const by = this.observed[index]?.corrected?.event;
    // An event that came twice would stand for itself.
    return by && by.hash !== hash ? this.standingFor(by.hash) : index;
  }

  private answer(event: JobEvent, asked: string, text: string): void {
    const index = this.questions.findIndex((question) => question.event.hash === asked);
    const question = this.questions[index];
    if (!question) {
      this.unlessFits(event, "It answers a question that was not asked.");
      return;
    }
    this.questions[index] = { ...question, answers: [...question.answers, { event, text }] };
  }

  private endStandby(event: JobEvent): void {
    const index = this.standbys.findLastIndex(({ ended }) => !ended);
    const standby = this.standbys[index];
    if (!standby) {
      this.unlessFits(event, "There was no standby to end.");
      return;
    }
    this.standbys[index] = { ...standby, ended: event };
  }
}

/** What was signed or let pass at a hold point was so for the attempt before. */
function setAside<T extends Signature | Exception>(
  given: T[],
  holds: ReadonlySet<string>,
  again: JobEvent,
): void {
  for (const [index, each] of given.entries()) {
    if (holds.has(each.hold) && !each.setAside) given[index] = { ...each, setAside: again };
  }
}
