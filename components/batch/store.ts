import { atom } from "nanostores";
import type * as Database from "./database.ts";
import { keeping, recordsKeeping } from "./keeping.ts";
import { BATCH_KEY, DRAFTS_KEY } from "./keys.ts";
import { newId } from "./new-id.ts";
import type { InputValue } from "../../lib/calculations/calculation.ts";
import { capital } from "../../lib/calculations/capital.ts";
import { EMPTY_BATCH, readRecord, writeRecord, type Batch } from "../../lib/batch/record.ts";
import { isSame } from "../../lib/batch/same.ts";

const BEFORE_KEY = "bilayer-bench.before";
/** When the open batch became the open one, ms: tells whether the database knows of a later one. */
const OPENED_KEY = "bilayer-bench.opened";
const ASIDE_PREFIX = "bilayer-bench.aside.";

type Change = (current: Batch) => Batch;

/**
 * The open batch of this browser. Every page reads it here and changes it through {@link changeBatch}. Whatever
 * happens to it is mirrored among the records, so that it is there when another batch is open.
 */
export const batch = atom<Batch>(EMPTY_BATCH);
/** Field texts that could not be read as a number, by field, so that a reload loses nothing typed. */
export const drafts = atom<Readonly<Record<string, string>>>({});
/** What happened that the reader should know of, newest; empty for nothing. */
export const notice = atom<string>("");

function readItem(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    keeping.set("refused");
    return null;
  }
}

function writeItem(key: string, text: string | null): boolean {
  try {
    if (text === null) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
    return true;
  } catch (error) {
    const full = error instanceof DOMException && error.name === "QuotaExceededError";
    keeping.set(full ? "full" : "refused");
    return false;
  }
}

/** Reads the stored batch; a text that is not one is kept aside under a name of its own, never dropped. */
function readStored(): Batch | undefined {
  const text = readItem(BATCH_KEY);
  if (text === null) return undefined;
  const read = readRecord(text);
  if (read.ok) return read.batch;
  const aside = `${ASIDE_PREFIX}${Date.now()}`;
  if (writeItem(aside, text)) writeItem(BATCH_KEY, null);
  notice.set(
    `The batch stored in this browser could not be read. ${read.message} It is kept aside: export it from the Batch page.`,
  );
  return undefined;
}

function readDrafts(): Readonly<Record<string, string>> {
  try {
    const data: unknown = JSON.parse(readItem(DRAFTS_KEY) ?? "{}");
    if (typeof data !== "object" || data === null) return {};
    return Object.fromEntries(
      Object.entries(data).filter(
        (entry): entry is [string, string] => typeof entry[1] === "string",
      ),
    );
  } catch {
    return {}; // A damaged draft is a text that was no number anyway.
  }
}

let opened = false;
/** Opens the store once a page: reads what is kept and follows other tabs. */
export function openStore(): void {
  if (opened) return;
  opened = true;
  const stored = readStored();
  openedAt = stored ? readOpenedAt() : 0;
  batch.set(stored ?? EMPTY_BATCH);
  drafts.set(readDrafts());
  window.addEventListener("storage", (event) => {
    if (event.key === BATCH_KEY) followUnlessOlder(readStored() ?? EMPTY_BATCH);
    if (event.key === DRAFTS_KEY) drafts.set(readDrafts());
  });
  window.addEventListener("pageshow", ({ persisted }) => {
    // Back from where it heard nothing of other tabs.
    if (persisted && keeping.get() === "kept") follow(readStored() ?? batch.get());
  });
  window.addEventListener("pagehide", writeAllNow);
  settled = settle();
}

/** While this tab cannot store, what it shows may be newer than what another tab could. */
function followUnlessOlder(next: Batch): void {
  const { id, revision = 0 } = batch.get();
  const older = next.id === id && (next.revision ?? 0) < revision;
  if (keeping.get() === "kept" || !older) follow(next);
}

/** What another tab did to the open batch, or which other one it opened. */
function follow(next: Batch): void {
  const shown = batch.get();
  openedAt = readOpenedAt();
  if (shown.id !== undefined && next.id !== shown.id) {
    early = undefined;
    notice.set(
      `Another tab has opened ${titleOf(next)}: it is open here now too. ${capital(titleOf(shown))} is among the records.`,
    );
  }
  batch.set(next);
}

/**
 * Changes the batch and keeps it. The change is applied to what is stored at this moment, so that two tabs
 * editing different fields both keep their edits.
 */
export function changeBatch(change: Change): void {
  const shown = batch.get();
  const stored = keeping.get() === "kept" ? readStored() : undefined;
  if (shown.id !== undefined && stored && stored.id !== shown.id)
    return changeApart(shown, change, stored);
  const current = stored ?? shown;
  const next = change(current);
  if (next === current) return;
  early?.push(change);
  keep(counted(next));
}

/** Another tab has opened another batch, and this one has not followed yet: the change is not for that one. */
function changeApart(shown: Batch, change: Change, stored: Batch): void {
  void keepApart(shown, change);
  follow(stored);
}

