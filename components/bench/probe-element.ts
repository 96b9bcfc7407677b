import { deviationsOf } from "../../lib/batch/deviations.ts";
import {
  forecastOf,
  heedsCeiling,
  readingChecks,
  type Forecast,
} from "../../lib/batch/forecast.ts";
import {
  entriesOf,
  MOST_ENTRIES,
  secondsSince,
  wallClock,
  type EntryOf,
} from "../../lib/batch/log.ts";
import { withReadings } from "../../lib/batch/gear.ts";
import { begin } from "../../lib/batch/record.ts";
import { isSame } from "../../lib/batch/same.ts";
import type { ScheduledStep } from "../../lib/batch/schedule.ts";
import type { Axis, Rows } from "../../lib/calculations/calculation.ts";
import { readEntry } from "../../lib/calculations/entry.ts";
import { ceiling, liquidTemperature } from "../../lib/calculations/quantities/heat.ts";
import { heatReadings, liquidReading } from "../../lib/calculations/quantities/readings.ts";
import { say, type UnitChoice } from "../../lib/calculations/say.ts";
import { formatAmount, formatField } from "../../lib/units/format.ts";
import { derivationOf } from "../batch/derivations.ts";
import { changeBatch, drafts, setDraft, setUnit } from "../batch/store.ts";
import { fillTable } from "../calculation/fill-table.ts";
import { onScene, unitIn, type Scene } from "../calculation/live.ts";
import { widthIn } from "../figure/canvas.ts";
import { figureRows } from "../figure/figure-rows.ts";
import { made, setText } from "../shell/elements.ts";
import { siteLink } from "../shell/root.ts";
import { scheduleToFollow } from "./bench-now.ts";
import { stampNow } from "./clock.ts";
import { DRAFT_PREFIX } from "./keys.ts";
import {
  ageText,
  alarmOf,
  alarmText,
  isNewCrossing,
  liquidText,
  probeFigure,
  switchOffText,
  toCeilingText,
  type CeilingAlarm,
  type Large,
  type Sight,
} from "./probe-text.ts";

/** ms */
const TICK = 1000;
const MINUTE = 60_000;

const FIELDS = { liquid: "Liquid", bath: "Bath" } as const;
type FieldName = keyof typeof FIELDS;

class BenchProbe extends HTMLElement {
  #scene: Scene | undefined;
  #steps: readonly ScheduledStep[] = [];
  #forecast: Forecast | undefined;
  /** when it was made, ms */
  #made = 0;
  #stale = true;
  #alarm: CeilingAlarm | undefined;

