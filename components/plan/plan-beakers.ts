import { compareBeakers } from "../../lib/batch/scaling-up.ts";
import { readEntry } from "../../lib/calculations/entry.ts";
import type { BatchValues } from "../../lib/calculations/graph.ts";
import { fillTable } from "../calculation/fill-table.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { made } from "../shell/elements.ts";
import { bathInputs, beakerRows, misfitTexts } from "./plan-text.ts";

/** ms: a comparison asks for two dozen results. */
const PAUSE = 300;
/** Kept while the window is open: a bath that one thinks of buying is not the batch's. */
const BATH_KEY = "bilayer-bench.plan-bath";

class PlanBeakers extends HTMLElement {
  #scene: Scene | undefined;
  #waiting: number | undefined;

  connectedCallback(): void {
    const kept = remembered();
    for (const field of this.#fields) {
      if (field.value === "") field.value = kept[field.name] ?? "";
      field.addEventListener("input", () => {
        remember(Object.fromEntries(this.#fields.map(({ name, value }) => [name, value])));
        this.#soon();
      });
    }
    onScene((scene) => {
      this.#scene = scene;
      this.#soon();
    });
  }

  get #fields(): readonly HTMLInputElement[] {
    return Array.from(this.querySelectorAll("input"));
  }

  #soon(): void {
    clearTimeout(this.#waiting);
    this.#waiting = window.setTimeout(() => this.#scene && this.#paint(this.#scene), PAUSE);
  }

  #paint(scene: Scene): void {
    const { bath, sound } = this.#bath(scene);
    const compared = compareBeakers(scene.graph, scene.values, bath);
    this.querySelector("[data-none]")?.toggleAttribute("hidden", compared.length > 0);
    this.querySelector("[data-scroll]")?.toggleAttribute("hidden", compared.length === 0);
    // A bath that cannot be read leaves the last one standing.
    if (!sound || compared.length === 0) return;
    const table = this.querySelector("table");
    if (table) fillTable(table, beakerRows(compared, scene.unitFor));
    const misfits = misfitTexts(scene.graph, compared, scene.unitFor);
    this.querySelector("[data-misfits]")?.replaceChildren(
      ...misfits.map((text) => made("li", {}, text)),
    );
    this.querySelector("[data-fits]")?.toggleAttribute("hidden", misfits.length > 0);
  }

  /** What is typed of another bath, in SI; an error stands beside its field. */
  #bath({ graph, unitFor }: Scene): { readonly bath: BatchValues; readonly sound: boolean } {
    const bath: Record<string, number> = {};
    let sound = true;
    for (const input of bathInputs(graph)) {
      const field = this.querySelector<HTMLInputElement>(`input[name="${input.name}"]`);
      const error = this.querySelector<HTMLElement>(`[data-error-for="${input.name}"]`);
      const unit = this.querySelector(`[data-unit-of="${input.name}"]`);
      if (unit) unit.textContent = unitFor(input);
      const text = field?.value.trim() ?? "";
      const read = text === "" ? undefined : readEntry(input, text, unitFor(input));
      const message = read?.ok === false ? read.message : "";
      if (error) {
        error.textContent = message;
        error.hidden = message === "";
      }
      if (message === "") field?.removeAttribute("aria-invalid");
      else field?.setAttribute("aria-invalid", "true");
      if (read?.ok) bath[input.name] = read.value;
      sound &&= message === "";
    }
    return { bath, sound };
  }
}

function remembered(): Readonly<Record<string, string>> {
  try {
    return JSON.parse(sessionStorage.getItem(BATH_KEY) ?? "{}") as Readonly<Record<string, string>>;
  } catch {
    return {}; // Nothing can be kept, so nothing was.
  }
}

function remember(texts: Readonly<Record<string, string>>): void {
  try {
    sessionStorage.setItem(BATH_KEY, JSON.stringify(texts));
  } catch {
    // The fields still hold them.
  }
}

/** Makes the comparison of one to four beakers follow the reader's batch and the bath that is typed. */
export function definePlanBeakers(): void {
  if (!customElements.get("plan-beakers")) customElements.define("plan-beakers", PlanBeakers);
}
