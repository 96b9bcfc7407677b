import { survey, type Obstacle, type Survey } from "../../lib/batch/obstacles.ts";
import { seekRemedies, type Remedy } from "../../lib/batch/remedies.ts";
import type { InputValue } from "../../lib/calculations/calculation.ts";
import type { BatchValues } from "../../lib/calculations/graph.ts";
import { say } from "../../lib/calculations/say.ts";
import { derivationOf } from "../batch/derivations.ts";
import { paintEvening } from "../batch/evening-line.ts";
import { allInventedText, byCare, draftSentences, obstacleText } from "../batch/sheet-text.ts";
import { changeBatch, drafts, notice, setDraft } from "../batch/store.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { cautionLink } from "../caution/caution-item.ts";
import { made, setText } from "../shell/elements.ts";
import { siteLink } from "../shell/root.ts";
import { countText, leftText, offerOnce, takenText, type Offered } from "./plan-text.ts";

/** ms: the search begins once typing has paused. */
const PAUSE = 350;
/** ms: as long as it keeps the page from answering. */
const SLICE = 12;

/** What a press put in place of what, to be put back. */
interface Taken {
  readonly said: string;
  readonly before: Readonly<Record<string, InputValue | undefined>>;
}

class PlanObstacles extends HTMLElement {
  #scene: Scene | undefined;
  #waiting: number | undefined;
  /** Counts the searches: a later one ends an earlier one. */
  #turn = 0;
  readonly #taken: Taken[] = [];

  connectedCallback(): void {
    onScene((scene) => this.#paint(scene));
    notice.subscribe((text) => text !== "" && this.#tell(text));
    drafts.listen(() => this.#scene && this.#paint(this.#scene));
    this.querySelector("[data-undo]")?.addEventListener("click", () => this.#undo());
  }

  #paint(scene: Scene): void {
    this.#scene = scene;
    paintEvening(this, scene.batch);
    clearTimeout(this.#waiting);
    const turn = ++this.#turn;
    const now = survey(scene.graph, scene.values, scene.outcomeOf);
    const { hard, care } = byCare(now.obstacles);
    const misread = draftSentences(scene.graph, drafts.get());
    const items = hard.map((obstacle) => this.#item(scene, obstacle));
    this.#list("[data-obstacles]", [
      ...misread.map(({ text }) => made("li", {}, text)),
      ...items.map(({ item }) => item),
    ]);
    this.#list(
      "[data-care]",
      care.map((one) => this.#item(scene, one).item),
    );
    const own = Object.keys(scene.values).length > 0;
    this.#text("[data-invented]", own ? allInventedText(scene.graph, scene.values) : "");
    this.querySelector("[data-nothing]")?.toggleAttribute(
      "hidden",
      hard.length + misread.length > 0,
    );
    for (const { place } of items) place.textContent = "Looking for the nearest change…";
    this.#waiting = window.setTimeout(() => void this.#seek(scene, now, items, turn), PAUSE);
  }

  #item(scene: Scene, obstacle: Obstacle) {
    const text = obstacleText(scene.graph, obstacle, scene.unitFor);
    const links = made("span", { class: "no-print" });
    const item = made("li", {}, `${text} `, links);
    const derivation = derivationOf(obstacle.calculation);
    if (derivation) links.append(siteLink(derivation.href, derivation.text));
    if (obstacle.caution !== undefined)
      links.append(derivation ? ", " : "", cautionLink(obstacle.caution, "the whole caution"));
    const place = made("div", { class: "remedies" });
    if (!obstacle.care) item.append(place);
    return { obstacle, item, place };
  }

  /** Fills in the remedies one by one, and leaves the page time to answer in between. */
  async #seek(
    scene: Scene,
    now: Survey,
    items: readonly { readonly obstacle: Obstacle; readonly place: HTMLElement }[],
    turn: number,
  ): Promise<void> {
    let mended = 0;
    const above: Remedy[] = [];
    for (const { obstacle, place } of items) {
      const search = seekRemedies(scene.graph, now, obstacle);
      let until = performance.now() + SLICE;
      let step = search.next();
      while (!step.done) {
        if (performance.now() > until) {
          await new Promise((resume) => setTimeout(resume));
          until = performance.now() + SLICE;
        }
        if (turn !== this.#turn) return;
        step = search.next();
      }
      if (step.value.length > 0) mended++;
      const offered = offerOnce(step.value, above, scene.unitFor);
      above.push(...offered.fresh);
      this.#show(scene, place, offered);
    }
    this.dataset["sought"] = "";
    this.#text("[data-count]", countText(items.length, mended));
  }

  #show(scene: Scene, place: HTMLElement, { fresh, known }: Offered): void {
    if (fresh.length === 0 && known === "") {
      place.textContent = "No single change that this page knows of mends it.";
      return;
    }
    const lines = fresh.map((remedy) => {
      const text = say(remedy.say, scene.unitFor);
      const button = made("button", { type: "button" }, text);
      button.addEventListener("click", () => this.#take(remedy, text));
      return made("p", {}, button, leftText(remedy));
    });
    // First, or it would seem to speak of the changes beside it.
    place.replaceChildren(...(known === "" ? [] : [made("p", {}, known)]), ...lines);
  }

  #take(remedy: Remedy, said: string): void {
    const { set } = remedy;
    const values = this.#scene?.batch.values ?? {};
    const before = Object.fromEntries(Object.keys(set).map((key) => [key, values[key]]));
    this.#taken.push({ said, before });
    this.#set(set);
    this.#tell(takenText(said, remedy));
    // The button is gone with its list; who works by keyboard goes on from what undoes it.
    this.querySelector<HTMLElement>("[data-undo]")?.focus();
  }

  #undo(): void {
    const last = this.#taken.pop();
    if (!last) return;
    this.#set(last.before);
    this.#tell(`Taken back: ${last.said}.`);
  }

  #set(changes: Readonly<Record<string, InputValue | undefined>>): void {
    for (const key of Object.keys(changes)) setDraft(key, undefined);
    changeBatch((current) => ({
      ...current,
      values: Object.fromEntries(
        Object.entries({ ...current.values, ...changes }).filter(
          (entry): entry is [string, InputValue] => entry[1] !== undefined,
        ),
      ) satisfies BatchValues,
    }));
  }

  #tell(text: string): void {
    this.#text("[data-said]", text);
    this.querySelector("[data-undo]")?.toggleAttribute("hidden", this.#taken.length === 0);
  }

  #list(selector: string, items: readonly HTMLElement[]): void {
    const list = this.querySelector<HTMLElement>(selector);
    list?.replaceChildren(...items);
    list?.closest("[data-part]")?.toggleAttribute("hidden", items.length === 0);
  }

  #text(selector: string, text: string): void {
    setText(this.querySelector(selector), text);
  }
}

/** Makes the list of what stands in the way, and of what mends it, follow the reader's batch. */
export function definePlanObstacles(): void {
  if (!customElements.get("plan-obstacles")) customElements.define("plan-obstacles", PlanObstacles);
}
