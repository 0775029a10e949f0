import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { recordJsonSchema } from "../../scripts/recordSchema.ts";
import { z } from "../../src/jobs/schema.ts";

const written = () => JSON.parse(readFileSync("public/record.schema.json", "utf8"));

it("is what the code gives (npm run pack-schema), and is a schema", () => {
  expect(written()).toEqual(JSON.parse(JSON.stringify(recordJsonSchema())));
  expect(z.fromJSONSchema(written()).safeParse({ format: "latchline-record" }).success).toBe(false);
});
