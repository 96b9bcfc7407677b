import { setText } from "../shell/elements.ts";
import { onScene, sameAsBefore, unitIn } from "./live.ts";
import { resultText, slotText, type Edge } from "./slots.ts";

class LiveValue extends HTMLElement {
  connectedCallback(): void {
    const { calculation: id = "", name = "", plain, edge } = this.dataset;
    const isSame = sameAsBefore();
    onScene((scene) => {
      if (isSame(scene, id)) return;
      const good = scene.shownOf(id);
      if (!good) return;
      const calculation = scene.graph.get(id);
      const unitOf = (key: string, offered: readonly string[]): string =>
        unitIn(scene.batch.units, key, offered);
      const text = calculation.results[name]
        ? resultText(calculation, good, unitOf, name, {
            plain: plain !== undefined,
            edge: edge as Edge | undefined,
          })
        : slotText(calculation, good, unitOf, name);
      setText(this, text);
    });
  }
}

/** Makes every number in running text follow the reader's batch. */
export function defineLiveValue(): void {
  if (!customElements.get("live-value")) customElements.define("live-value", LiveValue);
}
