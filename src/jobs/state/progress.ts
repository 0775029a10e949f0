import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import type { Phase, Step } from "../sheet/sheet.ts";
import { type HoldState, holdStates } from "./holdState.ts";
import type { JobState } from "./jobState.ts";

interface Placed {
  readonly phase: Phase;
  /** nothing more to do here before the sheet goes on */
  readonly complete: boolean;
}
export interface StepState extends Placed {
  readonly type: "step";
  readonly id: string;
  readonly step: Step;
  readonly status: "done" | "left out" | "open";
  readonly event?: JobEvent;
}
export interface HoldItem extends Placed {
  readonly type: "hold";
  readonly id: string;
  readonly hold: HoldState;
}
export type ItemState = StepState | HoldItem;

/** Where a run stands: every step and hold point, and the one that is next. */
export interface Progress {
  readonly items: readonly ItemState[];
  /** undefined when everything is done */
  readonly current: ItemState | undefined;
}

export function progressOf(state: JobState, now: string, writer: Writer): Progress {
  const phases = state.programme?.sheet.phases ?? [];
  const holds = holdStates(state, now, writer);
  const items = phases.flatMap((phase) =>
    phase.items.map((item): ItemState => {
      if (item.type === "hold") {
        const hold = holds.get(item.hold.id) as HoldState;
        const complete = hold.stands || hold.served;
        return { type: "hold", id: item.hold.id, phase, hold, complete };
      }
      const { step } = item;
      const done = state.done.get(step.id);
      const left = state.leftOut.get(step.id);
      const event = done ?? left?.event;
      return {
        type: "step",
        id: step.id,
        phase,
        step,
        status: done ? "done" : left ? "left out" : "open",
        complete: event !== undefined,
        ...(event && { event }),
      };
    }),
  );
  return { items, current: items.find((item) => !item.complete) };
}
