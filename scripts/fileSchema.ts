import { z } from "../src/jobs/schema.ts";

interface FileSchema {
  readonly title: string;
  readonly description: string;
  /** what stands by its own name in the schema */
  readonly parts: Readonly<Record<string, z.ZodType>>;
}

/** A file as a JSON Schema (draft 2020-12), made from the schema that it is read or written by. */
export function fileJsonSchema(file: z.ZodType, { title, description, parts }: FileSchema): object {
  const metadata = z.registry<{ id: string }>();
  for (const [id, part] of Object.entries(parts)) metadata.add(part, { id });
  const { $schema, ...schema } = z.toJSONSchema(file, { metadata, io: "input" });
  return { $schema, title, description, ...schema };
}
