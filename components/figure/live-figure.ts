import { onScene, sameAsBefore, unitIn, type Scene } from "../calculation/live.ts";
import { fillTable } from "../calculation/fill-table.ts";
import { widthIn } from "./canvas.ts";
import { figureData } from "./data.ts";
import { dragHandles } from "./drag.ts";
import { figureRows } from "./figure-rows.ts";
import type * as DrawModule from "./draw.ts";
import type { Axis } from "../../lib/calculations/calculation.ts";

type Draw = typeof DrawModule;
type Table = ReturnType<typeof figureRows>;

/** Loaded with the first change, not with the page: the drawing made at build is true until then. */
let loaded: Draw | undefined;

async function load(): Promise<Draw> {
  return (loaded ??= await import("./draw.ts"));
}

/** For paper, which shows every figure and waits for nothing. */
function loadWhenIdle(): void {
  if (loaded) return;
  // Not every browser says when it is idle.
  (window.requestIdleCallback ?? setTimeout)(() => void load());
}

class LiveFigure extends HTMLElement {
  #scene: Scene | undefined;
  #visible = false;
  #painted = "";
  #room: number | undefined;
  #rows: (() => Table) | undefined;
  readonly #isSame = sameAsBefore();

  connectedCallback(): void {
    new IntersectionObserver((entries) => {
      this.#visible = entries.some((entry) => entry.isIntersecting);
      if (this.#visible && this.#stale) void this.#draw();
    }).observe(this);
    onScene((scene) => {
      const untouched = !this.#scene && Object.keys(scene.values).length === 0;
      this.#scene = scene;
      if (untouched && Object.keys(scene.batch.units).length === 0) return;
      // A figure that nobody sees is drawn when it comes into view.
      this.#stale = true;
      if (this.#visible) void this.#draw();
      else loadWhenIdle();
    });
    const place = this.querySelector("[data-drawing]");
    // Asked for amid a change, the width would have to be worked out before the rest of it is painted.
    if (place) new ResizeObserver(() => (this.#room = place.clientWidth)).observe(place);
    this.querySelector("details")?.addEventListener("toggle", () => this.#tabulate());
    dragHandles(this, () => this.#scene);
    addEventListener("beforeprint", () => this.#stale && loaded && this.#drawWith(loaded));
  }

  get #width(): number {
    this.#room ??= this.querySelector("[data-drawing]")?.clientWidth;
    return widthIn(this.#room ?? 512);
  }

  /** The numbers are folded away: they are written when somebody looks. */
  #tabulate(): void {
    const table = this.querySelector<HTMLTableElement>("details[open] [data-rows]");
    if (!table || !this.#rows) return;
    fillTable(table, this.#rows());
    this.#rows = undefined;
  }

  /** Whether other numbers than the reader's are drawn: such a figure is not printed. */
  get #stale(): boolean {
    return this.hasAttribute("data-stale");
  }
  set #stale(stale: boolean) {
    this.toggleAttribute("data-stale", stale);
  }

  async #draw(): Promise<void> {
    this.#drawWith(loaded ?? (await load()));
  }

  #drawWith(plot: Draw): void {
    this.#stale = false;
    const scene = this.#scene;
    const id = this.dataset["calculation"] ?? "";
    const figure = this.dataset["figure"] ?? "";
    const place = this.querySelector("[data-drawing]");
    if (!scene || !place || this.#isSame(scene, id, this.#width)) return;
    const good = scene.shownOf(id);
    if (!good) return;
    const calculation = scene.graph.get(id);
    const data = figureData(scene.graph, calculation, figure, good, scene.values);
    const unitOf = (axis: Axis): string =>
      unitIn(
        scene.batch.units,
        "name" in axis.of ? String(axis.of.name) : undefined,
        axis.of.units,
      );
    const painted = JSON.stringify([data, unitOf(data.x), this.#width]);
    if (painted === this.#painted) return;
    this.#painted = painted;
    const shown = place.querySelector("svg");
    const label = shown?.getAttribute("aria-label") ?? "";
    const drawn = plot.redrawFigure(shown, data, label, {
      document,
      width: this.#width,
      unitOf,
    });
    if (drawn !== shown) place.replaceChildren(drawn);
    this.#rows = () => figureRows(data, unitOf);
    this.#tabulate();
  }
}

/** Makes every figure on the page follow the reader's batch. */
export function defineLiveFigure(): void {
  if (!customElements.get("live-figure")) customElements.define("live-figure", LiveFigure);
}
