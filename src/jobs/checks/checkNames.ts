/** Every check that a hold point can ask for. */
export const checkNames = [
  "stack covers the test pressure",
  "wire valves in the stack",
  "low test",
  "high test",
  "lubricator length",
  "push-out beaten",
  "clear bore",
  "gauge proves the bore",
  "depth agrees",
  "levelled",
  "steady",
  "fresh",
  "serial matches",
  "set pressure",
  "kickover tool matches",
  "proof of seat",
] as const;
export type CheckName = (typeof checkNames)[number];
