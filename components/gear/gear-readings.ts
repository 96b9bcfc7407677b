import { calibrated, gearFrom, type ReadingEvening } from "../../lib/batch/gear.ts";
import { readingRows } from "../../lib/batch/forecast.ts";
import { entriesOf } from "../../lib/batch/log.ts";
import { readRecord, type Batch } from "../../lib/batch/record.ts";
import type { Rows } from "../../lib/calculations/calculation.ts";
import { all, onRow } from "../batch/database.ts";
import { batch } from "../batch/store.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { made } from "../shell/elements.ts";
import { readingsSay } from "./gear-text.ts";
import { gearOf, keepGear, notKept, takeGear, type Undo } from "./shelf.ts";

/** As many evenings are offered as one may want to compare. */
const MOST = 3;
const DAY = new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: "UTC" });

interface Evening {
  readonly batch: Batch;
  readonly day: string;
  readonly rows: Rows;
}

/** Offers what evenings with a probe say of the bath. */
class GearReadings extends HTMLElement {
  #scene: Scene | undefined;
  #stored: readonly Batch[] = [];
  #undo: Undo | undefined;

  connectedCallback(): void {
    onScene((scene) => {
      this.#scene = scene;
      this.#paint();
    });
    onRow("batches", () => void this.#load());
    void this.#load();
    this.querySelector("[data-undo]")?.addEventListener("click", () => {
      this.#undo?.();
      this.#done("It is as it was before.");
    });
  }

  async #load(): Promise<void> {
    const rows = await all("batches");
    this.#stored = rows.flatMap(({ text }) => {
      const read = readRecord(text);
      return read.ok ? [read.batch] : [];
    });
    this.#paint();
  }

  /** The newest evenings with readings, the open batch as it stands now. */
  #evenings(open: Batch): readonly Evening[] {
    const others = this.#stored.filter(({ id }) => id !== open.id);
    return [open, ...others]
      .flatMap((one): readonly Evening[] => {
        const [first] = entriesOf(one.log ?? [], "read");
        if (!first) return [];
        // Its steps are known by their names: the schedule of then may be another now.
        return [{ batch: one, day: first.at.slice(0, 10), rows: readingRows(one.log ?? [], []) }];
      })
      .sort((a, b) => b.day.localeCompare(a.day))
      .slice(0, MOST);
  }

  #paint(): void {
    const scene = this.#scene;
    if (!scene) return;
    const evenings = this.#evenings(scene.batch);
    this.hidden = evenings.length === 0;
    this.querySelector("ul")?.replaceChildren(
      ...evenings.map((evening) => this.#item(scene, evening)),
    );
  }

  #item({ graph, unitFor }: Scene, { batch: one, day, rows }: Evening): HTMLElement {
    const title = one.name === "" ? "the batch without a name" : `“${one.name}”`;
    const when = DAY.format(new Date(`${day}T00:00:00Z`));
    const said = readingsSay(graph, one, rows, unitFor);
    const line = made("p", {}, `${when}, ${title}. ${said.text}`);
    if (!said.ok) return made("li", {}, line);
    const text = `Use the readings of ${title}, ${when}, for this bath`;
    const button = made("button", { type: "button" }, text);
    button.addEventListener("click", () => void this.#take(rows, said.evening));
    return made("li", {}, line, button);
  }

  /** The open batch’s bath is known from them at once, and so is the kept one that it uses. */
  async #take(rows: Rows, evening: ReadingEvening): Promise<void> {
    const current = batch.get();
    const kept = gearOf(current, "bath");
    const name = current.gear?.["bath"] ?? "";
    const here = gearFrom(current, "bath", name, kept?.id ?? "");
    const undoHere = takeGear(calibrated(here, rows, evening));
    if (kept && !(await keepGear(calibrated(kept, rows, evening))))
      return this.#done(notKept(), undoHere);
    this.#done(
      kept
        ? `“${kept.name}” is known from these readings now, in this batch and the next.`
        : "This batch’s bath is known from these readings now. Keep it under a name, and the next batch starts from them.",
      () => {
        undoHere();
        if (kept) void keepGear(kept);
      },
    );
  }

  #done(text: string, undo?: Undo): void {
    this.#undo = undo;
    const place = this.querySelector("[data-result]");
    if (place) place.textContent = text;
    this.querySelector("[data-undo]")?.toggleAttribute("hidden", !undo);
  }
}

/** Brings the readings of earlier evenings alive. */
export function defineGearReadings(): void {
  if (!customElements.get("gear-readings")) customElements.define("gear-readings", GearReadings);
}
