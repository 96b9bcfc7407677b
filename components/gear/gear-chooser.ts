import { differsFromGear, type GearKind } from "../../lib/batch/gear.ts";
import { batch, openStore } from "../batch/store.ts";
import { gearOf, keptOf, openShelf, shelf, takeGear, type Undo } from "./shelf.ts";

/** Which gear the batch uses, in a line, with a choice for each kind of which any is kept. */
class GearChooser extends HTMLElement {
  #undo: Undo | undefined;

  connectedCallback(): void {
    openStore();
    openShelf();
    this.addEventListener("change", ({ target }) => {
      if (target instanceof HTMLSelectElement) this.#choose(target);
    });
    this.querySelector("[data-undo]")?.addEventListener("click", () => {
      this.#undo?.();
      this.#done("It is as it was before.");
    });
    batch.subscribe(() => this.#paint());
    shelf.listen(() => this.#paint());
  }

  #choose(select: HTMLSelectElement): void {
    const kind = select.dataset["kind"] as GearKind;
    const gear = keptOf(kind).find(({ id }) => id === select.value);
    if (gear) this.#done(`The batch has the numbers of “${gear.name}” now.`, takeGear(gear));
  }

  #done(text: string, undo?: Undo): void {
    this.#undo = undo;
    const place = this.querySelector("[data-said]");
    if (place) place.textContent = text;
    this.querySelector("[data-undo]")?.toggleAttribute("hidden", !undo);
  }

  #paint(): void {
    const current = batch.get();
    const selects = [...this.querySelectorAll<HTMLSelectElement>("[data-kind]")];
    const names = selects.flatMap(({ dataset: { kind: of, title = "" } }) => {
      const kind = of as GearKind;
      const name = current.gear?.[kind];
      if (name === undefined) return [];
      const gear = gearOf(current, kind);
      const changed = gear && differsFromGear(current, gear).length > 0;
      return [`${title} “${name}”${changed ? " (with changes)" : ""}`];
    });
    const line = this.querySelector("[data-names]");
    if (line)
      line.textContent =
        names.length > 0
          ? `This batch uses: ${names.join(", ")}. Look at it`
          : shelf.get().gear.length > 0
            ? "This batch uses none of the gear that you keep. Choose it here, or look at it"
            : "What stands on your bench is gear: enter it once";
    for (const select of selects) {
      const kind = select.dataset["kind"] as GearKind;
      const kept = keptOf(kind);
      const used = gearOf(current, kind);
      const options = kept.map(({ id, name }) => new Option(name, id));
      if (!used) options.unshift(new Option(current.gear?.[kind] ?? "not chosen", ""));
      select.replaceChildren(...options);
      select.value = used?.id ?? "";
      select.closest("label")?.toggleAttribute("hidden", kept.length === 0);
    }
    this.querySelector("[data-choices]")?.toggleAttribute("hidden", shelf.get().gear.length === 0);
  }
}

/** Makes the line on gear follow the batch and what is kept. */
export function defineGearChooser(): void {
  if (!customElements.get("gear-chooser")) customElements.define("gear-chooser", GearChooser);
}
