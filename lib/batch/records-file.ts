import * as v from "valibot";
import { GEAR_FORMAT, gearSchema, readGear, type Gear } from "./gear.ts";
import { batchSchema, FORMAT, readRecord, type Batch } from "./record.ts";
import { isSame } from "./same.ts";

/** Marks a file as ours, with many batches and pieces of gear. */
export const RECORDS_FORMAT = "bilayer-bench-records";
export const RECORDS_VERSION = 1;
/** A thousand long evenings and more, characters; a larger file is not ours. */
export const MAX_RECORDS_TEXT = 50_000_000;
const MOST = 10_000;

const batchesSchema = v.pipe(v.array(batchSchema), v.maxLength(MOST));
const piecesSchema = v.pipe(v.array(gearSchema), v.maxLength(MOST));

/** What a file of records is, down to its last field. */
export const recordsSchema = v.strictObject({
  format: v.literal(RECORDS_FORMAT),
  version: v.literal(RECORDS_VERSION),
  batches: batchesSchema,
  gear: piecesSchema,
});

const envelopeSchema = v.strictObject({
  ...recordsSchema.entries,
  batches: v.pipe(v.array(v.unknown()), v.maxLength(MOST)),
  gear: v.pipe(v.array(v.unknown()), v.maxLength(MOST)),
});

export interface Records {
  readonly batches: readonly Batch[];
  readonly gear: readonly Gear[];
}

export type ReadRecords =
  | {
      readonly ok: true;
      readonly records: Records;
      /** One sentence for each record that could not be read. */
      readonly refused: readonly string[];
    }
  | { readonly ok: false; readonly message: string };

/** All batches and all gear as the text of one file. */
export function writeRecordsFile({ batches, gear }: Records): string {
  return JSON.stringify(
    { format: RECORDS_FORMAT, version: RECORDS_VERSION, batches, gear },
    null,
    2,
  );
}

/**
 * Reads a file of records, or one with a single batch or piece of gear. It is never trusted, and one damaged
 * record does not take the others with it.
 *
 * @returns what could be read, with a sentence for each record that could not; or why nothing could; never throws
 */
export function readRecordsFile(text: string): ReadRecords {
  if (text.length > MAX_RECORDS_TEXT)
    return refuse("It is far too long to be a file of records of this notebook.");
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return refuse(
      text.includes(RECORDS_FORMAT) || text.includes(FORMAT)
        ? "It begins as a file of this notebook, but it is damaged or was cut short."
        : "It is not a file of records: the text is damaged or of another kind.",
    );
  }
  const { format, version } = (data ?? {}) as { format?: unknown; version?: unknown };
  if (format === FORMAT) {
    const read = readRecord(text);
    return read.ok ? accept({ batches: [read.batch], gear: [] }) : read;
  }
  if (format === GEAR_FORMAT) {
    const read = readGear(text);
    return read.ok ? accept({ batches: [], gear: [read.gear] }) : read;
  }
  if (format !== RECORDS_FORMAT || typeof version !== "number")
    return refuse("It is a file of another kind, not one of records of this notebook.");
  if (version > RECORDS_VERSION)
    return refuse(
      `It was written by a newer version of this notebook (format ${version}, this one reads ${RECORDS_VERSION}). Update the notebook, then open it again.`,
    );
  const envelope = v.safeParse(envelopeSchema, data);
  if (!envelope.success)
    return refuse(
      `It is a file of records of this notebook, but damaged at ${placeOf(envelope.issues[0])}.`,
    );
  const batches = readEach("Batch", envelope.output.batches, batchSchema);
  const gear = readEach("Piece of gear", envelope.output.gear, gearSchema);
  return accept({ batches: batches.good, gear: gear.good }, [...batches.refused, ...gear.refused]);
}

function refuse(message: string): ReadRecords {
  return { ok: false, message };
}

function accept(records: Records, refused: readonly string[] = []): ReadRecords {
  return { ok: true, records, refused };
}