async function keepApart(shown: Batch, change: Change): Promise<void> {
  const text = writeRecord(counted(change(shown)));
  if (await changeKept(shown, change)) return;
  writeItem(`${ASIDE_PREFIX}${Date.now()}`, text);
  notice.set(
    `Another tab has opened another batch. ${capital(titleOf(shown))} could not be kept among the records; with your last change it is kept aside: export it from the Batch page.`,
  );
}

/** Changes a batch where it is kept, if that is not older than this one. @returns whether it is kept */
async function changeKept(known: Batch, change: Change): Promise<boolean> {
  // At once: a change may read a field, which shows another batch a moment later.
  const next = counted(change(known));
  const records = await database();
  if (!records || known.id === undefined) return false;
  return records.update("batches", known.id, (text) => {
    const read = text === undefined ? undefined : readRecord(text);
    const newer = read?.ok && isNewer(read.batch, known);
    return rowsFor(newer ? counted(change(read.batch)) : next, text);
  });
}

/** Changes any of the records, the open one or another. @returns whether it is kept */
export async function changeRecord(record: Batch, change: Change): Promise<boolean> {
  if (record.id !== batch.get().id) return changeKept(record, change);
  changeBatch(change);
  return true;
}

/** A batch after a change: one more revision, and from its first content on an id. */
function counted(next: Batch): Batch {
  const named = identified(next);
  return named.id === undefined ? named : { ...named, revision: (named.revision ?? 0) + 1 };
}

function identified(next: Batch): Batch {
  return next.id !== undefined || isBlank(next) ? next : { ...next, id: newId() };
}

/** Whether nothing was entered that would be worth keeping; units are a taste, not a content. */
export function isBlank({ name, values, units: _, notes, ...more }: Batch): boolean {
  const entered = Object.keys(values).length + Object.keys(more).length;
  return name === "" && notes === "" && entered === 0;
}

function isNewer(one: Batch, other: Batch): boolean {
  return (one.revision ?? 0) > (other.revision ?? 0);
}

/** A batch in a sentence: by its name, if it has one. */
export function titleOf({ name }: Batch): string {
  return name === "" ? "a batch without a name" : `“${name}”`;
}

function keep(next: Batch): void {
  if (next.id !== batch.get().id) {
    openedAt = Math.max(Date.now(), openedAt + 1);
    writeItem(OPENED_KEY, String(openedAt));
  }
  // Only the batch itself tells: a shorter text may find room where the batch does not, and what is stored of
  // it is behind what is shown until it is written again.
  if (writeItem(BATCH_KEY, writeRecord(next))) keeping.set("kept");
  batch.set(next);
  mirror(next);
}

let openedAt = 0;
function readOpenedAt(): number {
  return Number(readItem(OPENED_KEY)) || 0;
}

/** Changes since the page opened while the database was not asked yet; `undefined` once it was. */
let early: Change[] | undefined;
let settled: Promise<void> | undefined;

/**
 * Asks the database once whether it knows better. A browser that was killed has lost the last seconds of its
 * quick storage, and may not even know which batch was open; the database has all but the last keystroke.
 */
async function settle(): Promise<void> {
  early = [];
  const base = batch.get();
  const records = await database();
  const later = readOpening(await records?.get("open", "batch"));
  const wanted = later && later.at > openedAt ? later.id : base.id;
  const text = wanted === undefined ? undefined : await records?.get("batches", wanted);
  const read = text === undefined ? undefined : readRecord(text);
  const changes = early;
  early = undefined;
  // Another batch was opened meanwhile, and that is newer than all of this.
  if (!changes) return;
  const same = wanted === base.id;
  if (read?.ok && (!same || isNewer(read.batch, base))) {
    // What was typed meanwhile goes on top, unless it was typed into a batch of its own.
    const typedHere = same || isBlank(base);
    const next = typedHere
      ? changes.reduce((current, change) => counted(change(current)), read.batch)
      : read.batch;
    if (typedHere) waiting.clear();
    else mirror(batch.get());
    keep(next);
  } else if (batch.get().id === undefined && !isBlank(batch.get())) {
    // From before batches had ids.
    changeBatch((current) => ({ ...current }));
  } else mirror(batch.get());
}

function readOpening(text: string | undefined): { id: string; at: number } | undefined {
  const [id, at] = text?.split(" ") ?? [];
  return id !== undefined && Number(at) > 0 ? { id, at: Number(at) } : undefined;
}

let loaded: typeof Database | undefined;
/** The database, which comes after everything that a page needs at once; nothing where it does not come. */
async function database(): Promise<typeof Database | undefined> {
  try {
    return (loaded ??= await import("./database.ts"));
  } catch {
    // A connection that broke off: the next change asks again.
    recordsKeeping.set("refused");
    return undefined;
  }
}

/** What the database has still to write, by id: only the newest of each. */
const waiting = new Map<string, Batch>();
let writing: Promise<void> | undefined;
/** Which batch the database knows to be the open one, as it is written there. */
let pointed = "";
let lookedForRoom = false;

function mirror(next: Batch): void {
  if (next.id === undefined) return;
  waiting.set(next.id, next);
  writing ??= write();
}

