import { scheduleBatch } from "../../lib/batch/schedule.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { made, setText } from "../shell/elements.ts";
import { siteLink } from "../shell/root.ts";
import { readClock, stepLines, totalText, type StepLine } from "./plan-text.ts";

/** Kept while the window is open: when one means to start is part of no batch. */
const START_KEY = "bilayer-bench.plan-start";

class PlanStages extends HTMLElement {
  #scene: Scene | undefined;

  connectedCallback(): void {
    const field = this.querySelector<HTMLInputElement>("[data-start]");
    if (field && field.value === "") field.value = remembered();
    field?.addEventListener("input", () => {
      remember(field.value);
      if (this.#scene) this.#paint(this.#scene);
    });
    onScene((scene) => this.#paint(scene));
  }

  #paint(scene: Scene): void {
    this.#scene = scene;
    const start = readClock(this.querySelector<HTMLInputElement>("[data-start]")?.value ?? "");
    const scheduled = scheduleBatch(scene.graph, scene.values);
    setText(this.querySelector("[data-total]"), totalText(scheduled, start));
    this.querySelector("[data-scroll]")?.toggleAttribute("hidden", !scheduled.ok);
    const head = this.querySelector("[data-begins]");
    if (head) head.textContent = start === undefined ? "Begins after" : "Begins at";
    if (scheduled.ok)
      this.querySelector("[data-scroll] tbody")?.replaceChildren(
        ...stepLines(scheduled.steps, start).map((line) => row(line)),
      );
  }
}

function row({ id, label, begins, lasts, you, derivation }: StepLine): HTMLTableRowElement {
  return made(
    "tr",
    { "data-step": id },
    made("th", { scope: "row" }, derivation ? siteLink(derivation.href, label) : label),
    ...[begins, lasts, you].map((text) => made("td", {}, text)),
  );
}

function remembered(): string {
  try {
    return sessionStorage.getItem(START_KEY) ?? "";
  } catch {
    return ""; // Nothing can be kept, so nothing was.
  }
}

function remember(text: string): void {
  try {
    sessionStorage.setItem(START_KEY, text);
  } catch {
    // The field still holds it.
  }
}

/** Makes the plan's table of steps follow the reader's batch and the time it starts. */
export function definePlanStages(): void {
  if (!customElements.get("plan-stages")) customElements.define("plan-stages", PlanStages);
}
