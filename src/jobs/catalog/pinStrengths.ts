import type { Quantity } from "../quantity.ts";
import type { pinMaterials } from "../records/equipment.ts";

/** A material that has a strength; one that nobody knows has none. */
export type PinMaterial = Exclude<(typeof pinMaterials)[number], "not known">;

interface PinStrength {
  readonly least: Quantity<"pressure difference">;
  readonly most: Quantity<"pressure difference">;
  readonly source: string;
}

const psi = (value: number) => ({ value, unit: "psi" }) as const;

/**
 * Shear strength by the word on the box. Temper moves it by tens of percent: where a batch has a certificate or the
 * tool's maker gives a shear value, that one counts. Source: makeitfrom.com; aluminium as quoted on pailininfo.com.
 */
export const pinStrengths: Readonly<Record<PinMaterial, PinStrength>> = {
  brass: {
    least: psi(32_000),
    most: psi(45_000),
    source:
      "free-cutting brass C36000, half hard 220 MPa, 32 ksi, to full hard 310 MPa, 45 ksi (published tables of material data)",
  },
  steel: {
    least: psi(40_600),
    most: psi(40_600),
    source:
      "mild steel SAE 1020 cold drawn: 280 MPa, 40.6 ksi, one temper only (published tables of material data)",
  },
  aluminium: {
    least: psi(30_000),
    most: psi(30_000),
    source:
      "aluminium 6061-T6: 207 MPa, 30 ksi, one temper only (published tables of material data)",
  },
};
