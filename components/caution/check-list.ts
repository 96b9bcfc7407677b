/** What a reader has ticked and added on the check list. */
export interface CheckListRecord {
  /** ids of the items printed with the page */
  readonly ticked: readonly string[];
  /** lines of the reader's own */
  readonly own: readonly { readonly text: string; readonly ticked: boolean }[];
}

export const EMPTY_CHECK_LIST: CheckListRecord = { ticked: [], own: [] };
export const OWN_LIMITS = { lines: 30, length: 160 } as const;

/** One line of the reader's own, on one line and not too long; undefined where nothing is left of it. */
export function ownLine(text: string): string | undefined {
  const line = text.replaceAll(/\s+/g, " ").trim().slice(0, OWN_LIMITS.length).trim();
  return line === "" ? undefined : line;
}

/** Reads what the browser kept. Whatever in it is not a check list is passed over, and the rest is used. */
export function readCheckList(text: string | null): CheckListRecord {
  let data: unknown;
  try {
    data = JSON.parse(text ?? "null");
  } catch {
    return EMPTY_CHECK_LIST;
  }
  if (typeof data !== "object" || data === null) return EMPTY_CHECK_LIST;
  const { ticked, own } = data as { readonly ticked?: unknown; readonly own?: unknown };
  return {
    ticked: Array.isArray(ticked)
      ? ticked.filter((id): id is string => typeof id === "string")
      : [],
    own: (Array.isArray(own) ? (own as unknown[]) : [])
      .flatMap((entry) => {
        if (typeof entry !== "object" || entry === null) return [];
        const { text: kept, ticked: on } = entry as { text?: unknown; ticked?: unknown };
        const line = typeof kept === "string" ? ownLine(kept) : undefined;
        return line === undefined ? [] : [{ text: line, ticked: on === true }];
      })
      .slice(0, OWN_LIMITS.lines),
  };
}

export function writeCheckList(record: CheckListRecord): string {
  return JSON.stringify(record);
}
