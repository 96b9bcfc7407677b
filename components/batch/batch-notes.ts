import { MAX_NOTES } from "../../lib/batch/record.ts";
import { batch, changeBatch, openStore } from "./store.ts";

class BatchNotes extends HTMLElement {
  connectedCallback(): void {
    openStore();
    const area = this.querySelector("textarea");
    if (!area) return;
    batch.subscribe(({ notes }) => {
      if (area.value !== notes) area.value = notes;
    });
    area.addEventListener("input", () =>
      changeBatch((current) => ({ ...current, notes: area.value.slice(0, MAX_NOTES) })),
    );
  }
}

/** Keeps what is typed into the notes with the batch. */
export function defineBatchNotes(): void {
  customElements.define("batch-notes", BatchNotes);
}
