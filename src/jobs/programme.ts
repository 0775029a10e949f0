import type { Programme } from "./records/programme.ts";
import type { Valve } from "./records/valve.ts";
import type { Mandrel } from "./records/well.ts";

/** The mandrel at work. */
export function targetMandrel({ job, well }: Programme): Mandrel | undefined {
  return well?.mandrels.find((mandrel) => mandrel.id === job.mandrel);
}

/** The two spaces of the well as their gauges at surface are called. */
export interface SurfaceGauges {
  /** of the side that the gas goes down */
  readonly injection: "casing" | "tubing";
  /** of the side that produces */
  readonly production: "wellhead" | "casing";
}

export const surfaceGauges = (programme: Programme | undefined): SurfaceGauges =>
  programme?.well?.injectionDown === "tubing"
    ? { injection: "tubing", production: "casing" }
    : { injection: "casing", production: "wellhead" };

/** The valve that is to come out. */
export function valveToPull(programme: Programme): Valve | undefined {
  const id = targetMandrel(programme)?.valve;
  return programme.installed.find((valve) => valve.id === id);
}
