import {
  differsFromGear,
  GEAR_KEYS,
  gearFrom,
  type Gear,
  type GearKind,
} from "../../lib/batch/gear.ts";
import { batch, drafts, setValue } from "../batch/store.ts";
import { newId } from "../batch/new-id.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { made, setText } from "../shell/elements.ts";
import { differenceTexts, isOwn } from "./gear-text.ts";
import { sectionOf } from "./sections.ts";
import {
  dropGear,
  gearOf,
  keepGear,
  keptOf,
  nameGear,
  notKept,
  openShelf,
  shelf,
  takeGear,
  type Undo,
} from "./shelf.ts";

const MISREAD = "One of the fields could not be read yet: mend what it says first.";

/** The gear of one kind: its fields’ state, what is kept of it, and which of it the batch uses. */
class GearShelf extends HTMLElement {
  #kind: GearKind = "scale";
  #one = "";
  #scene: Scene | undefined;
  #undo: Undo | undefined;
  #renaming: { readonly id: string; text: string } | undefined;

  connectedCallback(): void {
    const section = sectionOf(this.dataset["kind"] ?? "");
    this.#kind = section.kind;
    this.#one = section.one;
    openShelf();
    this.addEventListener("click", (event) => this.#pressed(event.target));
    this.addEventListener("submit", (event) => {
      const form = event.target as HTMLFormElement;
      if (form.matches("[data-calculation]")) return;
      event.preventDefault();
      if (form.matches("[data-keep]")) void this.#keep();
      else void this.#rename();
    });
    this.addEventListener("input", ({ target }) => {
      if (!(target instanceof HTMLInputElement)) return;
      if (target.matches("[data-new-name]") && this.#renaming) this.#renaming.text = target.value;
      if (target.matches("[data-name]")) this.#fault("");
    });
    this.addEventListener("keydown", ({ key }) => {
      if (key === "Escape" && this.#renaming) this.#endRenaming();
    });
    onScene((scene) => {
      this.#scene = scene;
      this.#paint();
    });
    shelf.listen(() => this.#paint());
    drafts.listen(() => this.#paint());
  }

  #pressed(target: EventTarget | null): void {
    const button = target instanceof Element ? target.closest("button") : null;
    if (!button || button.form?.matches("[data-calculation]")) return;
    const { act, id } = button.dataset;
    const gear = keptOf(this.#kind).find((one) => one.id === id);
    const mine = gearOf(batch.get(), this.#kind);
    if (act === "use" && gear) this.#use(gear);
    if (act === "rename" && gear) this.#startRenaming(gear);
    if (act === "leave-name") this.#endRenaming();
    if (act === "remove" && gear) void this.#remove(gear);
    if (act === "keep-changes" && mine) void this.#update(mine);
    if (act === "take-back" && mine) this.#use(mine);
    if (act === "not-this") this.#notThis();
    if (act === "confirm") this.#confirm();
    if (act === "undo") this.#takeBack();
  }

  #use(gear: Gear): void {
    this.#gone(`The open batch has the numbers of “${gear.name}” now.`, takeGear(gear));
  }

  async #keep(): Promise<void> {
    const field = this.querySelector<HTMLInputElement>("[data-name]");
    const name = (field?.value ?? "").trim();
    const gear = gearFrom(batch.get(), this.#kind, name, newId());
    const fault =
      name === ""
        ? "Give it a name, to know it by next month."
        : this.#isTaken(name)
          ? `There is a ${this.#one} of that name already. Use that one, or choose another name.`
          : this.#misread() > 0
            ? MISREAD
            : Object.keys(gear.values).length === 0
              ? "All its numbers are still the demonstration’s. Put in what you know of yours first."
              : "";
    this.#fault(fault);
    if (fault !== "") return field?.focus();
    const before = batch.get().gear?.[this.#kind];
    if (!(await keepGear(gear))) return this.#done(notKept());
    nameGear(this.#kind, name);
    if (field) field.value = "";
    this.#done(`“${name}” is kept, and this batch uses it.`, () => {
      nameGear(this.#kind, before);
      void dropGear(gear);
    });
  }

  async #update(gear: Gear): Promise<void> {
    if (this.#misread() > 0) return this.#done(MISREAD);
    const changed = gearFrom(batch.get(), this.#kind, gear.name, gear.id);
    if (!(await keepGear(changed))) return this.#done(notKept());
    this.#gone(`“${gear.name}” is kept with these numbers.`, () => void keepGear(gear));
  }

  async #remove(gear: Gear): Promise<void> {
    if (!(await dropGear(gear))) return this.#done(notKept());
    this.#gone(
      `“${gear.name}” is removed. Batches made with it stay as they are.`,
      () => void keepGear(gear),
    );
  }

  #startRenaming(gear: Gear): void {
    this.#renaming = { id: gear.id, text: gear.name };
    this.#paint();
    this.querySelector<HTMLInputElement>("[data-new-name]")?.select();
  }

  #endRenaming(): void {
    const id = this.#renaming?.id;
    this.#renaming = undefined;
    this.#paint();
    this.querySelector<HTMLButtonElement>(`[data-act="rename"][data-id="${id}"]`)?.focus();
  }

  async #rename(): Promise<void> {
    const gear = keptOf(this.#kind).find(({ id }) => id === this.#renaming?.id);
    const name = (this.#renaming?.text ?? "").trim();
    if (!gear || name === gear.name) return this.#endRenaming();
    if (name === "" || this.#isTaken(name))
      return this.#done(
        name === ""
          ? "It needs a name, to be known by next month."
          : `There is a ${this.#one} of that name already. Choose another.`,
      );
    if (!(await this.#call(gear, name))) return this.#done(notKept());
    this.#endRenaming();
    this.#done(
      `“${gear.name}” is called “${name}” now.`,
      () => void this.#call({ ...gear, name }, gear.name),
    );
  }

  /** The open batch knows its gear by name and follows; batches of earlier evenings keep the name of then. */
  async #call(gear: Gear, name: string): Promise<boolean> {
    const used = batch.get().gear?.[this.#kind] === gear.name;
    const kept = await keepGear({ ...gear, name });
    if (kept && used) nameGear(this.#kind, name);
    return kept;
  }

  #notThis(): void {
    const name = batch.get().gear?.[this.#kind];
    nameGear(this.#kind, undefined);
    this.#gone(
      `This batch keeps its numbers, and no longer says that they are those of “${name}”.`,
      () => nameGear(this.#kind, name),
    );
  }

  /** Takes the numbers left at the demonstration’s for the reader’s own. */
  #confirm(): void {
    const scene = this.#scene;
    if (!scene) return;
    const left = this.#left(scene).filter(({ linked }) => !linked);
    for (const { key, value } of left) setValue(key, value);
    this.#gone("They count as yours now.", () => {
      for (const { key } of left) setValue(key, undefined);
    });
  }

  #takeBack(): void {
    const undo = this.#undo;
    undo?.();
    this.#done("It is as it was before.");
  }

  #isTaken(name: string): boolean {
    return keptOf(this.#kind).some((one) => one.name === name);
  }

  #misread(): number {
    return Object.keys(drafts.get()).filter((key) => GEAR_KEYS[this.#kind].includes(key)).length;
  }

  /** Says what was done, and offers to take it back. */
  #done(text: string, undo?: Undo): void {
    this.#undo = undo;
    this.#text("[data-said]", text);
    const button = this.querySelector<HTMLElement>('[data-act="undo"]');
    if (!button) return;
    if (!undo && document.activeElement === button)
      this.querySelector<HTMLInputElement>("[data-name]")?.focus();
    button.hidden = !undo;
  }

  /** The same after a press on a button that what it did takes away: the focus must not fall into nothing. */
  #gone(text: string, undo: Undo): void {
    this.#done(text, undo);
    this.querySelector<HTMLElement>('[data-act="undo"]')?.focus({ preventScroll: true });
  }

  #fault(text: string): void {
    const place = this.querySelector<HTMLElement>("[data-fault]");
    if (place) place.hidden = text === "";
    this.#text("[data-fault]", text);
    this.querySelector("[data-name]")?.toggleAttribute("aria-invalid", text !== "");
  }

  #text(selector: string, text: string): void {
    setText(this.querySelector(selector), text);
  }

