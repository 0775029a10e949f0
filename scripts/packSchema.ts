import { entryValue, eventBody, jobEvent } from "../src/jobs/log/event.ts";
import { lockedPackSchema } from "../src/jobs/pack/locked.ts";
import { PACK_VERSION, packSchema } from "../src/jobs/pack/pack.ts";
import { packedPicture } from "../src/jobs/pack/packedPictures.ts";
import { tool } from "../src/jobs/records/equipment.ts";
import { evidence } from "../src/jobs/records/investigation.ts";
import { recordSchemas } from "../src/jobs/records/library.ts";
import { programme } from "../src/jobs/records/programme.ts";
import { mandrel } from "../src/jobs/records/well.ts";
import { actor, z } from "../src/jobs/schema.ts";
import { sheet, step } from "../src/jobs/sheet/sheet.ts";
import { fileJsonSchema } from "./fileSchema.ts";

/** What stands by its own name in the schema. */
const parts = {
  pack: packSchema,
  "locked-pack": lockedPackSchema,
  well: recordSchemas.wells,
  valve: recordSchemas.valves,
  "owned-tool": recordSchemas.tools,
  "tool-string": recordSchemas.strings,
  line: recordSchemas.lines,
  stack: recordSchemas.stacks,
  policy: recordSchemas.policies,
  job: recordSchemas.jobs,
  day: recordSchemas.days,
  investigation: recordSchemas.investigations,
  evidence,
  mandrel,
  tool,
  programme,
  sheet,
  step,
  actor,
  event: jobEvent,
  "event-body": eventBody,
  "entry-value": entryValue,
  picture: packedPicture,
};

/**
 * The pack file as a JSON Schema (draft 2020-12), made from the schemas that read it: for programs that make packs or
 * look into them. What one schema cannot say (the checksum, chains of events, bounds in a unit) the reader checks.
 */
export const packJsonSchema = (): object =>
  fileJsonSchema(z.union([packSchema, lockedPackSchema]), {
    title: `Latchline pack, version ${PACK_VERSION}`,
    description:
      "One UTF-8 text file of JSON, open or locked. checksum: SHA-256, in hexadecimal, of content in canonical JSON (RFC 8785). No object says a name twice.",
    parts,
  });
