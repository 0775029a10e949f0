import { entryValue, eventBody, jobEvent } from "../src/jobs/log/event.ts";
import { recordSchemas } from "../src/jobs/records/library.ts";
import { programme } from "../src/jobs/records/programme.ts";
import { jobRecord, RECORD_VERSION } from "../src/jobs/report/recordSchema.ts";
import { actor } from "../src/jobs/schema.ts";
import { sheet, step } from "../src/jobs/sheet/sheet.ts";
import { fileJsonSchema } from "./fileSchema.ts";

/** What stands by its own name in the schema. */
const parts = {
  record: jobRecord,
  job: recordSchemas.jobs,
  well: recordSchemas.wells,
  valve: recordSchemas.valves,
  "tool-string": recordSchemas.strings,
  programme,
  sheet,
  step,
  actor,
  event: jobEvent,
  "event-body": eventBody,
  "entry-value": entryValue,
};

/**
 * The record of a job as a JSON Schema (draft 2020-12), made from the schema that a record is written by. What it cannot
 * say, whether the chains of events hold, is checked by hashing the events.
 */
export const recordJsonSchema = (): object =>
  fileJsonSchema(jobRecord, {
    title: `Latchline record, version ${RECORD_VERSION}`,
    description:
      "One UTF-8 text file of canonical JSON (RFC 8785). The hash of an event is the SHA-256, in hexadecimal, of the event's canonical JSON without the hash; previous is the hash of the same device's event before it, null for its first.",
    parts,
  });
