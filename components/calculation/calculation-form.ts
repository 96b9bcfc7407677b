import type {
  AnyCalculation,
  Column,
  InputValue,
  Quantity,
  Readings,
} from "../../lib/calculations/calculation.ts";
import { entryText, rangeText, readEntry } from "../../lib/calculations/entry.ts";
import { keyOf, linkOf, type Outcome } from "../../lib/calculations/graph.ts";
import { say, show } from "../../lib/calculations/say.ts";
import { readRows, writeRows, type UnitOfColumn } from "../../lib/calculations/readings.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { drafts, setDraft, setUnit, setValue } from "../batch/store.ts";
import { made, setText } from "../shell/elements.ts";
import { fillInfluences } from "./influences.ts";
import { onScene, sameAsBefore, unitIn, type Scene } from "./live.ts";
import { cautionLink } from "../caution/caution-item.ts";
import { unitName } from "./slots.ts";
import { connectSolve } from "./solve-form.ts";

/** A screen reader hears the new results once, after typing has paused. */
const PAUSE = 900;

class CalculationForm extends HTMLElement {
  #id = "";
  #form: HTMLFormElement | null = null;
  #scene: Scene | undefined;
  #speaking: number | undefined;
  /** Folded away since the last change; and whether it never was painted. */
  #stale = false;
  #unpainted = true;
  readonly #isSame = sameAsBefore();
  /** Edits of this form's own: what was typed may read otherwise and mean the same. */
  #edits = 0;

