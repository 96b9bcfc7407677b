import { onScene, sameAsBefore, unitIn } from "../calculation/live.ts";
import { slotText } from "../calculation/slots.ts";
import { setText } from "../shell/elements.ts";

class LiveEquation extends HTMLElement {
  connectedCallback(): void {
    const id = this.dataset["calculation"] ?? "";
    const slots = this.querySelectorAll<MathMLElement>("[data-slot]");
    const isSame = sameAsBefore();
    onScene((scene) => {
      if (isSame(scene, id)) return;
      const good = scene.shownOf(id);
      if (!good) return;
      const calculation = scene.graph.get(id);
      const unitOf = (name: string, offered: readonly string[]): string =>
        unitIn(scene.batch.units, name, offered);
      for (const slot of slots)
        setText(slot, slotText(calculation, good, unitOf, slot.dataset["slot"] ?? ""));
    });
  }
}

/** Makes every equation on the page show the reader's numbers. */
export function defineLiveEquation(): void {
  if (!customElements.get("live-equation")) customElements.define("live-equation", LiveEquation);
}