  /** The fields that a plate, a ruler or the scale tells, each with a place to say that it is not told yet. */
  #fields(): readonly HTMLElement[] {
    return [...this.querySelectorAll<HTMLElement>("[data-first] .field")];
  }

  #left({ graph, values }: Scene) {
    return this.#fields().flatMap((field) => {
      const key = field.dataset["key"] ?? "";
      if (isOwn(graph, values, this.#kind, key) || key in drafts.get()) return [];
      const form = field.closest<HTMLElement>("form[data-calculation]");
      const calculation = graph.get(form?.dataset["calculation"] ?? "");
      const name = field.dataset["field"] ?? "";
      const linked = calculation.links?.[name] !== undefined;
      return [{ field, key, linked, value: calculation.inputs[name]?.default }];
    });
  }

  #paint(): void {
    const scene = this.#scene;
    if (!scene) return;
    const left = this.#left(scene);
    const fields = this.#fields();
    for (const field of fields)
      field
        .querySelector("[data-still]")
        ?.toggleAttribute("hidden", !left.some((one) => one.field === field));
    this.#text("[data-left]", leftText(left.length, fields.length));
    this.querySelector('[data-act="confirm"]')?.toggleAttribute(
      "hidden",
      left.every(({ linked }) => linked),
    );
    this.#paintUse(scene);
    this.#paintKept();
  }

  #paintUse({ batch: current, graph, unitFor }: Scene): void {
    const name = current.gear?.[this.#kind];
    const gear = gearOf(current, this.#kind);
    const differences = gear ? differsFromGear(current, gear) : [];
    const state =
      name === undefined
        ? ""
        : !gear
          ? `This batch says that it uses “${name}”, which is not kept here.`
          : differences.length === 0
            ? `This batch uses “${name}”.`
            : `This batch uses “${name}”, but its numbers are no longer the same:`;
    this.#text("[data-use]", state);
    const differs = this.querySelector<HTMLElement>("[data-differs]");
    if (!differs) return;
    differs.hidden = differences.length === 0;
    differs
      .querySelector("ul")
      ?.replaceChildren(
        ...differenceTexts(graph, differences, name ?? "", unitFor).map((text) =>
          made("li", {}, text),
        ),
      );
    this.#text('[data-act="keep-changes"]', `Keep the changes in “${name}”`);
    this.#text('[data-act="take-back"]', `Take back the numbers of “${name}”`);
    this.#text('[data-act="not-this"]', `It is not “${name}”`);
  }

  #paintKept(): void {
    const kept = keptOf(this.#kind);
    const place = this.querySelector<HTMLElement>("[data-kept]");
    const list = place?.querySelector("ul");
    if (!place || !list) return;
    place.hidden = kept.length === 0;
    const focused = document.activeElement?.closest<HTMLElement>("[data-kept] [data-focus]");
    list.replaceChildren(...kept.map((gear) => this.#item(gear)));
    const again = focused?.dataset["focus"];
    if (again) this.querySelector<HTMLElement>(`[data-focus="${again}"]`)?.focus();
    const { unread } = shelf.get();
    this.#text(
      "[data-unread]",
      unread === 0
        ? ""
        : "Something else is kept here that this version cannot read. It is left as it is.",
    );
  }

  #item(gear: Gear): HTMLElement {
    const item = made("li");
    if (this.#renaming?.id === gear.id) {
      const input = made("input", {
        type: "text",
        maxlength: "120",
        autocomplete: "off",
        "data-new-name": true,
        "data-focus": `name-${gear.id}`,
        "aria-label": `New name of “${gear.name}”`,
      });
      input.value = this.#renaming.text;
      const save = made("button", {}, "Give it this name");
      item.append(made("form", {}, input, save, this.#button("leave-name", "Leave it", gear)));
      return item;
    }
    const used = gearOf(batch.get(), this.#kind)?.id === gear.id;
    const name = made("span", {}, used ? `${gear.name} (in this batch)` : gear.name);
    const actions = made("span");
    if (!used) actions.append(this.#button("use", "Use in this batch", gear));
    actions.append(this.#button("rename", "Rename", gear), this.#button("remove", "Remove", gear));
    item.append(name, actions);
    return item;
  }

  #button(act: string, text: string, { id, name }: Gear): HTMLButtonElement {
    return made(
      "button",
      {
        type: "button",
        "data-act": act,
        "data-id": id,
        "data-focus": `${act}-${id}`,
        "aria-label": `${text}: “${name}”`,
      },
      text,
    );
  }
}

function leftText(left: number, all: number): string {
  if (left === 0) return "";
  if (left === all) return "All of these are still the demonstration’s, which is invented.";
  return left === 1
    ? "One of these is still the demonstration’s."
    : `${left} of these are still the demonstration’s.`;
}

/** Brings the shelves of gear alive. */
export function defineGearShelf(): void {
  if (!customElements.get("gear-shelf")) customElements.define("gear-shelf", GearShelf);
}
