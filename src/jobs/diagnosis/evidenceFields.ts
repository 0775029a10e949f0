import type { Dimension } from "../quantity.ts";
import type { Evidence, EvidenceKind } from "../records/investigation.ts";
import type { Well } from "../records/well.ts";

/** What is asked of each kind of evidence, in the order in which somebody reads it off. */

export type EvidenceField =
  | {
      readonly kind: "quantity";
      readonly id: string;
      readonly label: string;
      readonly dimension: Dimension;
      readonly optional?: true;
      /** the first unit offered where it is not the tablet's own */
      readonly unit?: string;
    }
  | {
      readonly kind: "choice";
      readonly id: string;
      readonly label: string;
      readonly choices: readonly string[];
      readonly optional?: true;
    };

/** Lines of one piece of evidence that are alike: stops of a gauge, returns of a tracer. */
export interface EvidenceRows {
  readonly id: "stops" | "returns";
  readonly one: string;
  readonly fields: readonly Extract<EvidenceField, { kind: "quantity" }>[];
  readonly least: number;
}

export interface EvidenceForm {
  readonly fields: readonly EvidenceField[];
  readonly rows?: EvidenceRows;
  /** one of its optional fields is needed */
  readonly anyOf?: string;
}

export const kindNames: Readonly<Record<EvidenceKind, string>> = {
  pressures: "Two gauges read at one moment",
  supply: "Gas supply and choke",
  "separator test": "Separator test",
  trend: "Two pens against time",
  "casing bleed": "Casing left to bleed",
  "fluid level": "Fluid level by sound",
  survey: "Flowing survey",
  tracer: "Tracer and its return",
};

/** From cheap to dear. */
export const kindsInOrder = Object.keys(kindNames) as EvidenceKind[];

export const confidenceWords: Readonly<Record<Evidence["confidence"], string>> = {
  good: "gauge checked, read with care",
  fair: "as usual",
  doubtful: "gauge not checked, or told by somebody",
};

const quantity = (
  id: string,
  label: string,
  dimension: Dimension,
  more: { readonly optional?: true; readonly unit?: string } = {},
) => ({ kind: "quantity", id, label, dimension, ...more }) as const;
const optional = { optional: true } as const;

/** The form of a kind; a trend is read from a table only. */
export function formOf(
  kind: Exclude<EvidenceKind, "trend">,
  { injectionDown }: Pick<Well, "injectionDown">,
): EvidenceForm {
  const [down, up] = injectionDown === "annulus" ? ["casing", "tubing"] : ["tubing", "casing"];
  const injection = `Injection pressure, ${down}`;
  const wellhead = `Wellhead pressure, ${up}`;
  switch (kind) {
    case "pressures":
      return {
        fields: [
          quantity("injectionAtSurface", injection, "pressure"),
          quantity("wellhead", wellhead, "pressure"),
        ],
      };
    case "supply":
      return {
        fields: [
          quantity("injectionRate", "Injection rate", "gas rate", optional),
          quantity("supplyPressure", "Pressure ahead of the choke", "pressure", optional),
          quantity("supplyTemperature", "Gas temperature there", "temperature", optional),
          quantity("choke", "Choke", "diameter", optional),
          {
            kind: "choice",
            id: "found",
            label: "What was found at choke, meter and line",
            choices: ["in order", "choke changed", "frozen", "supply fell", "not looked at"],
            optional: true,
          },
        ],
        anyOf: "Enter one of them at least: a rate, a pressure, the choke, or what was found.",
      };
    case "separator test":
      return {
        fields: [
          quantity("liquidRate", "Liquid rate", "liquid rate"),
          quantity("waterCut", "Water cut", "fraction", { optional: true, unit: "%" }),
          quantity("gasRate", "Gas rate, all of it", "gas rate", optional),
          quantity("separatorPressure", "Separator pressure", "pressure", optional),
        ],
      };
    case "casing bleed":
      return {
        fields: [
          quantity("from", `From, ${down} pressure`, "pressure"),
          quantity("to", `To, ${down} pressure`, "pressure"),
          quantity("took", "It took", "duration"),
          {
            kind: "choice",
            id: "end",
            label: "At the end it",
            choices: ["at rest", "still falling"],
          },
          quantity("wellhead", `${wellhead}, at the end`, "pressure", optional),
        ],
      };
    case "fluid level":
      return {
        fields: [
          { kind: "choice", id: "space", label: "In the", choices: ["annulus", "tubing"] },
          { kind: "choice", id: "well", label: "The well was", choices: ["on lift", "shut in"] },
          quantity("depthAlongHole", "Level, along hole", "length"),
        ],
      };
    case "survey":
      return {
        fields: [],
        rows: {
          id: "stops",
          one: "Stop",
          least: 2,
          fields: [
            quantity("depthAlongHole", "Depth along hole", "length"),
            quantity("pressure", "Pressure", "pressure", optional),
            quantity("temperature", "Temperature", "temperature", optional),
          ],
        },
      };
    case "tracer":
      return {
        fields: [
          quantity("injectionAtSurface", injection, "pressure", optional),
          quantity("wellhead", wellhead, "pressure", optional),
          quantity("injectionRate", "Injection rate", "gas rate", optional),
        ],
        rows: {
          id: "returns",
          one: "Return",
          least: 1,
          fields: [
            quantity("after", "After", "duration"),
            quantity("share", "Share of what came back", "fraction", { optional: true, unit: "%" }),
          ],
        },
      };
  }
}
