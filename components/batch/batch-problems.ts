import { planBatch } from "../../lib/batch/plan.ts";
import { stageNotices } from "../../lib/batch/stages.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { cautionItem } from "../caution/caution-item.ts";
import { paintEvening } from "./evening-line.ts";
import {
  byCare,
  draftSentences,
  inventedSentence,
  planSentences,
  stageSentences,
} from "./sheet-text.ts";
import { drafts } from "./store.ts";

class BatchProblems extends HTMLElement {
  connectedCallback(): void {
    let latest: Scene | undefined;
    onScene((scene) => {
      latest = scene;
      this.#paint(scene);
    });
    // A text that is no number changes nothing in the batch, and still stands in its way.
    drafts.listen(() => latest && this.#paint(latest));
  }

  #paint({ graph, batch, values, unitFor, outcomeOf }: Scene): void {
    paintEvening(this, batch);
    const sentences = [
      ...draftSentences(graph, drafts.get()),
      ...planSentences(planBatch(graph, values), unitFor),
      ...stageSentences(graph, stageNotices(outcomeOf), unitFor),
    ];
    const invented = inventedSentence(graph, values);
    const line = this.querySelector<HTMLElement>("[data-invented]");
    if (line) {
      line.textContent = invented;
      line.hidden = invented === "" || Object.keys(values).length === 0;
    }
    const { hard, care } = byCare(sentences);
    this.querySelector("[data-nothing]")?.toggleAttribute("hidden", hard.length > 0);
    this.querySelector("[data-sentences]")?.toggleAttribute("hidden", hard.length === 0);
    this.querySelector("[data-sentences]")?.replaceChildren(...hard.map(cautionItem));
    this.querySelector("[data-care]")?.toggleAttribute("hidden", care.length === 0);
    this.querySelector("[data-care-sentences]")?.replaceChildren(...care.map(cautionItem));
  }
}

/** Makes the list of what stands in the way or wants care follow the reader's batch. */
export function defineBatchProblems(): void {
  if (!customElements.get("batch-problems")) customElements.define("batch-problems", BatchProblems);
}
