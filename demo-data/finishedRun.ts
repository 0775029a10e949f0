import type { Typed } from "../src/jobs/commands/entry.ts";
import type { TypedFields } from "../src/jobs/commands/run.ts";

/** What the crew of EM-03 entered, step by step. Invented. */
const psig = (text: string): Typed => ({ text, unit: "psig" });
const lbf = (text: string): Typed => ({ text, unit: "lbf" });
const ft = (text: string): Typed => ({ text, unit: "ft" });
const min = (text: string): Typed => ({ text, unit: "min" });
const said = (text: string): Typed => ({ text });

const barriers = (name: string): TypedFields => ({
  [`${name}-turns`]: said("14"),
  [`${name}-crown`]: said("held"),
  [`${name}-second-is`]: said("upper master valve"),
  [`${name}-second`]: said("held"),
  [`${name}-cavity`]: psig("0"),
  [`${name}-trapped`]: said("none"),
});

interface Entered {
  readonly fields: TypedFields;
  /** why it went over a limit */
  readonly standBy?: string;
  /** minutes the step took */
  readonly minutes: number;
}
const entered = (minutes: number, fields: TypedFields = {}): Entered => ({ minutes, fields });

export const finishedRun: Readonly<Record<string, Entered>> = {
  permit: entered(20, { "permit-number": said("P-0318"), "programme-read": said("yes") }),
  briefing: entered(15, { people: said("5"), "gas-test": said("clear") }),
  "lift-gas-off": entered(12, {
    "lift-gas-locked": said("yes"),
    "lift-gas-keeper": said("J. Corrow"),
  }),
  "safety-valves": entered(6, {
    "safety-valves-held": said("held"),
    "control-pressure": psig("2650"),
    "surface-valves": said("guarded"),
    "closure-ready": said("yes"),
  }),
  "as-found": entered(3, {
    "as-found-casing": psig("862"),
    "as-found-wellhead": psig("316"),
    gauges: said("G-21 and G-34"),
  }),
  "measure-strings": entered(25, { "strings-measured": said("yes") }),
  "first-barriers": entered(18, barriers("first")),
  "stack-up": entered(40, { "wire-valves-work": said("yes") }),
  "low-test": entered(9, {
    "low-start": psig("305"),
    "low-end": psig("304"),
    "low-held": min("5"),
  }),
  "high-test": entered(16, {
    "high-start": psig("1400"),
    "high-end": psig("1392"),
    "high-held": min("10"),
  }),
  "let-in": entered(8, {
    "open-turns": said("14"),
    "let-in-casing": psig("858"),
    "let-in-wellhead": psig("318"),
  }),
  zero: entered(4, {
    "zero-at": said("lower end of the gauge at the tree flange, corrected to rotary table"),
    "zero-seen": said("P. Linnet"),
  }),
  friction: entered(5, { "pull-in": lbf("72"), "pull-out": lbf("124") }),
  "weights-down": entered(18, {
    "upper-stop": ft("1200"),
    "upper-hanging": lbf("143"),
    "upper-pick-up": lbf("170"),
    "upper-slack-off": lbf("118"),
    "lower-stop": ft("2600"),
    "lower-hanging": lbf("186"),
    "lower-pick-up": lbf("214"),
    "lower-slack-off": lbf("158"),
  }),
  "gauge-down": entered(28, {
    "gauge-diameter": { text: "2.30", unit: "in" },
    "gauge-depth": ft("5568"),
    "fluid-level": ft("2870"),
    hanging: lbf("218"),
    "pick-up": lbf("256"),
    "slack-off": lbf("186"),
  }),
  correlate: entered(22, {
    "known-is": said("landing nipple"),
    "known-depth": ft("5560"),
    "known-counter": ft("5563"),
  }),
  "gauge-out": entered(31, { "gauge-all-out": said("yes"), "gauge-found": said("wax") }),
  "second-barriers": entered(12, barriers("second")),
  "pull-string-on": entered(34, {
    "pull-zero": said("yes"),
    "pull-union-pressure": psig("1300"),
    "pull-union": said("yes"),
    "pull-pins": said("steel, 2, shears up"),
  }),
  "level-plan": entered(8, {
    "level-route": said("bled annulus"),
    "level-lower-checks": said("hold"),
    "level-time": min("15"),
    "level-barrier": said("wireline valves on still wire, then crown valve"),
  }),
  "level-first": entered(30, {
    "level-first-level": ft("2870"),
    "level-first-casing": psig("712"),
    "level-first-wellhead": psig("318"),
  }),
  locate: entered(37, {
    "tagged-above": ft("3063"),
    "tagged-below": ft("5182"),
    "pocket-depth": ft("4113"),
    "key-pull": lbf("465"),
  }),
  "latch-on": entered(6, { "latch-pull": lbf("330"), "latch-held": said("held") }),
  "level-last": entered(2, {
    "level-last-casing": psig("716"),
    "level-last-wellhead": psig("319"),
  }),
  "first-blow": entered(4),
  "jar-out": entered(21, {
    "pull-hits": said("19"),
    "pull-largest": lbf("840"),
    "pull-free": said("quiet"),
    "free-casing": psig("709"),
    "free-wellhead": psig("322"),
  }),
  "pull-out": entered(33, { "pull-all-out": said("yes") }),
  "third-barriers": entered(11, barriers("third")),
  inspect: entered(16, {
    "pulled-serial": said("EM-0313"),
    "pulled-complete": said("complete"),
    "pulled-condition": said("port cut"),
    "pulled-charge": said("not tested"),
    "pulled-words": said("Groove across seat and stem tip; packing whole."),
  }),
  card: entered(5, { "new-serial": said("EM-2037"), "new-card": psig("952") }),
  fit: entered(6, { "new-latch": said("yes"), "new-packing": said("yes") }),
  pins: entered(5, {
    "pin-material": said("brass"),
    "pin-count": said("2"),
    "pin-batch": said("B-118"),
    "pin-witness": said("P. Linnet"),
  }),
  "set-string-on": entered(28, {
    "set-zero": said("yes"),
    "set-union-pressure": psig("1300"),
    "set-union": said("yes"),
  }),
  "pocket-open": entered(2, {
    "pocket-open-level": ft("2870"),
    "pocket-open-casing": psig("708"),
    "pocket-open-wellhead": psig("318"),
  }),
  enter: entered(36, { "set-pick-up": lbf("284"), "set-depth": ft("4113") }),
  drive: entered(12, { "drive-hits": said("24"), "drive-stops": said("yes") }),
  "test-pull": entered(4, { "test-pull-force": lbf("410"), "test-pull-held": said("held") }),
  shear: {
    ...entered(9, {
      "shear-hits": said("11"),
      "shear-largest": lbf("1090"),
      "shear-sign": said("clear"),
    }),
    standBy: "One blow came harder than meant; wire looked at and cut back afterwards.",
  },
  "set-out": entered(30, { "set-all-out": said("yes") }),
  "fourth-barriers": entered(11, barriers("fourth")),
  "look-tool": entered(6, { "tool-pins": said("sheared"), "tool-valve": said("left in pocket") }),
  "proof-start": entered(14, {
    "proof-start-level": ft("2870"),
    "proof-start-casing": psig("702"),
    "proof-start-wellhead": psig("86"),
  }),
  "proof-end": entered(20, {
    "proof-end-casing": psig("700"),
    "proof-end-wellhead": psig("86"),
  }),
  "fifth-barriers": entered(10, barriers("fifth")),
  "stack-off": entered(45, { "cap-tested": said("yes") }),
  injection: entered(130, {
    "lock-off": said("off"),
    "final-casing": psig("868"),
    "final-wellhead": psig("262"),
    "final-gas": { text: "410", unit: "Mscf/d" },
    "final-liquid": { text: "186", unit: "bbl/d" },
  }),
  "line-left": entered(5, {
    "line-cut": ft("60"),
    "line-on-drum": ft("14200"),
    "line-remarks": said("Jarred most at 4,113 ft on the counter."),
  }),
  account: entered(5, { "nothing-left": said("nothing"), "well-status": said("injecting") }),
  "left-location": entered(15),
};

/** Who signs beside the supervisor. */
export const signers: Readonly<Record<string, string>> = {
  "field operator": "J. Corrow",
  "production engineer": "L. Ashgrove",
  "well owner's representative": "M. Estery",
};
