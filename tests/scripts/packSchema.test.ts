import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { packJsonSchema } from "../../scripts/packSchema.ts";
import { z } from "../../src/jobs/schema.ts";

const written = () => JSON.parse(readFileSync("public/pack.schema.json", "utf8"));
const demo = () => JSON.parse(readFileSync("demo-data/ember-mesa.json", "utf8"));

describe("the JSON Schema of packs", () => {
  it("is what the code gives (npm run pack-schema)", () => {
    expect(written()).toEqual(JSON.parse(JSON.stringify(packJsonSchema())));
  });

  it("takes the demonstration, and refuses what is no pack", () => {
    const schema = z.fromJSONSchema(written());
    expect(schema.safeParse(demo()).error).toBeUndefined();
    const { checksum: _, ...without } = demo();
    expect(schema.safeParse(without).success).toBe(false);
    const bent = demo();
    bent.content.records.wells[0].mandrels[0].depthAlongHole.unit = "fathoms";
    expect(schema.safeParse(bent).success).toBe(false);
  });

  it("names every kind of record and refers to nothing that is not in it", () => {
    const text = readFileSync("public/pack.schema.json", "utf8");
    const { $defs } = written();
    const referred = new Set(
      [...text.matchAll(/"\$ref": "#\/\$defs\/([^"]+)"/g)].map(([, id]) => id),
    );
    expect([...referred].sort()).toEqual(Object.keys($defs).sort());
    for (const id of ["well", "valve", "tool-string", "job", "day", "event"])
      expect(referred).toContain(id);
  });
});
