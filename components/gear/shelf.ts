import { atom } from "nanostores";
import {
  forgetGear,
  GEAR_KEYS,
  gearFrom,
  readGear,
  useGear,
  writeGear,
  type Gear,
  type GearKind,
} from "../../lib/batch/gear.ts";
import type { Batch } from "../../lib/batch/record.ts";
import { all, onRow, put, remove } from "../batch/database.ts";
import { recordsKeeping } from "../batch/keeping.ts";
import { batch, changeBatch, drafts, setDraft } from "../batch/store.ts";

/** All gear that is kept in this browser, by name; and how many texts on the shelf could not be read. */
export interface Shelf {
  readonly gear: readonly Gear[];
  readonly unread: number;
}

export const shelf = atom<Shelf>({ gear: [], unread: 0 });

/** Takes back what was done last. */
export type Undo = () => void;

let opened = false;
/** Opens the shelf once a page: reads what is kept and follows other tabs. */
export function openShelf(): void {
  if (opened) return;
  opened = true;
  onRow("gear", () => void load());
  void load();
}

let turn = 0;
async function load(): Promise<void> {
  const mine = ++turn;
  const rows = await all("gear");
  // Of two that overlap only the later one counts.
  if (mine !== turn) return;
  const read = rows.map(({ text }) => readGear(text));
  const gear = read.flatMap((one) => (one.ok ? [one.gear] : []));
  gear.sort((a, b) => a.name.localeCompare(b.name));
  shelf.set({ gear, unread: read.length - gear.length });
}

/** @returns whether it is kept */
export function keepGear(gear: Gear): Promise<boolean> {
  return put("gear", gear.id, writeGear(gear));
}

/** @returns whether it is gone */
export function dropGear({ id }: Gear): Promise<boolean> {
  return remove("gear", id);
}

/** Why nothing could be kept, and what to do. */
export function notKept(): string {
  const why =
    recordsKeeping.get() === "full"
      ? "This browser’s storage is full"
      : "This browser refuses to keep gear";
  return `${why}, so nothing was kept here. The numbers stand in the open batch: save it as a file, and they are in it.`;
}

export function keptOf(kind: GearKind): readonly Gear[] {
  return shelf.get().gear.filter((one) => one.kind === kind);
}

/** The kept gear that a batch names, if it is still kept. */
export function gearOf(current: Batch, kind: GearKind): Gear | undefined {
  return keptOf(kind).find(({ name }) => name === current.gear?.[kind]);
}

/** Notes in the open batch which gear it uses, or that it uses none that is kept. */
export function nameGear(kind: GearKind, name: string | undefined): void {
  changeBatch((current) =>
    name === undefined
      ? forgetGear(current, kind)
      : { ...current, gear: { ...current.gear, [kind]: name } },
  );
}

/** Puts a piece of gear into the open batch. @returns what brings back the numbers that stood there */
export function takeGear(gear: Gear): Undo {
  const { kind } = gear;
  const before = batch.get();
  const numbers = gearFrom(before, kind, before.gear?.[kind] ?? "", gear.id);
  const typed = Object.entries(drafts.get()).filter(([key]) => GEAR_KEYS[kind].includes(key));
  for (const [key] of typed) setDraft(key, undefined);
  putIn(gear);
  return () => {
    putIn(numbers);
    for (const [key, text] of typed) setDraft(key, text);
  };
}

/** Gear without a name is numbers alone. */
function putIn(gear: Gear): void {
  changeBatch((current) => {
    const used = useGear(current, gear);
    return gear.name === "" ? forgetGear(used, gear.kind) : used;
  });
}
