import { asEntered } from "../display.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Well } from "../records/well.ts";
import { plainWell } from "../serial.ts";
import type { Draft } from "./changes.ts";
import { byPlainName, type Reading } from "./reading.ts";
import type { RowValues } from "./rowValues.ts";
import { byWell } from "./wellDrafts.ts";

type Station = Extract<Well["path"], { kind: "surveyed" }>["stations"][number];

/** A table of survey stations becomes the path of the wells it names, or of the one that is chosen. */
export function surveyDrafts(reading: Reading, rows: readonly RowValues[]): Draft[] {
  return wellsWithRows(reading, rows).flatMap(({ well, rows: of }): Draft[] => {
    const stations = stationsOf(reading, of);
    if (!stations) return [];
    const path: Well["path"] = { kind: "surveyed", stations };
    const after = isSamePath(well.path, stations) ? well : { ...well, path };
    return [{ kind: "wells", before: well, after, rows: of.map(({ row }) => row) }];
  });
}

function wellsWithRows(reading: Reading, rows: readonly RowValues[]) {
  const { wells } = reading.library;
  const hasColumn = Object.values(reading.mapping.columns).some(({ field }) => field === "well");
  if (!hasColumn) {
    const chosen = reading.answer({
      id: "well",
      ask: "Which well is this survey of?",
      means: "Its path is replaced by the stations of the table.",
      answer: {
        kind: "choice",
        options: wells.map(({ id, name }) => ({ value: id, label: name })),
      },
    });
    const well = wells.find(({ id }) => id === chosen);
    return well ? [{ well, rows }] : [];
  }
  const known = byPlainName(wells, (well) => well.name, plainWell);
  return [...byWell(reading, rows)].flatMap(([key, of]) => {
    const well = known.found.get(key);
    if (well && !known.twice.has(key)) return [{ well, rows: of }];
    reading.complain(
      of.slice(0, 1).map(({ row }) => row),
      "well",
      well ? "is the name of two wells here" : "is no well that is here",
      well
        ? "Rename one of them first."
        : "Bring in the table of wells first, or correct the name.",
      String(of[0]?.values.get("well")),
    );
    return [];
  });
}

/** Stations go down the hole, each with its three figures. */
function stationsOf(reading: Reading, rows: readonly RowValues[]): Station[] | undefined {
  const parts = ["stationDepth", "inclination", "azimuth"] as const;
  let isWhole = true;
  let above: { depth: number; row: number; as: string } | undefined;
  const stations = rows.map(({ row, values }): Station => {
    for (const part of parts) {
      if (values.has(part)) continue;
      isWhole = false;
      reading.complain(
        [row],
        part,
        "empty",
        "A station needs depth, inclination and azimuth: write it, or leave the row out.",
      );
    }
    const [depth, inclination, azimuth] = parts.map((part) => values.get(part)) as [
      Quantity<"length">,
      Quantity<"angle">,
      Quantity<"angle">,
    ];
    if (depth) {
      const at = toSI("length", depth);
      if (at < 0) {
        isWhole = false;
        reading.complain(
          [row],
          "stationDepth",
          "is above the surface",
          "Stations count from 0 down.",
          asEntered(depth),
        );
      }
      if (above && at <= above.depth) {
        isWhole = false;
        reading.complain(
          [above.row, row],
          "stationDepth",
          at === above.depth
            ? "is the same depth twice"
            : `is less deep than the station before it (${above.as})`,
          "Stations go down the hole: correct the depth, put the rows in order, or leave one out.",
          asEntered(depth),
        );
      }
      above = { depth: at, row, as: asEntered(depth) };
    }
    return { depthAlongHole: depth, inclination, azimuth };
  });
  return isWhole ? stations : undefined;
}

/** Whether a well's path has these very stations, whatever units they are in. */
export function isSamePath(path: Well["path"], stations: readonly Station[]): boolean {
  if (path.kind !== "surveyed" || path.stations.length !== stations.length) return false;
  return path.stations.every((station, index) => {
    const other = stations[index] as Station;
    const near = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a));
    return (
      near(toSI("length", station.depthAlongHole), toSI("length", other.depthAlongHole)) &&
      near(toSI("angle", station.inclination), toSI("angle", other.inclination)) &&
      near(toSI("angle", station.azimuth), toSI("angle", other.azimuth))
    );
  });
}
