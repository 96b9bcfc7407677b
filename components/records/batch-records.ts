import type { Batch } from "../../lib/batch/record.ts";
import { again, EMPTY_BATCH, writeRecord } from "../../lib/batch/record.ts";
import { useGear } from "../../lib/batch/gear.ts";
import { againOtherwise } from "../../lib/batch/otherwise.ts";
import { readingsCsv } from "../../lib/batch/readings-csv.ts";
import { MAX_RECORDS_TEXT } from "../../lib/batch/records-file.ts";
import { readEntry } from "../../lib/calculations/entry.ts";
import { capital } from "../../lib/calculations/capital.ts";
import type { Graph } from "../../lib/calculations/graph.ts";
import { loadGraph } from "../../lib/calculations/registry.ts";
import type { UnitChoice } from "../../lib/calculations/say.ts";
import { batchKeeping, recordsKeeping } from "../batch/keeping.ts";
import { nearlyFull, promised, put, remove } from "../batch/database.ts";
import { newId } from "../batch/new-id.ts";
import { fileName, save } from "../batch/save.ts";
import {
  batch,
  changeRecord,
  isBlank,
  notice,
  openStore,
  replaceBatch,
  titleOf,
  written,
} from "../batch/store.ts";
import { unitIn } from "../calculation/live.ts";
import { made } from "../shell/elements.ts";
import { siteUrl } from "../shell/root.ts";
import { exportAll, importAll, kept, openRecords, type Recorded } from "./kept-records.ts";
import { button } from "./record-parts.ts";
import { compareView, drawTemperatures, OTHERWISE, recordView } from "./record-view.ts";
import { count, KEEPING, mergeText, newestFirst, summaryOf, titleIn } from "./records-text.ts";

/** A mark for spreadsheets that the text is in UTF-8. */
const BOM = "\uFEFF";

class BatchRecords extends HTMLElement {
  #graph: Promise<Graph> | undefined;
  #undo: (() => void) | undefined;
  /** ids of the records that are marked, to be compared; the newest mark last */
  #marked: readonly string[] = [];
  /** What the list and the view show, to leave them alone where nothing changed. */
  #shown = "";
  #viewed = "";

  connectedCallback(): void {
    openStore();
    this.addEventListener("click", (event) => this.#pressed(event.target));
    this.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.#submitted(event.target as HTMLFormElement);
    });
    this.addEventListener("change", (event) => this.#changed(event.target));
    this.querySelector("[data-search]")?.addEventListener("input", () => this.#list());
    notice.subscribe((text) => text !== "" && this.#say(text));
    recordsKeeping.subscribe(() => void this.#keeping());
    kept.subscribe((now) => {
      if (!now) return;
      this.#list();
      void this.#view(false);
      void this.#keeping();
    });
    addEventListener("hashchange", () => {
      if (!this.#undo) this.#say("");
      void this.#view(true);
    });
    addEventListener("beforeprint", () => {
      // Paper shows the log, folded away or not.
      this.querySelector(".log")?.closest("details")?.setAttribute("open", "");
    });
    openRecords();
  }

  #record(id: string | undefined): Recorded | undefined {
    return kept.get()?.batches.find((one) => one.id === id);
  }

  get #unitFor(): UnitChoice {
    const { units } = batch.get();
    return (of) =>
      unitIn(units, "name" in of && typeof of.name === "string" ? of.name : undefined, of.units);
  }

  #pressed(target: EventTarget | null): void {
    const pressed = target instanceof Element ? target.closest("button") : null;
    const { act, id } = pressed?.dataset ?? {};
    const record = this.#record(id);
    if (act === "open" && record) this.#open(record);
    if (act === "again" && record) void this.#plan(record, again(record, newId()));
    if (act === "file" && record) save(writeRecord(record), fileName(record.name, "json"));
    if (act === "csv" && record) save(BOM + readingsCsv(record), fileName(record.name, "csv"));
    if (act === "print") window.print();
    if (act === "remove" && record) void this.#remove(record);
    if (act === "save-damaged" && id !== undefined) this.#saveDamaged(id);
    if (act === "remove-damaged" && id !== undefined) void this.#removeDamaged(id);
    if (act === "compare") location.hash = `compare=${this.#marked.join(",")}`;
    if (act === "export") void this.#export();
    if (act === "undo") {
      this.#undo?.();
      this.#say("It is back.");
    }
  }

  #open(record: Recorded): void {
    const before = batch.get();
    replaceBatch(record);
    const put = isBlank(before)
      ? ""
      : ` ${capital(titleOf(before))}, which was open, stays among the records.`;
    this.#say(`${capital(titleOf(record))} is open on all pages now.${put}`);
  }