/** Writes what waits, one after another, and then which batch is open. */
async function write(): Promise<void> {
  try {
    const records = await database();
    await settled;
    // What was changed is painted first; the quick storage has it by now.
    await new Promise((resolve) => setTimeout(resolve));
    while (records && (waiting.size > 0 || pointer() !== pointed)) await writeNext(records);
  } finally {
    writing = undefined;
  }
}

function pointer(): string {
  const { id } = batch.get();
  return id === undefined ? pointed : `${id} ${openedAt}`;
}

async function writeNext(records: typeof Database): Promise<void> {
  const [next] = waiting.values();
  if (next) return writeOne(records, next);
  pointed = pointer();
  await records.put("open", "batch", pointed);
}

async function writeOne(records: typeof Database, next: Batch): Promise<void> {
  const { id = "" } = next;
  waiting.delete(id);
  const kept = await records.update("batches", id, (text) => rowsFor(next, text));
  if (!kept && id !== batch.get().id)
    notice.set(
      `${capital(titleOf(next))} could not be kept among the records of this browser. Bring it back with Undo on the Batch page, and save it as a file.`,
    );
  if (lookedForRoom) return;
  lookedForRoom = true;
  if (await records.nearlyFull())
    notice.set(
      "This browser has little room left. Save all records as a file on the Records page.",
    );
}

/** The page goes: what waits is handed over at once, and the database keeps the order. */
function writeAllNow(): void {
  if (!loaded) return;
  for (const next of [...waiting.values()]) void writeOne(loaded, next);
}

/** Settles when the database has been given everything. */
export async function written(): Promise<void> {
  await settled;
  await writing;
}

/** The rows that keep a batch, given what its place holds: never over a newer one, and nothing is dropped. */
function rowsFor(next: Batch, text: string | undefined): readonly Database.Row[] {
  const row = { id: next.id ?? "", text: writeRecord(next) };
  if (text === undefined) return [row];
  if (text === row.text) return [];
  const there = readRecord(text);
  if (!there.ok) return [row, { id: `aside-${newId()}`, text }];
  return isNewer(there.batch, next) ? [] : [row];
}

/** Sets one value in SI, or takes it back to its default or link with `undefined`. */
export function setValue(key: string, value: InputValue | undefined): void {
  changeBatch((current) => {
    const { [key]: _, ...others } = current.values;
    return { ...current, values: value === undefined ? others : { ...others, [key]: value } };
  });
}

/** Sets the unit that a quantity is shown in. */
export function setUnit(name: string, unit: string): void {
  changeBatch((current) => ({ ...current, units: { ...current.units, [name]: unit } }));
}

/** Keeps or forgets a text that is not a number yet. */
export function setDraft(field: string, text: string | undefined): void {
  const { [field]: _, ...others } = drafts.get();
  const next = text === undefined ? others : { ...others, [field]: text };
  if (text === undefined && !(field in drafts.get())) return;
  writeItem(DRAFTS_KEY, Object.keys(next).length === 0 ? null : JSON.stringify(next));
  drafts.set(next);
}

/**
 * Puts a whole batch in place of the open one, which stays among the records and which {@link undoReplace}
 * brings back.
 */
export function replaceBatch(next: Batch): void {
  putAway();
  keep(identified(next));
}

function putAway(): void {
  const current = identified((keeping.get() === "kept" && readStored()) || batch.get());
  writeItem(BEFORE_KEY, writeRecord(current));
  before = current;
  writeItem(DRAFTS_KEY, null);
  drafts.set({});
  early = undefined;
  mirror(current);
}

/**
 * Opens a batch that came from elsewhere. Where the records hold another one under its id, nobody can tell which
 * of the two is the newer: it gets an id of its own, and both are kept.
 */
export async function openForeign(next: Batch): Promise<void> {
  await written();
  const { id } = next;
  const text = id === undefined ? undefined : await (await database())?.get("batches", id);
  const there = text === undefined ? undefined : readRecord(text);
  const other = there && !(there.ok && isSame(there.batch, next));
  replaceBatch(other ? { ...next, id: newId() } : next);
}

let before: Batch | undefined;
/** The batch that the last replacement put away, if any; it outlives a reload. */
export function replacedBatch(): Batch | undefined {
  if (before) return before;
  const read = readRecord(readItem(BEFORE_KEY) ?? "");
  return read.ok ? read.batch : undefined;
}

/** Brings back what the last replacement put away. */
export function undoReplace(): void {
  const previous = replacedBatch();
  if (!previous) return;
  putAway();
  before = undefined;
  writeItem(BEFORE_KEY, null);
  keep(previous);
  // A tab that had not followed may have changed it since.
  settled = settle();
}

/** Texts that were kept aside because they could not be read, newest last. */
export function asideTexts(): readonly { readonly name: string; readonly text: string }[] {
  try {
    return Object.keys(localStorage)
      .filter((name) => name.startsWith(ASIDE_PREFIX))
      .sort()
      .map((name) => ({ name, text: localStorage.getItem(name) ?? "" }));
  } catch {
    return [];
  }
}
