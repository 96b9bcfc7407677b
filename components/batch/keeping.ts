import { atom, computed } from "nanostores";

/** Whether a storage keeps what it is given, as of the last time it was asked. */
export type Keeping = "kept" | "refused" | "full";

/** Of the quick storage, which has each character at once and tells other tabs of it. */
export const keeping = atom<Keeping>("kept");
/** Of the database. */
export const recordsKeeping = atom<Keeping>("kept");

/** What becomes of the open batch: a browser may refuse one storage and let the other be. */
export const batchKeeping = computed(
  [keeping, recordsKeeping],
  (quick, records): Keeping | "records" => {
    if (quick === "kept") return "kept";
    if (records === "kept") return "records";
    return quick === "full" || records === "full" ? "full" : "refused";
  },
);