  /** Opens a plan for another evening, with what is known of the gear by now. */
  async #plan(record: Recorded, next: Batch): Promise<void> {
    const gear = (kept.get()?.gear ?? []).filter(({ kind, name }) => next.gear?.[kind] === name);
    replaceBatch(gear.reduce(useGear, next));
    await written();
    const state = batchKeeping.get();
    if (state === "kept" || state === "records") location.assign(siteUrl("plan/"));
    else
      this.#say(
        `${capital(titleOf(record))} is planned again, on this page only: this browser keeps nothing.`,
      );
  }

  async #remove(record: Recorded): Promise<void> {
    const open = batch.get().id === record.id;
    if (open) replaceBatch(EMPTY_BATCH);
    await written();
    if (!(await remove("batches", record.id)))
      return this.#say(`${capital(titleOf(record))} could not be removed: this browser refuses.`);
    location.hash = "all";
    this.#say(`${capital(titleOf(record))} is removed.`, () => {
      void put("batches", record.id, writeRecord(record));
      if (open) replaceBatch(record);
    });
    this.querySelector<HTMLElement>('[data-act="undo"]')?.focus();
  }

  #saveDamaged(id: string): void {
    const found = kept.get()?.damaged.find((one) => one.id === id);
    if (found) save(found.text, fileName(id, "json"));
  }

  async #removeDamaged(id: string): Promise<void> {
    const found = kept.get()?.damaged.find((one) => one.id === id);
    if (!found || !(await remove(found.shelf, id))) return;
    this.#say("What could not be read is removed.", () => void put(found.shelf, id, found.text));
  }

  async #export(): Promise<void> {
    save(await exportAll(), fileName("bilayer bench records", "json"));
    const { batches = [], gear = [], damaged = [] } = kept.get() ?? {};
    this.#say(
      `${count(batches.length, "batch", "batches")} and ${count(gear.length, "piece", "pieces")} of gear are in the file.${
        damaged.length > 0 ? " What could not be read is not in it: save that by itself." : ""
      }`,
    );
  }

  async #submitted(form: HTMLFormElement): Promise<void> {
    const record = this.#record(form.dataset["id"]);
    if (!record) return;
    if (form.dataset["form"] === "rename") {
      const name = form.querySelector("input")?.value.slice(0, 120) ?? "";
      const done = await changeRecord(record, (current) => ({ ...current, name }));
      this.#say(
        done ? `It is called ${titleOf({ ...record, name })} now.` : KEEPING[this.#failing()],
      );
      if (done) this.querySelector<HTMLElement>("[data-heading]")?.focus();
    } else await this.#otherwise(form, record);
  }

  async #otherwise(form: HTMLFormElement, record: Recorded): Promise<void> {
    const changes: Record<string, number> = {};
    let wrong: HTMLInputElement | undefined;
    for (const of of OTHERWISE) {
      const field = form.querySelector<HTMLInputElement>(`[name="${of.name}"]`);
      const read = readEntry(of, field?.value ?? "", this.#unitFor(of));
      const fault = form.querySelector<HTMLElement>(`#otherwise-${of.name}-fault`);
      if (fault) {
        fault.textContent = read.ok ? "" : read.message;
        fault.hidden = read.ok;
      }
      field?.setAttribute("aria-invalid", String(!read.ok));
      if (read.ok) changes[of.name] = read.value;
      else wrong ??= field ?? undefined;
    }
    if (wrong) return wrong.focus();
    const graph = await (this.#graph ??= loadGraph());
    await this.#plan(record, againOtherwise(graph, record, changes, newId()));
  }

  #changed(target: EventTarget | null): void {
    if (!(target instanceof HTMLInputElement)) return;
    const { id } = target.dataset;
    if (target.type === "checkbox" && id !== undefined) {
      const others = this.#marked.filter((one) => one !== id);
      // Of three the oldest mark gives way.
      this.#marked = target.checked ? [...others.slice(-1), id] : others;
      this.#marks();
    }
    const file = target.files?.[0];
    if (target.matches("[data-import]") && file) void this.#import(file);
    if (target.type === "file") target.value = "";
  }

  async #import(file: File): Promise<void> {
    const done =
      file.size > MAX_RECORDS_TEXT
        ? {
            ok: false as const,
            message: "It is far too long to be a file of records of this notebook.",
          }
        : await importAll(await file.text());
    const list = this.querySelector("[data-results]");
    list?.replaceChildren();
    if (!done.ok)
      return this.#say(`“${file.name}” was not opened. ${done.message} Nothing here was changed.`);
    const { results, refused } = done;
    list?.append(...[...refused, ...results.map(mergeText)].map((text) => made("li", {}, text)));
    const added = results.filter(({ outcome }) => outcome !== "here already").length;
    this.#say(
      `“${file.name}”: ${added} added, ${results.length - added} here already, ${refused.length} refused. Each is listed under the buttons.`,
    );
  }

  #failing(): "full" | "refused" {
    return recordsKeeping.get() === "full" ? "full" : "refused";
  }

  async #keeping(): Promise<void> {
    const state = recordsKeeping.get();
    const place = this.querySelector("[data-keeping]");
    const calm = (await nearlyFull()) ? "nearly" : (await promised()) ? "promised" : "kept";
    if (place) place.textContent = KEEPING[state === "kept" ? calm : state];
  }

  #say(text: string, undo?: () => void): void {
    this.#undo = undo;
    const place = this.querySelector("[data-said]");
    if (place) place.textContent = text;
    this.querySelector('[data-act="undo"]')?.toggleAttribute("hidden", !undo);
  }

  #list(): void {
    const known = kept.get();
    // Until the shelf was read, the page is as it was built.
    if (known) this.dataset["listed"] = "";
    const { batches, damaged } = known ?? { batches: [], damaged: [] };
    const wanted = this.querySelector<HTMLInputElement>("[data-search]")?.value.trim() ?? "";
    const found = newestFirst(batches).filter(({ name }) =>
      name.toLocaleLowerCase().includes(wanted.toLocaleLowerCase()),
    );
    const open = batch.get().id;
    const shown = JSON.stringify([wanted, open, batches, damaged, batch.get().units]);
    if (shown === this.#shown) return;
    this.#shown = shown;
    const focused = document.activeElement as HTMLElement | null;
    const { act, id } = focused?.dataset ?? {};
    this.querySelector("[data-empty]")?.toggleAttribute("hidden", batches.length > 0);
    for (const part of this.querySelectorAll("[data-many]"))
      part.toggleAttribute("hidden", batches.length < 2);
    this.querySelector("[data-none]")?.toggleAttribute(
      "hidden",
      batches.length === 0 || found.length > 0,
    );
    this.querySelector("[data-rows]")?.replaceChildren(...found.map((one) => this.#row(one, open)));
    this.querySelector("[data-damaged]")?.replaceChildren(
      ...damaged.map(({ id: row, message, shelf }) =>
        made(
          "li",
          {},
          `One of your ${shelf === "gear" ? "pieces of gear" : "records"} could not be read. ${message} It is kept as it is. `,
          made(
            "span",
            { class: "buttons" },
            button("save-damaged", "Save it as it is", row),
            button("remove-damaged", "Remove it", row),
          ),
        ),
      ),
    );
    this.#marked = this.#marked.filter((one) => this.#record(one));
    this.#marks();
    if (act !== undefined && id !== undefined)
      this.querySelector<HTMLElement>(`[data-rows] [data-act="${act}"][data-id="${id}"]`)?.focus();
  }

  #row(record: Recorded, open: string | undefined): HTMLElement {
    const { id } = record;
    const many = (kept.get()?.batches.length ?? 0) > 1;
    return made(
      "li",
      {},
      made(
        "div",
        {},
        made("a", { href: `#record=${id}`, class: "name" }, titleIn(record)),
        made("span", { class: "summary" }, summaryOf(record, this.#unitFor)),
      ),
      made(
        "div",
        { class: "buttons" },
        ...(many
          ? [
              made(
                "label",
                { class: "mark" },
                made("input", { type: "checkbox", "data-id": id, "data-act": "mark" }),
                "Compare",
                made("span", { class: "visually-hidden" }, ` ${titleIn(record)}`),
              ),
            ]
          : []),
        id === open
          ? made("span", { class: "open" }, "Open now")
          : named(button("open", "Open", id), record),
        named(button("again", "Again", id), record),
      ),
    );
  }

  #marks(): void {
    for (const box of this.querySelectorAll<HTMLInputElement>('[data-rows] [type="checkbox"]'))
      box.checked = this.#marked.includes(box.dataset["id"] ?? "");
    const compare = this.querySelector<HTMLButtonElement>('[data-act="compare"]');
    if (compare) compare.disabled = this.#marked.length !== 2;
  }

  /** Shows what the address asks for: all records, one of them, or two. */
  async #view(moved: boolean): Promise<void> {
    const place = this.querySelector<HTMLElement>("[data-view]");
    const all = this.querySelector<HTMLElement>("[data-all]");
    const [what, ids = ""] = location.hash.slice(1).split("=");
    const found = ids.split(",").flatMap((id) => this.#record(id) ?? []);
    const [one, other] = found;
    const known = (what === "record" && one) || (what === "compare" && one && other);
    if (!place || !all) return;
    const viewed = known ? JSON.stringify([what, found, batch.get().id, batch.get().units]) : "";
    // Fields that somebody is typing in stay.
    const typing =
      place.contains(document.activeElement) && document.activeElement?.matches("input");
    if (!moved && (viewed === this.#viewed || typing)) return;
    this.#viewed = viewed;
    all.hidden = viewed !== "";
    place.hidden = viewed === "";
    if (!one || viewed === "") return place.replaceChildren();
    const look = { graph: await (this.#graph ??= loadGraph()), unitFor: this.#unitFor };
    if (this.#viewed !== viewed) return;
    if (what === "compare" && other) place.replaceChildren(...compareView(look, one, other));
    else {
      const open = batch.get().id === one.id;
      place.replaceChildren(...recordView(look, one, open, this.#record(one.repeats)));
      const figure = place.querySelector<HTMLElement>("[data-figure]");
      if (figure) await drawTemperatures(figure, one, look.unitFor);
    }
    if (moved) place.querySelector<HTMLElement>("[data-heading]")?.focus();
  }
}

/** Which record a button is for, for who hears it out of its row. */
function named(control: HTMLButtonElement, record: Recorded): HTMLButtonElement {
  control.append(made("span", { class: "visually-hidden" }, ` ${titleIn(record)}`));
  return control;
}

/** Makes the list of records and what can be done with them work. */
export function defineBatchRecords(): void {
  if (!customElements.get("batch-records")) customElements.define("batch-records", BatchRecords);
}
