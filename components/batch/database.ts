import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import { recordsKeeping } from "./keeping.ts";
import { DATABASE } from "./keys.ts";

const VERSION = 1;
/** Of the browser's quota: from here on there is little room left for another evening. */
const NEARLY_FULL = 0.9;

interface Contents extends DBSchema {
  batches: { key: string; value: string };
  gear: { key: string; value: string };
  /** Under "batch": which batch is the open one. */
  open: { key: string; value: string };
}
type Connection = IDBPDatabase<Contents>;

/** Where a record is kept. */
export type Shelf = "batches" | "gear" | "open";

/** A record as it is kept: a text, to be read as carefully as one that a stranger sent. */
export interface Row {
  readonly id: string;
  readonly text: string;
}

let connection: Promise<Connection> | undefined;

function connect(): Promise<Connection> {
  if (!globalThis.indexedDB) throw new DOMException("no database here", "NotSupportedError");
  return (connection ??= openDB<Contents>(DATABASE, VERSION, {
    upgrade: (database) => {
      for (const shelf of ["batches", "gear", "open"] as const) database.createObjectStore(shelf);
    },
    // A newer version of this notebook in another tab waits for this one to let go.
    blocking: disconnect,
    terminated: () => (connection = undefined),
  }));
}

function disconnect(): void {
  const closing = connection;
  connection = undefined;
  void closing?.then(
    (database) => database.close(),
    () => undefined, // It never opened.
  );
}

/** Asks the database; a browser that refuses or has no room is a state, not an error. */
async function ask<T>(work: (database: Connection) => Promise<T>, otherwise: T): Promise<T> {
  try {
    const answer = await work(await connect());
    if (recordsKeeping.get() === "refused") recordsKeeping.set("kept");
    return answer;
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    const full = error.name === "QuotaExceededError";
    // A connection that the system cut serves no more: the next question opens a new one.
    if (!full) disconnect();
    recordsKeeping.set(full ? "full" : "refused");
    return otherwise;
  }
}

/** Every row of a shelf, by id; none where the browser refuses. */
export function all(shelf: Shelf): Promise<readonly Row[]> {
  return ask(async (database) => {
    const transaction = database.transaction(shelf);
    const [ids, texts] = await Promise.all([
      transaction.store.getAllKeys(),
      transaction.store.getAll(),
    ]);
    return ids.map((id, i): Row => ({ id, text: texts[i] ?? "" }));
  }, []);
}

export function get(shelf: Shelf, id: string): Promise<string | undefined> {
  return ask((database) => database.get(shelf, id), undefined);
}

/** Keeps a text under an id, in place of what was there. @returns whether it is kept */
export function put(shelf: Shelf, id: string, text: string): Promise<boolean> {
  return update(shelf, id, () => [{ id, text }]);
}

/**
 * Reads a row and writes what follows from it, with no other tab in between.
 *
 * @param change - from the text kept under that id, if any, to the rows to keep; none to leave all as it is
 * @returns whether all of it is kept
 */
export async function update(
  shelf: Shelf,
  id: string,
  change: (text: string | undefined) => readonly Row[],
): Promise<boolean> {
  let first = false;
  const kept = await ask(async (database) => {
    const transaction = database.transaction(shelf, "readwrite");
    const { store, done } = transaction;
    done.catch(() => undefined); // Awaited below, unless reading fails before that.
    const [text, count] = await Promise.all([store.get(id), store.count()]);
    const rows = change(text);
    first = count === 0 && rows.length > 0;
    await Promise.all([...rows.map((row) => store.put(row.text, row.id)), done]);
    recordsKeeping.set("kept");
    return rows;
  }, undefined);
  for (const row of kept ?? []) announce({ shelf, id: row.id });
  if (kept && first && shelf !== "open") void askToKeep();
  return kept !== undefined;
}

/** @returns whether it is gone */
export async function remove(shelf: Shelf, id: string): Promise<boolean> {
  const gone = await ask(async (database) => {
    await database.delete(shelf, id);
    return true;
  }, false);
  if (gone) announce({ shelf, id });
  return gone;
}

interface Change {
  readonly shelf: Shelf;
  readonly id: string;
}
const listeners = new Set<(change: Change) => void>();
const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel(DATABASE) : undefined;
channel?.addEventListener("message", ({ data }: MessageEvent<Change>) => tell(data));

function tell(change: Change): void {
  for (const listener of listeners) listener(change);
}

function announce(change: Change): void {
  channel?.postMessage(change);
  tell(change);
}

/** Hears of every row that is kept or removed, here or in another tab. */
export function onRow(shelf: Shelf, listener: (id: string) => void): void {
  listeners.add((change) => change.shelf === shelf && listener(change.id));
}

/** With the first record: may the browser throw all of this away when space gets short? */
async function askToKeep(): Promise<void> {
  try {
    await navigator.storage?.persist();
  } catch {
    // It stays as it was; `promised` tells.
  }
}

/** Whether the browser has promised not to throw the records away by itself. */
export async function promised(): Promise<boolean> {
  try {
    return (await navigator.storage?.persisted()) ?? false;
  } catch {
    return false;
  }
}

/** Whether there is little room left for records. A browser that does not say counts as having room. */
export async function nearlyFull(): Promise<boolean> {
  try {
    const { usage = 0, quota = Infinity } = (await navigator.storage?.estimate()) ?? {};
    return usage > NEARLY_FULL * quota;
  } catch {
    return false;
  }
}
