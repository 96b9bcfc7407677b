import { withBandText } from "../../lib/calculations/say.ts";
import { withUnit } from "../../lib/units/format.ts";
import { onScene, unitIn } from "./live.ts";
import { resultText, slotText } from "./slots.ts";

class LiveValue extends HTMLElement {
  connectedCallback(): void {
    const { calculation: id = "", name = "", plain } = this.dataset;
    onScene((scene) => {
      const good = scene.shownOf(id);
      if (!good) return;
      const calculation = scene.graph.get(id);
      const unitOf = (key: string, offered: readonly string[]): string =>
        unitIn(scene.batch.units, key, offered);
      const result = calculation.results[name];
      if (!result) {
        this.textContent = slotText(calculation, good, unitOf, name);
        return;
      }
      const shown = resultText(calculation, good, unitOf, name);
      const text = plain === undefined ? withBandText(shown) : shown.number;
      this.textContent = withUnit(text, result.dimension, unitOf(name, result.units));
    });
  }
}

/** Makes every number in running text follow the reader's batch. */
export function defineLiveValue(): void {
  if (!customElements.get("live-value")) customElements.define("live-value", LiveValue);
}
