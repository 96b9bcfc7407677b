import {
  EMPTY_BATCH,
  MAX_TEXT,
  readRecord,
  writeRecord,
  type Batch,
} from "../../lib/batch/record.ts";
import { fromFragment, toFragment } from "../../lib/batch/share-link.ts";
import { needNow } from "../calculation/when-needed.ts";
import { batchKeeping } from "./keeping.ts";
import { fileName, save } from "./save.ts";
import {
  asideTexts,
  batch,
  changeBatch,
  notice,
  openForeign,
  openStore,
  replaceBatch,
  replacedBatch,
  undoReplace,
} from "./store.ts";

const KEEPING: Readonly<Record<ReturnType<typeof batchKeeping.get>, string>> = {
  kept: "Your batch is kept in this browser only. Nothing is sent anywhere.",
  records:
    "Part of this browser’s storage is refused or full: your batch is kept among the records of this browser alone. Edit it in one tab only, and wait a moment before you close that. Nothing is sent anywhere.",
  refused:
    "This browser refuses to keep anything: all works, but your batch is gone when you close the page. Save it as a file.",
  full: "This browser’s storage is full: your latest changes are not kept. Save the batch as a file.",
};

class BatchActions extends HTMLElement {
  #offered: Batch | undefined;

  connectedCallback(): void {
    openStore();
    const name = this.querySelector<HTMLInputElement>("[data-name]");
    name?.addEventListener("input", () =>
      changeBatch((current) => ({ ...current, name: name.value.slice(0, 120) })),
    );
    batch.listen(needNow);
    batch.subscribe((current) => {
      if (name && name.value !== current.name) name.value = current.name;
      this.#showButtons();
    });
    batchKeeping.subscribe((state) => this.#text("[data-keeping]", KEEPING[state]));
    notice.subscribe((text) => text !== "" && this.#say(text));
    this.#on("[data-share]", () => void this.#share());
    this.#on("[data-export]", () =>
      save(writeRecord(batch.get()), fileName(batch.get().name, "json")),
    );
    this.#on("[data-restart]", () => {
      replaceBatch(EMPTY_BATCH);
      this.#say("Everything is back to the demonstration batch. Undo brings yours back.");
    });
    this.#on("[data-undo]", () => {
      undoReplace();
      this.#showButtons();
      this.#say("Your earlier batch is back.");
    });
    this.#on("[data-aside]", () => {
      for (const { name: key, text } of asideTexts()) save(text, `${key}.json`);
    });
    this.querySelector<HTMLInputElement>("[data-import]")?.addEventListener("change", (event) => {
      const input = event.target as HTMLInputElement;
      const file = input.files?.[0];
      if (file) void this.#import(file);
      input.value = "";
    });
    this.#on("[data-accept]", () => this.#answer(true));
    this.#on("[data-decline]", () => this.#answer(false));
    this.#openLink();
    addEventListener("hashchange", () => this.#openLink());
  }

  #on(selector: string, listener: () => void): void {
    this.querySelector(selector)?.addEventListener("click", listener);
  }

  #text(selector: string, text: string): void {
    const place = this.querySelector(selector);
    if (place) place.textContent = text;
  }

  #say(text: string): void {
    this.#text("[data-said]", text);
  }

  #showButtons(): void {
    this.querySelector("[data-undo]")?.toggleAttribute("hidden", replacedBatch() === undefined);
    this.querySelector("[data-aside]")?.toggleAttribute("hidden", asideTexts().length === 0);
  }

  async #share(): Promise<void> {
    const link = new URL(location.href);
    const fragment = toFragment(batch.get());
    if (fragment === undefined) {
      this.#say("This batch is too long for a link, with its logs and notes. Save it as a file.");
      return;
    }
    link.hash = fragment;
    try {
      await navigator.clipboard.writeText(link.href);
      this.#say(
        "The link is copied. Whoever opens it sees this batch; nothing is stored on the way.",
      );
    } catch {
      // No clipboard here: the address bar can be copied by hand.
      history.replaceState(null, "", link.hash);
      this.#say("The link is in the address bar now: copy it from there.");
    }
  }

  async #import(file: File): Promise<void> {
    const read =
      file.size > MAX_TEXT
        ? { ok: false as const, message: "It is far too long to be a batch of this notebook." }
        : readRecord(await file.text());
    if (!read.ok)
      return this.#say(`“${file.name}” was not opened. ${read.message} Your batch is as it was.`);
    await openForeign(read.batch);
    this.#say(`“${file.name}” is open. Undo brings your earlier batch back.`);
  }

  #openLink(): void {
    const read = fromFragment(location.hash);
    if (!read) return;
    history.replaceState(null, "", location.pathname + location.search);
    if (!read.ok) return this.#say(`The batch in the link was not opened. ${read.message}`);
    this.#offered = read.batch;
    const mine = batch.get();
    if (Object.keys(mine.values).length === 0 && mine.name === "") return this.#answer(true);
    const title = read.batch.name === "" ? "A batch without a name" : `“${read.batch.name}”`;
    this.#text(
      "[data-offer-text]",
      `${title} would take the place of yours. Undo brings yours back.`,
    );
    this.querySelector("dialog")?.showModal();
  }

  #answer(yes: boolean): void {
    this.querySelector("dialog")?.close();
    if (yes && this.#offered) {
      replaceBatch(this.#offered);
      this.#say("The batch from the link is open. Undo brings back what was here before.");
    }
    this.#offered = undefined;
  }
}

/** Makes the batch's own buttons work. */
export function defineBatchActions(): void {
  if (!customElements.get("batch-actions")) customElements.define("batch-actions", BatchActions);
}
