import { EMPTY_BATCH } from "../../lib/batch/record.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { made, setText } from "../shell/elements.ts";
import { countText, fieldTexts, labelsOf, withField } from "./label-text.ts";
import { changeBatch, drafts } from "./store.ts";

const BUILT = fieldTexts(EMPTY_BATCH);

class BatchLabel extends HTMLElement {
  connectedCallback(): void {
    for (const field of this.#fields()) {
      // Typed while this was still loading.
      if (field.value !== BUILT[field.name]) this.#keep(field);
      field.addEventListener("input", () => this.#keep(field));
    }
    let shown: Scene | undefined;
    onScene((scene) => {
      shown = scene;
      this.#paint(scene);
    });
    drafts.listen(() => shown && this.#paint(shown));
  }

  #fields(): readonly (HTMLInputElement | HTMLSelectElement)[] {
    return [...this.querySelectorAll<HTMLInputElement | HTMLSelectElement>("form [name]")];
  }

  #keep({ name, value }: { readonly name: string; readonly value: string }): void {
    changeBatch((current) => withField(current, name, value));
  }

  #paint({ graph, batch, unitFor }: Scene): void {
    const texts = fieldTexts(batch);
    for (const field of this.#fields()) {
      const text = texts[field.name] ?? "";
      // A date that is half typed reads as none, and must not be wiped from under the fingers.
      if (field.value !== text && field !== document.activeElement) field.value = text;
    }
    const { labels, remarks } = labelsOf(graph, batch, drafts.get(), unitFor);
    this.querySelector("[data-remarks]")?.replaceChildren(
      ...remarks.map((text) => made("li", {}, text)),
    );
    setText(this.querySelector("[data-count]"), countText(labels.length));
    const sheet = this.querySelector<HTMLElement>("[data-labels]");
    if (!sheet) return;
    sheet.dataset["size"] = texts["labelSize"];
    sheet.replaceChildren(
      ...labels.map((label) =>
        made(
          "div",
          { class: "label" },
          ...Object.entries(label).map(([part, text]) =>
            made("p", { "data-part": part }, text as string),
          ),
        ),
      ),
    );
  }
}

/** Makes the labels follow the reader's batch. */
export function defineBatchLabel(): void {
  if (!customElements.get("batch-label")) customElements.define("batch-label", BatchLabel);
}
