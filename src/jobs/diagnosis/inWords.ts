import { asEntered } from "../display.ts";
import type { Quantity } from "../quantity.ts";
import type { Evidence } from "../records/investigation.ts";

/** What a piece of evidence says, in one line; figures as they were entered. */
export function evidenceInWords(piece: Evidence, injectionDown: "annulus" | "tubing"): string {
  const [down, up] = injectionDown === "annulus" ? ["casing", "tubing"] : ["tubing", "casing"];
  const said = (words: string, of: Quantity | undefined) =>
    of ? [`${words}${asEntered(of)}`] : [];
  const line = (...parts: readonly (readonly string[])[]) => parts.flat().join(", ");
  switch (piece.kind) {
    case "pressures":
      return line(said(`${down} `, piece.injectionAtSurface), said(`${up} `, piece.wellhead));
    case "supply":
      return line(
        said("", piece.injectionRate),
        said("ahead of the choke ", piece.supplyPressure),
        said("at ", piece.supplyTemperature),
        said("choke ", piece.choke),
        piece.found ? [piece.found] : [],
      );
    case "separator test":
      return line(
        said("liquid ", piece.liquidRate),
        said("water cut ", piece.waterCut),
        said("gas ", piece.gasRate),
        said("separator at ", piece.separatorPressure),
      );
    case "trend": {
      const { points } = piece;
      const hours = (Date.parse(points.at(-1)?.at ?? "") - Date.parse(points[0]?.at ?? "")) / 3.6e6;
      return `${points.length.toLocaleString("en-US")} points over ${spanOf(hours)}`;
    }
    case "casing bleed":
      return line(
        [`${asEntered(piece.from)} to ${asEntered(piece.to)} in ${asEntered(piece.took)}`],
        [piece.end],
        said(`${up} `, piece.wellhead),
      );
    case "fluid level":
      return `${asEntered(piece.depthAlongHole)} along hole in the ${piece.space}, well ${piece.well}`;
    case "survey":
      return `${piece.stops.length} stops, ${asEntered(piece.stops[0]?.depthAlongHole as Quantity)} to ${asEntered(piece.stops.at(-1)?.depthAlongHole as Quantity)} along hole`;
    case "tracer":
      return `back after ${piece.returns.map(({ after, share }) => `${asEntered(after)}${share ? ` (${asEntered(share)})` : ""}`).join(", ")}`;
  }
}

export const piecesInWords = (count: number): string =>
  `${count} ${count === 1 ? "piece" : "pieces"} of evidence`;

function spanOf(hours: number): string {
  if (hours < 2) return `${Math.round(hours * 60)} min`;
  return hours < 72 ? `${Math.round(hours)} h` : `${Math.round(hours / 24)} days`;
}

/** `31 %` */
export const percent = (probability: number): string => `${Math.round(100 * probability)} %`;

/** `about 6 in 10`: a figure of a hundred would claim more than the evidence carries. */
export function chanceInWords(probability: number): string {
  if (probability >= 0.95) return "more than 9 in 10";
  if (probability >= 0.075) {
    const tenths = Math.max(1, Math.round(probability * 10));
    return `about ${tenths} in 10`;
  }
  return probability >= 0.015
    ? `about ${Math.round(probability * 100)} in 100`
    : "less than 2 in 100";
}
