import { library } from "../../../demo-data/emberMesa.ts";
import type { Valve } from "../../../src/jobs/records/valve.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import type { Library } from "../../../src/jobs/store/library.ts";

const fields = ["Ember Mesa", "Dry Fork", "Cinder Flat", "Long Draw"];
const kinds = ["injection-operated", "production-operated", "orifice", "dummy"] as const;

/** A library as large as an office may come to, made of numbers only: eight mandrels a well, a valve in each. */
export function manyRecords(wellCount: number, mandrelCount = 8): Library {
  const [pattern] = library.wells;
  const [valvePattern] = library.valves;
  if (!pattern || !valvePattern) throw new Error("no pattern");
  const [mandrel] = pattern.mandrels;
  if (!mandrel) throw new Error("no mandrel");
  const valves: Valve[] = [];
  const wells = Array.from({ length: wellCount }, (_, w): Well => {
    const name = `EM-${1000 + w}`;
    return {
      ...pattern,
      id: `many-well-${w}`,
      name,
      field: fields[w % fields.length] ?? "",
      mandrels: Array.from({ length: mandrelCount }, (__, m) => {
        const number = valves.length;
        const id = `many-valve-${number}`;
        valves.push({
          ...valvePattern,
          id,
          serial: `EM-${String(100000 + ((number * 7919) % 900000))}`,
          kind: kinds[number % kinds.length] ?? "orifice",
          size: number % 3 === 0 ? "1-1/2 in" : "1 in",
          remarks: number % 50 === 0 ? "Bellows changed in the shop." : "As delivered.",
        });
        return {
          ...mandrel,
          id: `many-mandrel-${w}-${m}`,
          number: m + 1,
          depthAlongHole: { value: 1500 + 500 * m, unit: "ft" as const },
          pocketState: "holds a valve" as const,
          valve: id,
        };
      }),
    };
  });
  return {
    ...library,
    wells: [...library.wells, ...wells],
    valves: [...library.valves, ...valves],
  };
}
