/** Who does things. The role decides what a person may release; which role may do what is policy. */
export const roles = [
  "planner",
  "wireline supervisor",
  "winch operator",
  "field operator",
  "production engineer",
  "well owner's representative",
] as const;
export type Role = (typeof roles)[number];

/** Who acts: signs every event. */
export interface Actor {
  readonly name: string;
  readonly role: Role;
}