  connectedCallback(): void {
    this.#form = this.querySelector("form[data-calculation]");
    this.#id = this.#form?.dataset["calculation"] ?? "";
    if (!this.#form) return;
    this.#form.addEventListener("submit", (event) => event.preventDefault());
    for (const [type, handle] of [
      ["input", this.#edited],
      ["change", this.#chosen],
      ["click", this.#pressed],
    ] as const)
      this.#form.addEventListener(type, ({ target }) => {
        this.#edits++;
        handle.call(this, target);
      });
    // What is folded away is painted when it is opened.
    this.closest("details")?.addEventListener("toggle", () => {
      if (this.#scene && this.#stale) this.#paint(this.#scene, false);
    });
    onScene((scene) => {
      const first = this.#scene === undefined;
      this.#scene = scene;
      const typed = first ? this.#typedBefore() : [];
      this.#paint(scene, first);
      // What was typed while the calculations were on their way is an edit like any other.
      for (const { control, text } of typed) {
        control.value = text;
        if (control instanceof HTMLSelectElement) this.#chosen(control);
        else this.#edited(control);
      }
    });
    connectSolve(this, this.#id, () => this.#scene);
    fillInfluences(this, this.#id, () => this.#scene);
  }

  get #calculation(): AnyCalculation | undefined {
    return this.#scene?.graph.get(this.#id);
  }

  #typedBefore(): readonly { control: Control; text: string }[] {
    const controls = this.#form?.querySelectorAll<Control>(
      ".field input, .field textarea, .field select, [data-result-unit]",
    );
    return Array.from(controls ?? [])
      .filter((control) => control.value !== builtValue(control))
      .map((control) => ({ control, text: control.value }));
  }

  /** Drafts are kept by batch key, so that a field is the same one in every chapter. */
  #edited(target: EventTarget | null): void {
    const calculation = this.#calculation;
    if (!calculation || !isTyped(target)) return;
    const input = calculation.inputs[target.name];
    if (!input || input.kind === "choice") return;
    const key = keyOf(calculation, target.name);
    const read = this.#read(input, target.value);
    if (!read.ok) {
      setDraft(key, target.value);
      this.#error(target.name, read.message);
      this.#markStale(true);
      this.#speakSoon(read.message);
      return;
    }
    setDraft(key, undefined);
    if (input.kind === "number" && read.unit !== undefined && read.unit !== this.#unit(input))
      setUnit(input.name, read.unit);
    setValue(key, read.value);
  }

  /** What a field's text means: one number, or the rows of a table. */
  #read(
    input: Quantity | Readings,
    text: string,
  ):
    | { readonly ok: true; readonly value: InputValue; readonly unit?: string }
    | { readonly ok: false; readonly message: string } {
    if (input.kind === "number") return readEntry(input, text, this.#unit(input));
    const read = readRows(input, text, this.#unitOfColumn(input));
    return read.ok ? { ok: true, value: read.rows } : read;
  }

  #unitOfColumn(input: Readings): UnitOfColumn {
    const units = this.#scene?.batch.units ?? {};
    return (column: Column) => unitIn(units, `${input.name}.${column.name}`, column.units);
  }

  #chosen(target: EventTarget | null): void {
    const calculation = this.#calculation;
    if (!calculation || !(target instanceof HTMLSelectElement)) return;
    const { unitFor, resultUnit, columnUnit } = target.dataset;
    if (resultUnit) setUnit(resultUnit, target.value);
    else if (unitFor) setUnit(unitName(calculation, unitFor), target.value);
    else if (columnUnit) {
      const field = target.closest<HTMLElement>("[data-field]")?.dataset["field"] ?? "";
      const name = calculation.inputs[field]?.name;
      if (name) setUnit(`${name}.${columnUnit}`, target.value);
    } else if (calculation.inputs[target.name]?.kind === "choice")
      return setValue(keyOf(calculation, target.name), target.value);
    // "2" was no volume in mL, and is one in L.
    for (const name of Object.keys(calculation.inputs)) {
      const control = this.#form?.elements.namedItem(name);
      if (isTyped(control) && this.#hasDraft(calculation, name)) this.#edited(control);
    }
  }

  #pressed(target: EventTarget | null): void {
    const calculation = this.#calculation;
    if (!calculation || !(target instanceof HTMLButtonElement)) return;
    const field = target.closest<HTMLElement>("[data-field]");
    const { preset, relink, offer } = target.dataset;
    if (preset !== undefined && field) this.#set(field.dataset["field"] ?? "", Number(preset));
    if (relink) this.#set(relink, undefined);
    if (offer) this.#take(calculation, offer);
  }

  /** Sets what the offer says, or says why there is nothing to set. */
  #take(calculation: AnyCalculation, id: string): void {
    const offer = calculation.offers?.find((candidate) => candidate.id === id);
    const outcome = this.#scene?.outcomeOf(calculation.id);
    if (!offer || !outcome || !this.#scene) return;
    const taken = outcome.ok
      ? offer.take(outcome.inputs as never)
      : ["There is no result to start from yet."];
    const place = this.#form?.querySelector("[data-offered]");
    if (Array.isArray(taken)) {
      if (place) setText(place, say(taken, this.#scene.unitFor));
      return;
    }
    const set = Object.entries(taken as Readonly<Record<string, InputValue>>);
    for (const [name, value] of set) this.#set(name, value);
    const names = set.map(([name]) => calculation.inputs[name]?.label.toLowerCase() ?? name);
    if (place) setText(place, `Set: ${names.join(", ")}.`);
  }

  #set(name: string, value: InputValue | undefined): void {
    const calculation = this.#calculation;
    if (!calculation) return;
    const key = keyOf(calculation, name);
    setDraft(key, undefined);
    setValue(key, value);
    // What was typed no longer stands, so the field shows the new value even while it has the focus.
    if (this.#scene) this.#paintField(calculation, this.#scene, name, true);
  }

  #unit(input: Quantity): string {
    return unitIn(this.#scene?.batch.units ?? {}, input.name, input.units);
  }

  #paint(scene: Scene, first: boolean): void {
    this.#stale = this.closest("details:not([open])") !== null;
    if (this.#stale) return;
    const fresh = first || this.#unpainted;
    if (this.#isSame(scene, this.#id, drafts.get(), this.#edits) && !fresh) return;
    this.#unpainted = false;
    const calculation = scene.graph.get(this.#id);
    const outcome = scene.outcomeOf(this.#id);
    for (const name of Object.keys(calculation.inputs)) {
      this.#paintField(calculation, scene, name, fresh);
    }
    const refused = outcome.ok ? [] : outcome.refusals;
    for (const { input, say: text } of refused) {
      if (this.#hasDraft(calculation, input)) continue;
      this.#error(input, say(text, scene.unitFor));
    }
    const good = scene.shownOf(this.#id);
    const drafted = Object.keys(calculation.inputs).some((name) =>
      this.#hasDraft(calculation, name),
    );
    this.#markStale(!outcome.ok || drafted);
    if (good) this.#paintResults(calculation, scene, good);
    if (!first)
      this.#speakSoon(
        refused[0]
          ? say(refused[0].say, scene.unitFor)
          : good
            ? this.#spoken(calculation, scene, good)
            : "",
      );
  }

  #hasDraft(calculation: AnyCalculation, name: string): boolean {
    return keyOf(calculation, name) in drafts.get();
  }

  #paintField(calculation: AnyCalculation, scene: Scene, name: string, force: boolean): void {
    const input = calculation.inputs[name];
    const control = this.#form?.elements.namedItem(name);
    if (!input || control instanceof RadioNodeList || !control) return;
    const outcome = scene.outcomeOf(this.#id);
    const value = outcome.inputs[name];
    if (control instanceof HTMLSelectElement) {
      control.value = String(value ?? "");
      return;
    }
    if (!isTyped(control) || input.kind === "choice") return;
    const unitChanged = this.#paintUnits(name, input);
    const draft = drafts.get()[keyOf(calculation, name)];
    if (draft !== undefined) {
      if (control.value !== draft) control.value = draft;
      const read = this.#read(input, draft);
      this.#error(name, read.ok ? undefined : read.message);
    } else {
      this.#error(name, undefined);
      const worked = typeof outcome.origins[name] === "object";
      // A field that means this value already keeps the way it was typed: "12,50" stays.
      if (
        value !== undefined &&
        (force || unitChanged || !this.#means(control.value, input, value))
      )
        control.value = this.#text(input, value, worked);
    }
    if (input.kind === "number" && control instanceof HTMLInputElement)
      this.#paintReading(control, input, this.#unit(input), value);
    this.#paintOrigin(calculation, scene, name, outcome);
  }

  #text(input: Quantity | Readings, value: InputValue, worked: boolean): string {
    return input.kind === "readings"
      ? writeRows(input, value as never, this.#unitOfColumn(input))
      : entryText(input, Number(value), this.#unit(input), worked);
  }

  /** Shows the units in force. @returns whether one of them changed */
  #paintUnits(name: string, input: Quantity | Readings): boolean {
    const wanted: readonly (readonly [string, string])[] =
      input.kind === "number"
        ? [[`[data-unit-for="${name}"]`, this.#unit(input)]]
        : input.columns.map((column) => [
            `[data-field="${name}"] [data-column-unit="${column.name}"]`,
            this.#unitOfColumn(input)(column),
          ]);
    let changed = false;
    for (const [selector, unit] of wanted) {
      const select = this.#form?.querySelector<HTMLSelectElement>(selector);
      if (!select || select.value === unit) continue;
      select.value = unit;
      changed = true;
    }
    return changed;
  }

  /** The range in the unit shown; and how a text was read that another country would read otherwise. */
  #paintReading(
    control: HTMLInputElement,
    input: Quantity,
    unit: string,
    value: InputValue | undefined,
  ): void {
    const field = control.closest(".field");
    const at = (x: number): string => formatAmount(x, input.dimension, unit, 4);
    const range = field?.querySelector("[data-range]");
    if (range) setText(range, `(${rangeText(input, unit)})`);
    const note = field?.querySelector<HTMLElement>("[data-read-as]");
    const grouped = /^\s*\d{1,3}[.,]\d{3}(?!\d)/.test(control.value);
    if (!note) return;
    const unclear = grouped && typeof value === "number";
    note.toggleAttribute("hidden", !unclear);
    setText(
      note,
      unclear ? `Read as ${at(value)}: the mark is a decimal mark, not thousands.` : "",
    );
  }

  #means(text: string, input: Quantity | Readings, value: InputValue): boolean {
    const read = this.#read(input, text);
    if (!read.ok) return false;
    if (typeof read.value !== "number") return JSON.stringify(read.value) === JSON.stringify(value);
    return Math.abs(read.value - Number(value)) <= 1e-9 * Math.abs(Number(value));
  }

  #paintOrigin(calculation: AnyCalculation, scene: Scene, name: string, outcome: Outcome): void {
    const place = this.#form?.querySelector<HTMLElement>(`[data-origin="${name}"]`);
    const link = linkOf(calculation, name);
    const input = calculation.inputs[name];
    if (!place || !link || input?.kind !== "number") return;
    const text = place.querySelector("[data-origin-text]");
    const button = place.querySelector<HTMLButtonElement>("[data-relink]");
    const typedOver = outcome.origins[name] === "reader";
    const title = scene.graph.get(link.calculation).title;
    button?.toggleAttribute("hidden", !typedOver);
    if (!text) return;
    if (!typedOver) return setText(text, `From “${title}”, as it stands for your batch.`);
    const upstream = scene.outcomeOf(link.calculation);
    const given = upstream.ok ? upstream.values[link.result] : undefined;
    const amount = given
      ? formatAmount(given.value, input.dimension, this.#unit(input), input.digits)
      : "no value now";
    setText(text, `Your own value. “${title}” gives ${amount}.`);
  }

  #error(name: string, message: string | undefined): void {
    const place = this.#form?.querySelector<HTMLElement>(`[data-error-for="${name}"]`);
    const control = this.#form?.elements.namedItem(name);
    if (!place) return;
    place.toggleAttribute("hidden", message === undefined);
    setText(place, message ?? "");
    if (control instanceof HTMLElement) {
      if (message === undefined) control.removeAttribute("aria-invalid");
      else control.setAttribute("aria-invalid", "true");
    }
    // An error under “More inputs” must not hide there.
    if (message !== undefined) place.closest("details")?.setAttribute("open", "");
  }

  #markStale(stale: boolean): void {
    const note = this.#form?.querySelector<HTMLElement>("[data-stale]");
    note?.toggleAttribute("hidden", !stale);
    this.#form?.querySelector(".outcome")?.toggleAttribute("data-stale-now", stale);
  }

  #paintResults(
    calculation: AnyCalculation,
    scene: Scene,
    good: Outcome & { readonly ok: true },
  ): void {
    for (const output of this.#form?.querySelectorAll("output") ?? []) {
      const result = calculation.results[output.name];
      if (!result) continue;
      const unit = unitIn(scene.batch.units, output.name, result.units);
      const shown = show(good.values[output.name] ?? null, result, unit);
      setText(output, shown.number);
      const row = output.closest(".result");
      const band = row?.querySelector("[data-band]");
      if (band) setText(band, shown.band);
      const select = row?.querySelector<HTMLSelectElement>("[data-result-unit]");
      if (select && select.value !== unit) select.value = unit;
    }
    this.#paintNotices(scene, good);
  }

  #paintNotices(scene: Scene, good: Outcome & { readonly ok: true }): void {
    const place = this.#form?.querySelector("[data-notices]");
    if (!place) return;
    const texts = good.cautions.map((notice) => say(notice.say, scene.unitFor));
    const which = good.cautions.map(({ caution }) => caution).join(" ");
    if (place.getAttribute("data-shown") === which) {
      Array.from(place.children).forEach((item, i) =>
        setText(item.querySelector("span"), texts[i] ?? ""),
      );
      return;
    }
    place.setAttribute("data-shown", which);
    place.replaceChildren(
      ...good.cautions.map(({ caution }, i) =>
        made(
          "li",
          {},
          made("strong", {}, "Caution."),
          " ",
          made("span", {}, texts[i] ?? ""),
          " ",
          cautionLink(caution),
        ),
      ),
    );
  }

  #spoken(
    calculation: AnyCalculation,
    scene: Scene,
    good: Outcome & { readonly ok: true },
  ): string {
    return Object.entries(calculation.results)
      .filter(([, result]) => !result.minor)
      .slice(0, 4)
      .map(([name, result]) => {
        const value = good.values[name];
        const unit = unitIn(scene.batch.units, name, result.units);
        return `${result.label}: ${value ? formatAmount(value.value, result.dimension, unit, result.digits) : "none"}`;
      })
      .join(". ");
  }

  #speakSoon(text: string): void {
    const place = this.#form?.querySelector("[data-status]");
    if (!place) return;
    clearTimeout(this.#speaking);
    this.#speaking = window.setTimeout(() => setText(place, text), PAUSE);
  }
}

type Typed = HTMLInputElement | HTMLTextAreaElement;
type Control = Typed | HTMLSelectElement;

function isTyped(target: unknown): target is Typed {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
}

/** What a control showed when the page was built. */
function builtValue(control: Control): string {
  if (isTyped(control)) return control.defaultValue;
  const options = Array.from(control.options);
  return (options.find((option) => option.defaultSelected) ?? options[0])?.value ?? "";
}

/** Makes every calculator on the page come alive. */
export function defineCalculationForm(): void {
  if (!customElements.get("calculation-form"))
    customElements.define("calculation-form", CalculationForm);
}
