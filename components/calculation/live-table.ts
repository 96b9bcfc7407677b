import { fillTable } from "./fill-table.ts";
import { onScene, sameAsBefore, unitIn, type Scene } from "./live.ts";
import { tableRows, type WhichRows } from "./table-rows.ts";

/** ms */
const PAUSE = 500;

class LiveTable extends HTMLElement {
  #scene: Scene | undefined;
  #visible = false;
  #shown = "";
  readonly #isSame = sameAsBefore();
  #waiting: number | undefined;

  connectedCallback(): void {
    // A comparison works a calculation out once for each kind: at once only where somebody sees it.
    new IntersectionObserver((entries) => {
      this.#visible = entries.some((entry) => entry.isIntersecting);
      if (this.#visible) this.#paint();
    }).observe(this);
    onScene((scene) => {
      this.#scene = scene;
      clearTimeout(this.#waiting);
      if (this.#visible) this.#paint();
      // Out of sight it follows once typing has paused, for whoever does not read with their eyes.
      else this.#waiting = window.setTimeout(() => this.#paint(), PAUSE);
    });
    addEventListener("beforeprint", () => this.#paint());
  }

  #paint(): void {
    const scene = this.#scene;
    const { calculation: id = "", which: text = "{}" } = this.dataset;
    if (!scene || this.#isSame(scene, id)) return;
    const which = JSON.parse(text) as WhichRows;
    const good = scene.shownOf(id);
    const body = this.querySelector("table");
    if (!good || !body) return;
    const table = tableRows(scene.graph, id, which, good, scene.values, (name, offered) =>
      unitIn(scene.batch.units, name, offered),
    );
    const shown = JSON.stringify(table);
    if (shown === this.#shown) return;
    this.#shown = shown;
    fillTable(body, table);
  }
}

/** Makes every computed table on the page follow the reader's batch. */
export function defineLiveTable(): void {
  if (!customElements.get("live-table")) customElements.define("live-table", LiveTable);
}
