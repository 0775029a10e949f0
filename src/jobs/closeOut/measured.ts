import { fieldById, stepById } from "../sheet/walk.ts";
import { type HoldState, holdStates } from "../state/holdState.ts";
import {
  asked,
  type CloseOutLine,
  type CloseOutSection,
  joined,
  type Of,
  type Pocket,
} from "./line.ts";
import { isEmptyPocket } from "./valves.ts";

type Values = readonly (string | undefined)[];
const casingAndWellhead = (...[casing, wellhead, gas, liquid]: Values) =>
  joined(
    casing && `casing ${casing}`,
    wellhead && `wellhead ${wellhead}`,
    gas && `gas ${gas}`,
    liquid && `liquid ${liquid}`,
  );

/** Whether a step is on this job's sheet: a catcher, and the second proof of a dummy, are not on all. */
const isOn = ({ programme }: Of, step: string) => stepById(programme.sheet, step) !== undefined;

export function depths(of: Of, pockets: readonly Pocket[]): CloseOutSection {
  return {
    id: "depths",
    title: "Depths tagged, along hole",
    lines: [
      asked(of, {
        id: "gauge-depth",
        label: "Gauge",
        step: "gauge-down",
        fields: ["gauge-depth", "gauge-diameter", "fluid-level"],
        words: (depth, diameter, level) =>
          joined(depth, diameter && `diameter ${diameter}`, level && `fluid level ${level}`),
      }),
      asked(of, {
        id: "known-counter",
        label: "Known point",
        step: "correlate",
        fields: ["known-counter", "known-is", "known-depth"],
        words: (counter, is, depth) => joined(counter, is, depth && `${depth} on the schematic`),
      }),
      ...(isOn(of, "catcher-set")
        ? [
            asked(of, {
              id: "catcher-depth",
              label: "Catcher",
              step: "catcher-set",
              fields: ["catcher-depth"],
            }),
          ]
        : []),
      ...pockets.flatMap((pocket) => [
        asked(of, {
          id: "tagged",
          label: "Neighbouring mandrels",
          step: "locate",
          fields: ["tagged-above", "tagged-below"],
          any: true,
          pocket,
          words: (above, below) => joined(above && `above ${above}`, below && `below ${below}`),
        }),
        asked(of, {
          id: "pocket-depth",
          label: isEmptyPocket(pocket) ? "Resting in the pocket" : "Resting on the latch",
          step: "locate",
          fields: ["pocket-depth"],
          pocket,
        }),
        asked(of, {
          id: "set-depth",
          label: "Standing in the pocket, set string",
          step: "enter",
          fields: ["set-depth"],
          pocket,
        }),
      ]),
    ],
  };
}

export function pressures(of: Of, pockets: readonly Pocket[]): CloseOutSection {
  const both = (step: string, name: string, label: string, pocket?: Pocket) =>
    asked(of, {
      id: `${name}-pressures`,
      label,
      step,
      fields: [`${name}-casing`, `${name}-wellhead`],
      ...(pocket && { pocket }),
      words: casingAndWellhead,
      timed: true,
    });
  return {
    id: "pressures",
    title: "Pressures at surface",
    lines: [
      both("as-found", "as-found", "As found"),
      ...pockets.flatMap((pocket) => [
        both("level-first", "level-first", "Equalising, at the start", pocket),
        ...(isEmptyPocket(pocket)
          ? []
          : [
              both("level-last", "level-last", "Equalising, before the first blow", pocket),
              both("jar-out", "free", "When the valve was free", pocket),
            ]),
        both("pocket-open", "pocket-open", "With the pocket open", pocket),
        both("proof-start", "proof-start", "Proof, start", pocket),
        both("proof-end", "proof-end", "Proof, end", pocket),
        ...(isOn(of, `proof-back-start${pocket.suffix}`)
          ? [
              both("proof-back-start", "proof-back-start", "Second proof, start", pocket),
              both("proof-back-end", "proof-back-end", "Second proof, end", pocket),
            ]
          : []),
      ]),
      asked(of, {
        id: "final-pressures",
        label: "When left",
        step: "injection",
        fields: ["final-casing", "final-wellhead", "final-gas", "final-liquid"],
        words: casingAndWellhead,
        timed: true,
      }),
    ],
  };
}

