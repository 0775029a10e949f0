import type { Quantity } from "../quantity.ts";
import type { pinMaterials } from "../records/equipment.ts";

/** A material that has a strength; one that nobody knows has none. */
export type PinMaterial = Exclude<(typeof pinMaterials)[number], "not known">;

interface PinStrength {
  readonly value: Quantity<"pressure difference">;
  readonly source: string;
}

/**
 * Shear strength by the word on the box. Temper moves it by tens of percent: where a batch has a certificate or the
 * tool's maker gives a shear value, that one counts.
 */
export const pinStrengths: Readonly<Record<PinMaterial, PinStrength>> = {
  brass: {
    value: { value: 32_000, unit: "psi" },
    source:
      "free-cutting brass C36000 half hard: 220 MPa, 32 ksi (makeitfrom.com); full hard 45 ksi",
  },
  steel: {
    value: { value: 40_600, unit: "psi" },
    source: "mild steel SAE 1020 cold drawn: 280 MPa, 40.6 ksi (makeitfrom.com)",
  },
  aluminium: {
    value: { value: 30_000, unit: "psi" },
    source: "aluminium 6061-T6: 207 MPa, 30 ksi (as quoted on pailininfo.com)",
  },
};
