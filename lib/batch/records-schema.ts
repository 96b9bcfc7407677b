import { toJsonSchema } from "@valibot/to-json-schema";
import { GEAR_KINDS } from "./gear.ts";
import { batchSchema } from "./record.ts";
import { recordsSchema } from "./records-file.ts";
import { shortText } from "./shapes.ts";

const { $schema: _, ...name } = toJsonSchema(shortText);
const gearOfBatch = batchSchema.entries.gear.wrapped;
const NAMED_GEAR = {
  type: "object",
  properties: Object.fromEntries(GEAR_KINDS.map((kind) => [kind, name])),
  additionalProperties: false,
} as const;

/**
 * What a file of records is, for other programs: made from the very schemas that read it. What no schema can say,
 * such as a day that the calendar lacks, is only checked on reading.
 *
 * @returns a JSON Schema, draft 2020-12
 */
export function recordsJsonSchema(): object {
  return {
    ...toJsonSchema(recordsSchema, {
      target: "draft-2020-12",
      // JSON writes no other numbers than finite ones; what is checked by code stays with the reader.
      ignoreActions: ["check", "finite"],
      // A table with a few known keys is no pattern of keys, which is all that the converter knows.
      overrideSchema: ({ valibotSchema }) =>
        valibotSchema === gearOfBatch ? NAMED_GEAR : undefined,
    }),
    title: "Records of Bilayer Bench",
    description:
      "All batches and all gear of one notebook. Values are in SI units: kg, m³, s, W; temperatures in °C; shares from 0 to 1. Moments are written as in RFC 3339, with the offset of the clock on the wall.",
  };
}
