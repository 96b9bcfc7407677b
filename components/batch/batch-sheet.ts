import { planBatch } from "../../lib/batch/plan.ts";
import { stageNotices } from "../../lib/batch/stages.ts";
import { onScene, unitIn, type Scene } from "../calculation/live.ts";
import { made, setText } from "../shell/elements.ts";
import {
  benchInventedSentence,
  draftSentences,
  inventedSentence,
  planSentences,
  sheetLines,
  stageSentences,
} from "./sheet-text.ts";
import { drafts } from "./store.ts";

class BatchSheet extends HTMLElement {
  connectedCallback(): void {
    onScene((scene) => this.#paint(scene));
  }

  #paint(scene: Scene): void {
    const planned = planBatch(scene.graph, scene.values);
    const own = Object.keys(scene.values).length > 0;
    this.#text("[data-sheet-name]", this.#title(scene, own));
    this.querySelector("[data-sheet-demo]")?.toggleAttribute("hidden", own);
    const invented = own ? inventedSentence(scene.graph, scene.values) : "";
    this.#text("[data-sheet-invented]", invented);
    this.#text(
      "[data-bench-invented]",
      own ? benchInventedSentence(scene.graph, scene.values) : "",
    );
    this.#text("[data-sheet-notes]", scene.batch.notes);
    const unit = unitIn(scene.batch.units, "waterMass", ["g", "kg", "oz"]);
    const readability = Number(scene.outcomeOf("weighing").inputs["readability"] ?? 1e-4);
    const lines = sheetLines(planned, readability, unit);
    for (const row of this.querySelectorAll<HTMLElement>("[data-ingredient]")) {
      const line = lines.find(({ ingredient }) => ingredient === row.dataset["ingredient"]);
      row.hidden = !line;
      for (const cell of row.querySelectorAll<HTMLElement>("[data-cell]")) {
        const name = cell.dataset["cell"] as "portion" | "reading" | "tolerance";
        cell.textContent = line?.[name] ?? "";
      }
    }
    this.querySelector("[data-sheet-table]")?.toggleAttribute("hidden", !planned.ok);
    this.#text(
      "[data-sheet-vessels]",
      this.#vessels(planned.ok ? planned.plan.vessels : undefined),
    );
    this.querySelector("[data-sheet-cautions]")?.replaceChildren(
      ...[
        ...draftSentences(scene.graph, drafts.get()),
        ...planSentences(planned, scene.unitFor),
        ...stageSentences(scene.graph, stageNotices(scene.outcomeOf), scene.unitFor),
      ].map(({ text }) => made("li", {}, text)),
    );
  }

  #title({ batch }: Scene, own: boolean): string {
    if (batch.name !== "") return batch.name;
    return own ? "My batch" : "Demonstration batch";
  }

  #vessels(count: number | undefined): string {
    if (count === undefined)
      return "There is nothing to weigh yet: mend what the Batch page marks, then print this sheet.";
    return count === 1
      ? "One beaker on the scale, tare once, then add until the display shows the reading."
      : `Make it in ${count} equal parts, one beaker each: the readings are for one part. Tare once for each beaker, and tick each line ${count} times.`;
  }

  #text(selector: string, text: string): void {
    setText(this.querySelector(selector), text);
  }
}

/** Makes the sheet show the reader's batch. */
export function defineBatchSheet(): void {
  if (!customElements.get("batch-sheet")) customElements.define("batch-sheet", BatchSheet);
}
