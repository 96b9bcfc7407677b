import * as v from "valibot";
import type { BatchValues } from "../calculations/graph.ts";
import { GEAR_KINDS, type GearKind } from "./gear.ts";
import {
  isDay,
  LABEL_SIZES,
  LECITHIN_SOURCES,
  type LabelSize,
  type LecithinSource,
} from "./label.ts";
import { EVENING_KEYS, loggedValues, logSchema, type Log } from "./log.ts";
import { without } from "./only.ts";
import { id, shortText, units, values } from "./shapes.ts";
import { readText, writeText, type TextKind } from "./stored-text.ts";

/** Marks a file or a stored text as ours. */
export const FORMAT = "bilayer-bench-batch";
export const VERSION = 1;
/** Far above any real batch with the log of a long evening; a larger text is not ours. */
export const MAX_TEXT = 524_288;

/** Characters of a batch's notes. */
export const MAX_NOTES = 4000;

const day = v.pipe(v.string(), v.check(isDay, "a day that the calendar has"));

export const batchSchema = v.strictObject({
  name: shortText,
  /** The reader's values by batch key, SI. Nothing derived is kept. */
  values,
  units,
  notes: v.pipe(v.string(), v.maxLength(MAX_NOTES)),
  // For the label; a record from before labels has none of them.
  made: v.exactOptional(day),
  discard: v.exactOptional(day),
  lecithinSource: v.exactOptional(v.picklist(LECITHIN_SOURCES)),
  labelSize: v.exactOptional(v.picklist(Object.keys(LABEL_SIZES) as LabelSize[])),
  // For the records and the bench; a batch that was only planned has none of them.
  id: v.exactOptional(id),
  revision: v.exactOptional(v.pipe(v.number(), v.integer(), v.minValue(0))),
  repeats: v.exactOptional(id),
  gear: v.exactOptional(v.record(v.picklist(GEAR_KINDS), shortText)),
  planned: v.exactOptional(values),
  log: v.exactOptional(logSchema),
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
  /** Tells it from every other batch, in this browser and in files. */
  id?: string;
  /** Grows with every change: of two copies with one id, the higher is the newer. */
  revision?: number;
  /** id of the batch that this one does again */
  repeats?: string;
  /** The gear whose numbers it took, by name: a record stays true when the gear is renamed or gone. */
  gear?: Readonly<Partial<Record<GearKind, string>>>;
  /** The values as they were when the evening began; later changes are in `values`. */
  planned?: BatchValues;
  /** What happened at the bench, in the order in which it was noted. */
  log?: Log;
}>;

export type ReadRecord =
  { readonly ok: true; readonly batch: Batch } | { readonly ok: false; readonly message: string };

const RECORD: TextKind<Batch> = {
  format: FORMAT,
  version: VERSION,
  called: "batch",
  key: "batch",
  schema: batchSchema,
  longest: MAX_TEXT,
};

export const EMPTY_BATCH: Batch = { name: "", values: {}, units: {}, notes: "" };

/** The values that calculations start from: what was noted at the bench, and over it what the reader typed. */
export function valuesOf({ values: typed, log = [] }: Batch): BatchValues {
  return log.length === 0 ? typed : { ...loggedValues(log), ...typed };
}

/**
 * The batch as its evening begins: what was planned is put on record, and what an earlier evening weighed and
 * skimmed no longer counts. A batch that has begun stays as it is.
 */
export function begin(batch: Batch): Batch {
  if (batch.planned) return batch;
  const planned = plansOf(batch.values);
  return { ...batch, values: planned, planned, log: [] };
}

/** The batch without what makes it a record: neither its place among the records nor its evening. */
export function planOf(batch: Batch): Batch {
  const of: readonly string[] = ["id", "revision", "repeats", "planned", "log"];
  return without<unknown>(batch, (name) => of.includes(name)) as Batch;
}

/** The same plan for another evening, with nothing of what happened at the last one. */
export function again(batch: Batch, newId: string): Batch {
  const { made: _, discard: __, ...plan } = planOf(batch);
  return {
    ...plan,
    values: plansOf(batch.values),
    notes: "",
    id: newId,
    ...(batch.id !== undefined && { repeats: batch.id }),
  };
}

function plansOf(all: BatchValues): BatchValues {
  return without(all, (name) => EVENING_KEYS.includes(name));
}

/** A batch as the text of a file or of the browser's storage. */
export function writeRecord(batch: Batch): string {
  return writeText(RECORD, batch);
}

/**
 * Reads a stored, shared or imported text. It is never trusted: shape, lengths and numbers are checked.
 *
 * @returns the batch, or a sentence that says what is wrong with the text; never throws
 */
export function readRecord(text: string): ReadRecord {
  const read = readText(RECORD, text);
  return read.ok ? { ok: true, batch: read.value } : read;
}
