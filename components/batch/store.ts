import { atom } from "nanostores";
import { BATCH_KEY, DRAFTS_KEY } from "./keys.ts";
import type { InputValue } from "../../lib/calculations/calculation.ts";
import { EMPTY_BATCH, readRecord, writeRecord, type Batch } from "../../lib/batch/record.ts";

const BEFORE_KEY = "bilayer-bench.before";
const ASIDE_PREFIX = "bilayer-bench.aside.";

/** Whether the browser keeps what is typed. */
export type Keeping = "kept" | "refused" | "full";

/** The one batch of this browser. Every page reads it here and changes it through {@link changeBatch}. */
export const batch = atom<Batch>(EMPTY_BATCH);
/** Field texts that could not be read as a number, by field, so that a reload loses nothing typed. */
export const drafts = atom<Readonly<Record<string, string>>>({});
export const keeping = atom<Keeping>("kept");
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
    if (keeping.get() === "full") keeping.set("kept");
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
  batch.set(readStored() ?? EMPTY_BATCH);
  drafts.set(readDrafts());
  window.addEventListener("storage", (event) => {
    if (event.key === BATCH_KEY) batch.set(readStored() ?? EMPTY_BATCH);
    if (event.key === DRAFTS_KEY) drafts.set(readDrafts());
  });
}

/**
 * Changes the batch and keeps it. The change is applied to what is stored at this moment, so that two tabs
 * editing different fields both keep their edits.
 */
export function changeBatch(change: (current: Batch) => Batch): void {
  const current = keeping.get() === "kept" ? (readStored() ?? batch.get()) : batch.get();
  const next = change(current);
  writeItem(BATCH_KEY, writeRecord(next));
  batch.set(next);
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

/** Puts a whole batch in place of the present one, which {@link undoReplace} brings back. */
export function replaceBatch(next: Batch): void {
  writeItem(BEFORE_KEY, writeRecord(batch.get()));
  before = batch.get();
  writeItem(DRAFTS_KEY, null);
  drafts.set({});
  changeBatch(() => next);
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
  before = undefined;
  writeItem(BEFORE_KEY, null);
  changeBatch(() => previous);
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