  connectedCallback(): void {
    const form = this.querySelector("form");
    form?.addEventListener("submit", (event) => {
      event.preventDefault();
      // The page around has forms of its own.
      event.stopPropagation();
      this.#read();
    });
    for (const name of Object.keys(FIELDS) as FieldName[]) {
      const field = this.#field(name);
      field?.addEventListener("input", () => {
        setDraft(draftKey(name), field.value === "" ? undefined : field.value);
        this.#error(name, "");
      });
    }
    this.querySelector<HTMLSelectElement>("[data-unit]")?.addEventListener("change", (event) =>
      setUnit(liquidTemperature.name, (event.target as HTMLSelectElement).value),
    );
    this.querySelector("[data-take-back]")?.addEventListener("click", () => this.#takeBack());
    this.querySelector("[data-use]")?.addEventListener("click", () => this.#use());
    onScene((scene) => {
      if (!this.#scene) this.#restore();
      this.#scene = scene;
      this.#stale = true;
      this.#paint();
    });
    setInterval(() => this.#tick(), TICK);
    document.addEventListener("visibilitychange", () => this.#tick());
  }

  get #seen(): boolean {
    return this.isConnected && this.closest("[hidden]") === null;
  }

  get #unit(): string {
    return unitIn(this.#scene?.batch.units ?? {}, liquidTemperature.name, liquidTemperature.units);
  }

  get #readings(): readonly EntryOf<"read">[] {
    return entriesOf(this.#scene?.batch.log ?? [], "read");
  }

  /** All temperatures of the probe in its one unit. */
  readonly #unitFor: UnitChoice = (of) => {
    if (of.dimension === "temperature") return this.#unit;
    if (of.dimension === "temperatureDifference") return this.#unit === "°F" ? "°F" : "K";
    return this.#scene?.unitFor(of) ?? (of.units[0] as string);
  };

  // What is typed and pressed.

  /** What was typed and not noted before the page was left. */
  #restore(): void {
    for (const name of Object.keys(FIELDS) as FieldName[]) {
      const field = this.#field(name);
      if (field) field.value ||= drafts.get()[draftKey(name)] ?? "";
    }
  }

  #read(): void {
    const [liquid, bath] = [this.#value("liquid"), this.#value("bath")];
    if (liquid === "unread" || bath === "unread")
      return this.#field(liquid === "unread" ? "liquid" : "bath")?.focus();
    if (liquid === undefined) {
      this.#error(
        "liquid",
        "Type what the probe shows in the liquid; the bath alone says too little.",
      );
      return this.#field("liquid")?.focus();
    }
    if ((this.#scene?.batch.log?.length ?? 0) >= MOST_ENTRIES)
      return this.#error("liquid", "This log is full. Write the rest into the notes.");
    const entry = {
      kind: "read",
      at: stampNow(),
      liquid,
      ...(bath !== undefined && { bath }),
    } as const;
    for (const name of Object.keys(FIELDS) as FieldName[]) this.#fill(name, "");
    changeBatch((current) => {
      const begun = begin(current);
      return { ...begun, log: [...(begun.log ?? []), entry] };
    });
    this.#field("liquid")?.focus();
    this.#say(`${this.#degrees(liquid)} noted at ${wallClock(entry)}.`);
  }

  /** What a field says, SI; a unit that was typed becomes the probe's. */
  #value(name: FieldName): number | undefined | "unread" {
    const text = this.#field(name)?.value.trim() ?? "";
    if (text === "") return undefined;
    const input = { ...liquidTemperature, label: FIELDS[name], limits: liquidReading.limits };
    const read = readEntry(input, text, this.#unit);
    if (!read.ok) {
      this.#error(name, read.message);
      return "unread";
    }
    if (read.unit !== this.#unit) setUnit(liquidTemperature.name, read.unit);
    return read.value;
  }

  /** The last reading goes back into the fields, to be mended. */
  #takeBack(): void {
    const last = this.#readings.at(-1);
    if (!last) return;
    changeBatch((current) => {
      const log = current.log ?? [];
      const place = log.findLastIndex(({ kind, at }) => kind === "read" && at === last.at);
      return { ...current, log: log.filter((_, i) => i !== place) };
    });
    const text = (value: number): string => formatField(value, "temperature", this.#unit);
    this.#fill("liquid", text(last.liquid));
    this.#fill("bath", last.bath === undefined ? "" : text(last.bath));
    this.#field("liquid")?.focus();
    this.#field("liquid")?.select();
    this.#say("The last reading is taken back, and in the fields again.");
  }

  /** From now on the bath is what tonight's readings say. */
  #use(): void {
    const rows = this.#fittedRows();
    if (!rows) return;
    changeBatch((current) => ({ ...current, values: withReadings(current.values, rows) }));
    this.#say("Tonight’s readings count for your bath now: powers and bands follow them.");
  }

  #fittedRows(): Rows | undefined {
    return this.#forecast?.ok ? this.#forecast.fit?.rows : undefined;
  }

  // What is shown.

  #paint(): void {
    const scene = this.#scene;
    if (!scene || !this.#seen) return;
    this.#stale = false;
    const { graph, batch, values } = scene;
    const scheduled = scheduleToFollow(scene);
    this.#steps = scheduled.ok ? scheduled.steps : [];
    this.#made = Date.now();
    this.#forecast = forecastOf(graph, batch, this.#steps, this.#made);
    const { forecast, rows } = { forecast: this.#forecast, rows: this.#fittedRows() };
    const unit = this.querySelector<HTMLSelectElement>("[data-unit]");
    if (unit) unit.value = this.#unit;
    for (const place of this.querySelectorAll("[data-unit-shown]")) place.textContent = this.#unit;
    this.#show("[data-numbers]", forecast.ok);
    this.#text("[data-state]", forecast.ok ? "" : say(forecast.say, this.#unitFor));
    this.#list(
      "[data-remarks]",
      forecast.ok ? forecast.remarks.map((remark) => say(remark, this.#unitFor)) : [],
    );
    const used = values["knownFrom"] === "readings" ? values[heatReadings.name] : undefined;
    this.#show("[data-use]", rows !== undefined && !isSame(rows, used));
    this.#paintReadings();
    this.#paintDeviations();
    this.#show("[data-figure]", forecast.ok);
    if (forecast.ok) void this.#draw();
    this.#tick();
  }

  #tick(): void {
    const scene = this.#scene;
    if (!scene || !this.#seen) return;
    const now = Date.now();
    if (this.#stale || now - this.#made >= MINUTE || now < this.#made) return this.#paint();
    const forecast = this.#forecast;
    const passed = (now - this.#made) / 1000;
    if (forecast?.ok) {
      this.#large("[data-to-ceiling]", toCeilingText(forecast, passed, now, this.#unitFor));
      this.#large("[data-switch-off]", switchOffText(forecast, passed, now, this.#unitFor));
      this.#text("[data-state]", liquidText(forecast, this.#unitFor));
    }
    const log = scene.batch.log ?? [];
    const last = this.#readings.at(-1);
    const sight: Sight = {
      forecast,
      passed,
      reading: last?.liquid,
      age: last && secondsSince(log, last, now),
      ceiling: Number(scene.values[ceiling.name] ?? ceiling.default),
      heeded: heedsCeiling(log, this.#steps),
    };
    const alarm = alarmOf(sight);
    // The old reading at the ceiling is spoken of once.
    this.#text("[data-age]", alarm === "old-reading" ? "" : ageText(sight.age));
    // Nothing is counted down to what was read.
    this.#show("[data-to-ceiling]", alarm === undefined || alarm === "near-ceiling");
    const crossed = isNewCrossing(this.#alarm, alarm);
    this.#alarm = alarm;
    const running = forecast?.ok ? forecast.running : undefined;
    this.#text("[data-alarm]", alarmText(alarm, running, sight, this.#unitFor));
    if (crossed)
      this.dispatchEvent(
        new CustomEvent("bench-alarm", { bubbles: true, detail: { kind: alarm } }),
      );
  }

  #paintReadings(): void {
    const { graph, batch } = this.#scene as Scene;
    // Also those of a beaker that has been taken out, of which nothing is forecast any more.
    const checks = readingChecks(graph, batch, this.#steps);
    const rows = this.#readings.toReversed().map((entry) => {
      const check = checks.find((one) => one.entry === entry);
      const { low, high } = check?.expected ?? {};
      return [
        wallClock(entry),
        this.#degrees(entry.liquid),
        entry.bath === undefined ? "–" : this.#degrees(entry.bath),
        low === undefined || high === undefined
          ? "–"
          : `${this.#degrees(low)} to ${this.#degrees(high)}${check?.outside ? " (outside)" : ""}`,
      ];
    });
    this.#show("[data-readings]", rows.length > 0);
    const table = this.querySelector<HTMLTableElement>("[data-readings] table");
    if (table) fillTable(table, { head: ["Time", "Liquid", "Bath", "Expected"], rows });
  }

  #paintDeviations(): void {
    const { graph, batch } = this.#scene as Scene;
    const found = deviationsOf(graph, batch);
    this.#show("[data-deviations]", found.length > 0);
    this.#text("[data-deviations] summary", `Otherwise than planned so far: ${found.length}`);
    this.querySelector("[data-deviations] ul")?.replaceChildren(
      ...found.map((deviation) => {
        const item = document.createElement("li");
        item.append(`${say(deviation.say, this.#unitFor)} `);
        const why = derivationOf(deviation.derivation);
        if (why) item.append(siteLink(why.href, why.text));
        return item;
      }),
    );
  }

  async #draw(): Promise<void> {
    const { drawFigure } = await import("../figure/draw.ts");
    const place = this.querySelector<HTMLElement>("[data-drawing]");
    if (!this.#forecast?.ok || !place) return;
    const data = probeFigure(this.#forecast);
    const unitOf = (axis: Axis): string => this.#unitFor(axis.of);
    const width = widthIn(place.clientWidth);
    const title = this.querySelector("figcaption")?.textContent.trim() ?? "";
    place.replaceChildren(drawFigure(data, title, { document, width, unitOf }));
    const table = this.querySelector<HTMLTableElement>("[data-rows]");
    if (table) fillTable(table, figureRows(data, unitOf));
  }

  // Small things.

  #degrees(value: number): string {
    return formatAmount(value, "temperature", this.#unit, 3);
  }

  #field(name: FieldName): HTMLInputElement | null {
    return this.querySelector<HTMLInputElement>(`[data-probe-field="${name}"]`);
  }

  #fill(name: FieldName, text: string): void {
    const field = this.#field(name);
    if (field) field.value = text;
    setDraft(draftKey(name), text === "" ? undefined : text);
    this.#error(name, "");
  }

  #error(name: FieldName, message: string): void {
    this.#text(`[data-error-for="${name}"]`, message);
    const field = this.#field(name);
    if (message === "") field?.removeAttribute("aria-invalid");
    else field?.setAttribute("aria-invalid", "true");
  }

  #large(selector: string, { before, digits, after }: Large): void {
    this.#text(`${selector} .before`, before);
    this.#text(`${selector} .digits`, digits);
    this.#text(`${selector} .after`, after);
  }

  #list(selector: string, sentences: readonly string[]): void {
    const place = this.querySelector(selector);
    // What stands there already is not said again.
    if (place?.textContent === sentences.join("")) return;
    place?.replaceChildren(...sentences.map((text) => made("li", {}, text)));
  }

  #say(text: string): void {
    this.#text("[data-said]", text);
  }

  #text(selector: string, text: string): void {
    setText(this.querySelector(selector), text);
  }

  #show(selector: string, shown: boolean): void {
    this.querySelector(selector)?.toggleAttribute("hidden", !shown);
  }
}

function draftKey(name: FieldName): string {
  return `${DRAFT_PREFIX}probe.${name}`;
}

/** Makes the probe come alive. */
export function defineBenchProbe(): void {
  if (!customElements.get("bench-probe")) customElements.define("bench-probe", BenchProbe);
}
