import { planOf, readRecord, writeRecord, type Batch, type ReadRecord } from "./record.ts";

const PREFIX = "#batch=";
/** Where links are read no place of the page is called so: it was such a link once. */
const NEARLY = /^#batch(?!-)/i;
const BROKEN = {
  ok: false,
  message: "The link was changed or cut on its way. Ask for it again.",
} as const;
/** Browsers carry longer addresses, messengers cut them. */
const MAX_PAYLOAD = 8_000;

/**
 * The part of an address after the page that carries a plan; nothing is sent to a server. What happened at the
 * bench stays here: a link is for doing the same again.
 *
 * @returns `undefined` for a batch too long for a link, such as one with a long log of a fridge
 */
export function toFragment(batch: Batch): string | undefined {
  const bytes = new TextEncoder().encode(JSON.stringify(JSON.parse(writeRecord(planOf(batch)))));
  const base64 = btoa(String.fromCharCode(...bytes));
  const payload = base64.replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
  return payload.length > MAX_PAYLOAD ? undefined : PREFIX + payload;
}

/**
 * Reads the fragment of an address.
 * @returns `undefined` where it carries no batch at all; else as {@link readRecord}
 */
export function fromFragment(fragment: string): ReadRecord | undefined {
  if (!NEARLY.test(fragment)) return undefined;
  if (!fragment.startsWith(PREFIX)) return BROKEN;
  const payload = fragment.slice(PREFIX.length);
  if (payload.length > MAX_PAYLOAD)
    return { ok: false, message: "The link is longer than any batch of this notebook." };
  try {
    const binary = atob(payload.replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = Uint8Array.from(binary, (c) => c.charCodeAt(0));
    return readRecord(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return BROKEN;
  }
}
