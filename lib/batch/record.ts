import * as v from "valibot";
import type { BatchValues } from "../calculations/graph.ts";
import {
  isDay,
  LABEL_SIZES,
  LECITHIN_SOURCES,
  type LabelSize,
  type LecithinSource,
} from "./label.ts";

/** Marks a file or a stored text as ours. */
export const FORMAT = "bilayer-bench-batch";
export const VERSION = 1;
/** Far above any real batch; a larger text is not ours. */
export const MAX_TEXT = 65_536;

const shortText = v.pipe(v.string(), v.maxLength(120));
const key = v.pipe(v.string(), v.regex(/^[a-z][\w-]*(\.[a-z]\w*)?$/i), v.maxLength(80));
const finite = v.pipe(v.number(), v.finite());
/** Rows of readings, by column. */
const rows = v.pipe(
  v.array(v.pipe(v.array(v.nullable(finite)), v.maxLength(8))),
  v.maxLength(1000),
);
const day = v.pipe(v.string(), v.check(isDay, "a day that the calendar has"));
const value = v.union([finite, v.pipe(v.string(), v.maxLength(60)), rows]);

const batchSchema = v.strictObject({
  name: shortText,
  /** The reader's values by batch key, SI. Nothing derived is kept. */
  values: v.record(key, value),
  /** The unit each quantity is shown in, by its name. */
  units: v.record(key, v.pipe(v.string(), v.maxLength(20))),
  notes: v.pipe(v.string(), v.maxLength(4000)),
  // For the label; a record from before labels has none of them.
  made: v.exactOptional(day),
  discard: v.exactOptional(day),
  lecithinSource: v.exactOptional(v.picklist(LECITHIN_SOURCES)),
  labelSize: v.exactOptional(v.picklist(Object.keys(LABEL_SIZES) as LabelSize[])),
});

const recordSchema = v.strictObject({
  format: v.literal(FORMAT),
  version: v.literal(VERSION),
  batch: batchSchema,
});

/** The reader's values for quantities, and nothing derived. */
export type Batch = Readonly<{
  name: string;
  values: BatchValues;
  units: Readonly<Record<string, string>>;
  notes: string;
  /** The day it was made, "2026-03-14". */
  made?: string;
  /** The day to throw it away, if the reader sets one. */
  discard?: string;
  lecithinSource?: LecithinSource;
  labelSize?: LabelSize;
}>;

export type ReadRecord =
  { readonly ok: true; readonly batch: Batch } | { readonly ok: false; readonly message: string };

export const EMPTY_BATCH: Batch = { name: "", values: {}, units: {}, notes: "" };

/** A batch as the text of a file or of the browser's storage. */
export function writeRecord(batch: Batch): string {
  return JSON.stringify({ format: FORMAT, version: VERSION, batch }, null, 2);
}

/**
 * Reads a stored, shared or imported text. It is never trusted: shape, lengths and numbers are checked.
 *
 * @returns the batch, or a sentence that says what is wrong with the text; never throws
 */
export function readRecord(text: string): ReadRecord {
  if (text.length > MAX_TEXT)
    return { ok: false, message: "It is far too long to be a batch of this notebook." };
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return {
      ok: false,
      message: "It is not a batch file: the text is damaged or of another kind.",
    };
  }
  const version = versionOf(data);
  if (version === undefined)
    return { ok: false, message: "It is a file of another kind, not a batch of this notebook." };
  if (version > VERSION)
    return {
      ok: false,
      message: `It was written by a newer version of this notebook (format ${version}, this one reads ${VERSION}). Update the notebook, then open it again.`,
    };
  const parsed = v.safeParse(recordSchema, data);
  if (parsed.success) return { ok: true, batch: parsed.output.batch };
  const where = v.getDotPath(parsed.issues[0]) ?? "its first line";
  return { ok: false, message: `It is a batch of this notebook, but damaged at “${where}”.` };
}

function versionOf(data: unknown): number | undefined {
  if (typeof data !== "object" || data === null) return undefined;
  const { format, version } = data as { format?: unknown; version?: unknown };
  return format === FORMAT && typeof version === "number" ? version : undefined;
}
