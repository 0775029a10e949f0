import type { Programme } from "./records/programme.ts";
import type { Valve } from "./records/valve.ts";
import type { Mandrel } from "./records/well.ts";

/** The mandrel at work. */
export function targetMandrel({ job, well }: Programme): Mandrel | undefined {
  return well?.mandrels.find((mandrel) => mandrel.id === job.mandrel);
}

/** The valve that is to come out. */
export function valveToPull(programme: Programme): Valve | undefined {
  const id = targetMandrel(programme)?.valve;
  return programme.installed.find((valve) => valve.id === id);
}
