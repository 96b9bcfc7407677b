import { batch, changeBatch, openStore } from "./store.ts";

/** Characters: as many as a record may have. */
const LONGEST = 4000;

class BatchNotes extends HTMLElement {
  connectedCallback(): void {
    openStore();
    const area = this.querySelector("textarea");
    if (!area) return;
    batch.subscribe(({ notes }) => {
      if (area.value !== notes) area.value = notes;
    });
    area.addEventListener("input", () =>
      changeBatch((current) => ({ ...current, notes: area.value.slice(0, LONGEST) })),
    );
  }
}

/** Keeps what is typed into the notes with the batch. */
export function defineBatchNotes(): void {
  customElements.define("batch-notes", BatchNotes);
}