export function weights(of: Of, pockets: readonly Pocket[]): CloseOutSection {
  return {
    id: "weights",
    title: "Weights and pulls",
    lines: [
      asked(of, {
        id: "hanging",
        label: "Gauge string at the mandrel",
        step: "gauge-down",
        fields: ["hanging", "pick-up", "slack-off"],
        words: (hanging, up, off) =>
          joined(`hanging ${hanging}`, up && `picking up ${up}`, off && `slacking off ${off}`),
      }),
      ...pockets.flatMap((pocket) => [
        ...(isEmptyPocket(pocket)
          ? []
          : [
              asked(of, {
                id: "pull-largest",
                label: "Largest pull, jarring out",
                step: "jar-out",
                fields: ["pull-largest", "pull-hits", "pull-free"],
                pocket,
                words: (largest, hits, free) => joined(largest, hits && `${hits} hits`, free),
              }),
            ]),
        asked(of, {
          id: "set-pick-up",
          label: "Set string picking up above the pocket",
          step: "enter",
          fields: ["set-pick-up"],
          pocket,
        }),
        asked(of, {
          id: "test-pull",
          label: "Test pull on the latch",
          step: "test-pull",
          fields: ["test-pull-force", "test-pull-held"],
          pocket,
        }),
        asked(of, {
          id: "shear-largest",
          label: "Largest pull, shearing off",
          step: "shear",
          fields: ["shear-largest", "shear-hits"],
          pocket,
          words: (largest, hits) => joined(largest, hits && `${hits} hits`),
        }),
      ]),
    ],
  };
}

/** Pressure tests with what they came to; a union is tested anew whenever it was broken. */
export function tests(of: Of, pockets: readonly Pocket[]): CloseOutSection {
  const { state, now, writer } = of;
  const hold = holdStates(state, now, writer).get("pressure-test-hold");
  const once = (name: string, label: string): CloseOutLine[] =>
    isOn(of, `${name}-string-on`) ? [union(of, name, label)] : [];
  return {
    id: "tests",
    title: "Tests",
    lines: [
      stackTest(of, "low", "Low pressure test", hold),
      stackTest(of, "high", "High pressure test", hold),
      ...once("catcher", "Union broken for the catcher's string"),
      ...pockets.flatMap((pocket) => [
        union(of, "pull", "Union broken for the pull string", pocket),
        union(of, "set", "Union broken for the set string", pocket),
      ]),
      ...once("fetch", "Union broken to fetch the catcher"),
    ],
  };
}

function stackTest(of: Of, name: string, label: string, hold: HoldState | undefined) {
  const condition = hold?.conditions.find((each) => each.condition.id === name);
  const line = asked(of, {
    id: `${name}-test`,
    label,
    step: `${name}-test`,
    fields: [`${name}-start`, `${name}-end`, `${name}-held`],
    words: (start, end, held) => joined(`${start} to ${end ?? "?"}`, held && `in ${held}`),
  });
  if (line.gap || !condition) return line;
  const outcome = {
    met: "Held.",
    "not met": condition.says,
    "not known": condition.says,
    excepted: `Let pass: ${condition.exception?.reason ?? ""}`,
  }[condition.state];
  return { ...line, says: `${line.says}. ${outcome}` };
}

function union(of: Of, name: string, label: string, pocket?: Pocket): CloseOutLine {
  const field = fieldById(of.programme.sheet, `${name}-union-pressure${pocket?.suffix ?? ""}`);
  // A sheet of before this was asked for says whether it held, and not to which pressure.
  const [pressure, held] = [`${name}-union-pressure`, `${name}-union`];
  return asked(of, {
    id: `${name}-union`,
    label,
    step: `${name}-string-on`,
    fields: field ? [pressure, held] : [held],
    ...(pocket && { pocket }),
    words: (...values) =>
      field
        ? joined(`tested to ${values[0]}`, values[1] && `held: ${values[1]}`)
        : `held: ${values[0]}; to which pressure this job's run sheet does not ask`,
  });
}
