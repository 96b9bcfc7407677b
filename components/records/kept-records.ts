import { atom } from "nanostores";
import { readGear, writeGear, type Gear } from "../../lib/batch/gear.ts";
import { readRecord, writeRecord, type Batch } from "../../lib/batch/record.ts";
import {
  mergeRecords,
  readRecordsFile,
  writeRecordsFile,
  type MergeResult,
} from "../../lib/batch/records-file.ts";
import { nameIn } from "./records-text.ts";
import { all, onRow, update, type Row, type Shelf } from "../batch/database.ts";
import { newId } from "../batch/new-id.ts";
import { batch, isBlank, written } from "../batch/store.ts";

export type Recorded = Batch & { readonly id: string };

/** A text among the records that could not be read. */
export interface Damaged extends Row {
  readonly shelf: Shelf;
  readonly message: string;
}

export interface Kept {
  readonly batches: readonly Recorded[];
  readonly gear: readonly Gear[];
  readonly damaged: readonly Damaged[];
}

/** Everything that this browser keeps; `undefined` until it is read. */
export const kept = atom<Kept | undefined>(undefined);

/** Reads what is kept, and follows every change of it. */
export function openRecords(): void {
  for (const shelf of ["batches", "gear"] as const) onRow(shelf, () => void load());
  // The open batch is shown as it is at this moment, also where the browser keeps no records.
  batch.listen(() => void load());
  void load();
}

let turn = 0;
async function load(): Promise<void> {
  const mine = ++turn;
  const now = await readAll();
  // Of two that overlap only the later one counts.
  if (mine === turn) kept.set(now);
}

async function readAll(): Promise<Kept> {
  await written();
  const damaged: Damaged[] = [];
  const batches = new Map<string, Recorded>();
  for (const row of await all("batches")) {
    const read = readRecord(row.text);
    if (read.ok) batches.set(row.id, { ...read.batch, id: row.id });
    else damaged.push({ ...row, shelf: "batches", message: read.message });
  }
  const gear = (await all("gear")).flatMap((row) => {
    const read = readGear(row.text);
    if (read.ok) return [read.gear];
    damaged.push({ ...row, shelf: "gear", message: read.message });
    return [];
  });
  const open = batch.get();
  if (open.id !== undefined && !isBlank(open)) batches.set(open.id, { ...open, id: open.id });
  return { batches: [...batches.values()], gear, damaged };
}

/** All that could be read, as the text of one file. */
export async function exportAll(): Promise<string> {
  return writeRecordsFile(await readAll());
}

export type Imported =
  | {
      readonly ok: true;
      readonly results: readonly MergeResult[];
      /** One sentence for each record that was damaged, or that the browser did not keep. */
      readonly refused: readonly string[];
    }
  | { readonly ok: false; readonly message: string };

/** Adds what a file holds to what is kept here. */
export async function importAll(text: string): Promise<Imported> {
  const read = readRecordsFile(text);
  if (!read.ok) return read;
  const { add, results } = mergeRecords(await readAll(), read.records, newId);
  const rows = [
    ...add.batches.map((one) => ["batches", { id: one.id, text: writeRecord(one) }] as const),
    ...add.gear.map((one) => ["gear", { id: one.id, text: writeGear(one) }] as const),
  ].values();
  const done: MergeResult[] = [];
  const unkept: string[] = [];
  for (const result of results) {
    // Whatever is not here already has its row, in the same order.
    const [shelf, row] = result.outcome === "here already" ? [] : (rows.next().value ?? []);
    if (!shelf || !row || (await putNew(shelf, row))) done.push(result);
    else unkept.push(`${nameIn(result)} was not kept: this browser has no room for it.`);
  }
  return { ok: true, results: done, refused: [...read.refused, ...unkept] };
}

/** Keeps a new row; a text that could not be read and stood under its id moves aside. */
function putNew(shelf: Shelf, row: Row): Promise<boolean> {
  return update(shelf, row.id, (text) =>
    text === undefined ? [row] : [row, { id: `aside-${newId()}`, text }],
  );
}