function readEach<T>(
  kind: string,
  items: readonly unknown[],
  schema: v.GenericSchema<unknown, T>,
): { readonly good: readonly T[]; readonly refused: readonly string[] } {
  const good: T[] = [];
  const refused: string[] = [];
  for (const [i, item] of items.entries()) {
    const parsed = v.safeParse(schema, item);
    if (parsed.success) good.push(parsed.output);
    else
      refused.push(
        `${kind} ${i + 1} of ${items.length}${namedIn(item)} is damaged at ${placeOf(parsed.issues[0])}.`,
      );
  }
  return { good, refused };
}

/** The name that a damaged record still has, if it is one. */
function namedIn(item: unknown): string {
  const name = (item as { name?: unknown } | null)?.name;
  return typeof name === "string" && name !== "" ? `, “${name.slice(0, 120)}”,` : "";
}

const FIELDS = new Map(
  Object.entries({
    format: "its mark",
    version: "its version",
    batches: "its list of batches",
    name: "its name",
    values: "its values",
    planned: "its planned values",
    units: "its units",
    notes: "its notes",
    made: "the day it was made",
    discard: "its discard date",
    lecithinSource: "what its lecithin is made from",
    labelSize: "the size of its labels",
    id: "its id",
    revision: "its revision",
    repeats: "the id of the batch it repeats",
    gear: "its gear",
    log: "its log",
    kind: "its kind",
  }),
);

/** Where a fault lies, in words. */
function placeOf(issue: v.BaseIssue<unknown>): string {
  const [field, ...path] = issue.path?.map(({ key }) => key) ?? [];
  if (field === undefined) return "its very start";
  const known = FIELDS.get(String(field));
  if (known === undefined) return `“${field}”, which this version does not know`;
  const inside = path.map((key) => (typeof key === "number" ? `entry ${key + 1}` : `“${key}”`));
  return [known, ...inside].join(", ");
}

/** What became of one record of a file. */
export interface MergeResult {
  readonly kind: "batch" | "gear";
  readonly name: string;
  /** `beside`: another one is kept here under its id, so it is kept under a new one */
  readonly outcome: "added" | "here already" | "beside";
}

export interface Merged {
  /** What has to be kept in addition to what is here; each with an id. */
  readonly add: {
    readonly batches: readonly (Batch & { readonly id: string })[];
    readonly gear: readonly Gear[];
  };
  /** In the order of the file, batches first. */
  readonly results: readonly MergeResult[];
}

/**
 * What of a file has to be added to the records that are here. Nothing here is changed or lost: of two different
 * records with one id nobody can tell which came from which, so both are kept.
 *
 * @param newId - gives an id that nothing else has
 */
export function mergeRecords(here: Records, file: Records, newId: () => string): Merged {
  const batches = mergeKind("batch", here.batches, file.batches, newId);
  const gear = mergeKind("gear", here.gear, file.gear, newId);
  return {
    add: { batches: batches.add, gear: gear.add },
    results: [...batches.results, ...gear.results],
  };
}

type Kept = Readonly<{ id?: string; name: string; revision?: number }>;

function mergeKind<T extends Kept>(
  kind: MergeResult["kind"],
  here: readonly T[],
  file: readonly T[],
  newId: () => string,
): { readonly add: readonly (T & { id: string })[]; readonly results: readonly MergeResult[] } {
  const known: T[] = [...here];
  const add: (T & { id: string })[] = [];
  const results = file.map((record): MergeResult => {
    const { id, name } = record;
    const taken = id === undefined || known.some((other) => other.id === id);
    // A copy that got a new id last time is not taken in again.
    if (taken && known.some((other) => isSame(contentOf(other), contentOf(record))))
      return { kind, name, outcome: "here already" };
    const added = { ...record, id: id === undefined || taken ? newId() : id };
    known.push(added);
    add.push(added);
    return { kind, name, outcome: id !== undefined && taken ? "beside" : "added" };
  });
  return { add, results };
}

function contentOf<T extends Kept>({ id: _, revision: __, ...content }: T): object {
  return content;
}
