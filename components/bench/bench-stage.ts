import {
  lastMade,
  MOST_ENTRIES,
  secondsSince,
  timeOf,
  undone,
  type Entry,
  type Noted,
} from "../../lib/batch/log.ts";
import { survey } from "../../lib/batch/obstacles.ts";
import { begin, writeRecord, type Batch } from "../../lib/batch/record.ts";
import { stageNotices } from "../../lib/batch/stages.ts";
import type { WeighingIn } from "../../lib/batch/weighing-in.ts";
import { MASS } from "../../lib/calculations/quantities/kinds.ts";
import { parse } from "../../lib/units/parse.ts";
import { derivationOf } from "../batch/derivations.ts";
import { batchKeeping } from "../batch/keeping.ts";
import { fileName, save } from "../batch/save.ts";
import {
  allInventedText,
  byCare,
  draftSentences,
  stageSentences,
  type PlanSentence,
} from "../batch/sheet-text.ts";
import { batch, changeBatch, drafts, notice, setDraft } from "../batch/store.ts";
import { onScene, type Scene } from "../calculation/live.ts";
import { cautionItem } from "../caution/caution-item.ts";
import { made, setText } from "../shell/elements.ts";
import { siteUrl } from "../shell/root.ts";
import {
  acceptText,
  entryText,
  kindOf,
  lastText,
  nameOf,
  planText,
  weighText,
  wrongReadingText,
} from "./bench-text.ts";
import { amountText, readAmount, type Whole } from "./amounts.ts";
import { compositionText, look, moreText, planCautions, shownText, type Now } from "./bench-now.ts";
import { clockText, lengthText, stampNow, wallClockAt, watchClock } from "./clock.ts";
import { DRAFT_PREFIX } from "./keys.ts";
import { allowSound, callOut, soundAllowed, soundReady, wakeSound } from "./sound.ts";
import { keepAwake, type Awake } from "./wake.ts";

/** ms between two looks at the clock: no second is skipped. */
const TICK = 250;

const KEEPING: Readonly<Record<ReturnType<typeof batchKeeping.get>, string>> = {
  kept: "",
  records:
    "Part of this browser’s storage is refused or full: what you press is kept among the records of this browser alone. Have the bench open in one tab only, and wait a moment before you close that.",
  refused:
    "This browser refuses to keep anything: all works, but only while this page is open. Before you leave it, save the batch as a file; “Open a file” on the Batch page brings it back.",
  full: "This browser’s storage is full: what you press now is lost when you leave this page. Save the batch as a file first; “Open a file” on the Batch page brings it back.",
};
const AWAKE: Readonly<Record<Awake, string>> = {
  on: "The screen stays on while this page is open.",
  impossible:
    "This browser cannot keep the screen on: set the device so that it stays on for an evening.",
  refused: "The device refuses to keep the screen on: its battery may be low.",
};

class BenchStage extends HTMLElement {
  #now: Now | undefined;
  #title = document.title;
  /** The step whose end has been called out, and the one seen last. */
  #called = "";
  #seen = "";
  readonly #setBack = watchClock();
  #jumpsKnown = 0;

  connectedCallback(): void {
    this.addEventListener("click", (event) => this.#pressed(event));
    this.addEventListener("submit", (event) => this.#submitted(event));
    this.addEventListener("input", ({ target }) => {
      if (isField(target)) setDraft(DRAFT_PREFIX + target.dataset["draft"], target.value);
    });
    this.addEventListener("change", ({ target }) => {
      if (!(target instanceof HTMLInputElement) || !target.dataset["check"]) return;
      setDraft(checkDraft(target.dataset["check"]), target.checked ? "yes" : undefined);
    });
    this.addEventListener("bench-alarm", (event) => this.#alarmed(event));
    for (const type of ["pointerdown", "keydown"])
      addEventListener(type, () => {
        wakeSound();
        this.#paintSound();
      });
    // What was ticked before this page came alive is ticked.
    for (const box of this.querySelectorAll<HTMLInputElement>("[data-check]:checked"))
      setDraft(checkDraft(box.dataset["check"] ?? ""), "yes");
    onScene((scene) => this.#paint(scene));
    drafts.subscribe(() => this.#paintDrafts());
    notice.subscribe((text) => text !== "" && this.#say(text));
    batchKeeping.subscribe((state) => {
      this.#text("[data-keeping]", KEEPING[state]);
      this.#show("[data-unkept]", state !== "kept");
      this.#show("[data-save]", state === "refused" || state === "full");
    });
    this.#paintSound();
    keepAwake((state) => this.#text("[data-awake]", AWAKE[state]));
    setInterval(() => this.#tick(), TICK);
    document.addEventListener("visibilitychange", () => this.#tick());
  }

  // What is pressed.

  #pressed(event: MouseEvent): void {
    const button = event.target instanceof Element ? event.target.closest("button") : null;
    // A knuckle that bounces counts once.
    if (!button || event.detail > 1) return;
    const data = button.dataset;
    if ("begin" in data) this.#begin();
    else if ("next" in data) this.#next();
    else if ("shows" in data) this.#shows();
    else if ("accept" in data) this.#accept();
    else if ("undo" in data) this.#undo();
    else if ("save" in data) save(writeRecord(batch.get()), fileName(batch.get().name, "json"));
    else if ("sound" in data) this.#sound();
    else if (data["goTo"]) this.#goTo(data["goTo"]);
  }

  #submitted(event: SubmitEvent): void {
    event.preventDefault();
    const { dataset } = event.target as HTMLFormElement;
    if ("weigh" in dataset) this.#noteReading();
    else if ("amounts" in dataset) this.#noteAmounts();
    else if ("note" in dataset) this.#noteText();
  }

  #begin(): void {
    const boxes = [...this.querySelectorAll<HTMLInputElement>("[data-check]")];
    const open = boxes.find(({ checked }) => !checked);
    const first = this.#now?.steps[0];
    const message = !first
      ? "There is no plan to begin yet: mend what is listed above."
      : open
        ? "Tick each line first: when one is not so, the evening can wait."
        : "";
    this.#text("[data-check-error]", message);
    this.#show("[data-check-error]", message !== "");
    if (open) open.focus();
    if (message !== "" || !first) return;
    const step: Entry = { kind: "step", at: stampNow(), step: first.id };
    const done = this.#change((current) => ({ ...begin(withoutEvening(current)), log: [step] }));
    if (!done) return;
    for (const { dataset } of boxes) setDraft(checkDraft(dataset["check"] ?? ""), undefined);
    this.#arrive();
  }

  #next(): void {
    const now = this.#now;
    if (!now) return;
    const next = now.steps[now.index + 1];
    if (next) return this.#goTo(next.id);
    const end: Entry = { kind: "end", at: stampNow() };
    const done = this.#change((current) => ({
      ...current,
      // The label wants the day; the log knows it.
      made: current.made ?? (current.log?.[0]?.at ?? end.at).slice(0, 10),
      log: [...(current.log ?? []), end],
    }));
    if (done) this.#arrive();
  }

  #goTo(id: string): void {
    if (!this.#add({ kind: "step", at: stampNow(), step: id })) return;
    this.querySelector("[data-skip]")?.removeAttribute("open");
    this.#arrive();
  }

  /** A new stage begins at its top, and is said once. */
  #arrive(): void {
    const now = this.#now;
    if (!now) return;
    const part = this.querySelector<HTMLElement>("[data-part]:not([hidden])");
    part?.scrollIntoView();
    const next = this.querySelector<HTMLElement>("[data-next]");
    // Where the pressed button is gone, a keyboard would start at the top of the page.
    if (document.activeElement !== next || next?.closest("[hidden]"))
      part?.querySelector("h2")?.focus({ preventScroll: true });
    this.#speak(
      now.step ? `${this.#place(now)}: ${now.step.label}.` : "The end of the evening is noted.",
    );
  }

  #shows(): void {
    const now = this.#now;
    const read = now?.ask && parse(now.ask.reading, "mass", MASS.units, now.massUnit);
    if (read?.ok) this.#weigh(read.value);
  }

  #noteReading(): void {
    const field = this.querySelector<HTMLInputElement>("#bench-reading");
    const now = this.#now;
    if (!field || !now?.weighing) return;
    const read = parse(field.value, "mass", MASS.units, now.massUnit);
    const message = read.ok
      ? wrongReadingText(now.weighing, read.value, now.massUnit)
      : read.message;
    this.#error(field, message);
    if (read.ok && message === "" && this.#weigh(read.value)) this.#clear(field);
  }

  #weigh(reading: number): boolean {
    const now = this.#now;
    const { weighing, plan } = now ?? {};
    if (!weighing || !plan) return false;
    // Less than before, or what is still wrong: the reading mends the last portion.
    const mends = weighing.refusal !== undefined || this.#below(weighing, reading);
    const to = mends ? weighing.last : (weighing.asks[0] ?? weighing.last);
    if (!to) return false;
    const { vessel, ingredient } = to;
    const done = this.#add({
      kind: "weighed",
      at: stampNow(),
      vessel,
      of: plan.vessels,
      ingredient,
      reading,
    });
    if (done) this.#speak(this.#lastSentence());
    return done;
  }

  #below({ last, asks, shown }: WeighingIn, reading: number): boolean {
    const ask = asks[0];
    if (!last || (ask && ask.vessel !== last.vessel)) return false;
    return reading < (shown[last.vessel - 1] ?? 0);
  }

  #accept(): void {
    const { weighing, plan } = this.#now ?? {};
    const last = weighing?.last;
    if (!last || !plan) return;
    const done = this.#add({
      kind: "weighed",
      at: stampNow(),
      vessel: last.vessel,
      of: plan.vessels,
      ingredient: last.ingredient,
      reading: weighing.shown[last.vessel - 1] ?? 0,
      accepted: true,
    });
    if (done) this.#speak(this.#lastSentence());
  }

  #noteAmounts(): void {
    const fields = [...this.querySelectorAll<HTMLInputElement>("[data-amount]")].filter(
      (field) => !field.closest("[hidden]"),
    );
    const entries: Entry[] = [];
    for (const field of fields) {
      const of = field.dataset["amount"] as Noted;
      if (field.value.trim() === "") {
        this.#error(field, "");
        continue;
      }
      const read = readAmount(of, field.value, this.#whole());
      this.#error(field, typeof read === "string" ? read : "");
      if (typeof read === "string") {
        this.#say("");
        return field.focus();
      }
      entries.push({ kind: "amount", at: stampNow(), of, value: read });
    }
    if (entries.length === 0) return this.#say("Type an amount first.");
    if (!this.#add(...entries)) return;
    for (const field of fields) this.#clear(field);
    this.#say("Noted.");
  }

  /** All that was to be made: no part of it is more. */
  #whole(): Whole {
    const recipe = this.#now?.scene.shownOf("recipe");
    const volume = recipe?.inputs["batchVolume"];
    return {
      mass: recipe?.values["totalMass"]?.high,
      volume: typeof volume === "number" ? volume : undefined,
    };
  }

  #noteText(): void {
    const field = this.querySelector<HTMLTextAreaElement>("#bench-note");
    const text = field?.value.trim() ?? "";
    if (!field || text === "") return this.#say("Type a note first.");
    if (!this.#add({ kind: "note", at: stampNow(), text })) return;
    this.#clear(field);
    this.#say("The note is kept.");
  }

  #undo(): void {
    const now = this.#now;
    const last = now && lastMade(now.log);
    if (!last) return;
    const done = this.#change((current) => {
      const log = undone(current.log ?? []);
      // Before the first step nothing has begun, and the plan is free again.
      return lastMade(log) ? { ...current, log } : withoutEvening(current);
    });
    if (!done) return;
    this.#say(`Undone: ${entryText(last, now.steps)}.`);
    if (this.contains(document.activeElement) && document.activeElement?.closest("[hidden]"))
      this.querySelector<HTMLElement>("[data-part]:not([hidden]) h2")?.focus();
  }

  #sound(): void {
    allowSound(!soundAllowed());
    wakeSound();
    callOut("over");
    this.#paintSound();
  }

  #alarmed(event: Event): void {
    const { detail } = event as CustomEvent<unknown>;
    const kind = typeof detail === "object" && detail !== null && "kind" in detail && detail.kind;
    if (kind === "ceiling" || kind === "near-ceiling") callOut(kind);
  }

  // What is kept.

  #add(...entries: readonly Entry[]): boolean {
    const { log } = this.#now ?? { log: [] };
    if (log.length + entries.length > MOST_ENTRIES) {
      this.#say("This log is full. End the evening, and write the rest into the notes.");
      return false;
    }
    return this.#change((current) => ({ ...current, log: [...(current.log ?? []), ...entries] }));
  }

  /** Changes the batch, unless another tab has added to the log what this one has not shown yet. */
  #change(change: (current: Batch) => Batch): boolean {
    const seen = JSON.stringify(this.#now?.log ?? []);
    let done = false;
    changeBatch((current) => {
      done = JSON.stringify(current.log ?? []) === seen;
      return done ? change(current) : current;
    });
    if (!done)
      this.#say("Another tab was quicker. Nothing was noted twice: look, then press again.");
    return done;
  }

  #clear(field: Field): void {
    setDraft(DRAFT_PREFIX + field.dataset["draft"], undefined);
    field.value = "";
  }

  // What is shown.

  #paint(scene: Scene): void {
    const now = look(scene);
    this.#now = now;
    const began = now.log.some(({ kind }) => kind === "step");
    const ended = began && !now.entry;
    this.#show('[data-part="check"]', !began);
    this.#show('[data-part="step"]', began && !ended);
    this.#show('[data-part="end"]', ended);
    this.#show("[data-lesser]", began);
    this.#show("[data-device]", true);
    this.#show("[data-onward]", ended);
    this.#show("[data-amounts]", ended || this.#asked(now).length > 0);
    if (!began) this.#paintCheck(now);
    else if (ended) this.#paintEnd(now);
    else this.#paintStep(now);
    this.#paintAmounts(now, ended);
    this.#paintLesser(now);
    this.#tick();
  }

  #paintCheck({ scene, steps, total, plan }: Now): void {
    const own = Object.keys(scene.values).length > 0;
    const name = scene.batch.name === "" ? "your batch" : `“${scene.batch.name}”`;
    this.#text(
      "[data-plan]",
      steps.length > 0 && plan
        ? planText(own ? name : undefined, steps.length, total)
        : "There is no plan to follow yet: mend this on the Batch page first.",
    );
    const { hard } = byCare(survey(scene.graph, scene.values, scene.outcomeOf).obstacles);
    this.#list("[data-in-the-way]", [
      ...draftSentences(scene.graph, drafts.get()),
      ...stageSentences(scene.graph, hard, scene.unitFor),
    ]);
    this.#show("[data-mend]", hard.length > 0);
    this.#text("[data-invented]", own ? allInventedText(scene.graph, scene.values) : "");
  }

  #paintStep(now: Now): void {
    const { scene, step, text, entry, weighing, steps, index } = now;
    const name = nameOf(entry?.step ?? "", steps);
    this.#text("[data-place]", step ? this.#place(now) : "No longer in the plan");
    this.#text("[data-step-name]", name);
    this.#text("[data-do]", this.#sayOf(now));
    const number = text?.number && shownText(scene, text.number);
    const ask = now.ask;
    this.#show("[data-target]", ask !== undefined || number !== undefined);
    this.#text("[data-target-before]", ask ? this.#askHead(now) : (text?.number?.before ?? ""));
    this.#text("[data-target-number]", ask ? ask.reading : (number ?? ""));
    const more = text?.number ? moreText(scene, text.number) : "";
    this.#text("[data-target-after]", ask ? `${ask.tolerance}; that is ${ask.portion} more` : more);
    this.#text("[data-missed]", now.missed);
    this.#show("[data-back]", now.missed !== "");
    this.#text(
      "[data-planned]",
      step && text?.timed === false ? `Planned: ${lengthText(step.length)}.` : "",
    );
    this.#show("[data-probe]", text?.warm === true);
    this.#show("[data-weigh]", step?.stage === "weigh" && weighing !== undefined);
    this.#show("[data-shows]", ask !== undefined && !weighing?.refusal);
    this.#text("[data-shows]", ask ? `It shows ${ask.reading}` : "");
    this.#text("[data-reading-unit]", `, in ${now.massUnit}`);
    this.#text("[data-last]", step?.stage === "weigh" ? this.#lastSentence() : "");
    const off = weighing?.last && weighing.last.verdict !== "within" && !weighing.last.accepted;
    this.#show("[data-accept]", step?.stage === "weigh" && off === true);
    this.#text("[data-accept]", weighing?.last ? acceptText(weighing) : "");
    const settled = step?.stage === "weigh" && (weighing?.refusal ?? weighing?.asks.length === 0);
    this.#text("[data-composition]", settled ? compositionText(now) : "");
    const next = steps[index + 1];
    this.#text("[data-next]", next ? `Next: ${next.label}` : "End the evening");
    // While something is still to add, the next stage is reached by skipping alone.
    this.#show("[data-next]", !(step?.stage === "weigh" && (ask ?? weighing?.refusal)));
    this.#paintCautions(now);
    this.#paintWhy(entry?.step ?? "");
  }

  #paintWhy(step: string): void {
    const why = derivationOf(step);
    const link = this.querySelector<HTMLAnchorElement>("[data-why]");
    this.#show("[data-why-line]", why !== undefined);
    if (!link || !why) return;
    link.href = siteUrl(why.href.slice(1)).href;
    this.#text("[data-why]", `Why this number: ${why.text}`);
  }

  #place({ index, steps }: Now): string {
    return `${index + 1} of ${steps.length}`;
  }

  #sayOf({ text, step, ask, plan, weighing }: Now): string {
    if (step?.stage !== "weigh" || !plan) return text?.say ?? "";
    const next = weighing?.asks[0];
    if (ask && next) return weighText(next);
    return weighing?.asks.length === 0 ? "All is in." : "";
  }

  /** "Add spirit", and to which beaker. */
  #askHead({ weighing, plan }: Now): string {
    const ask = weighing?.asks[0];
    if (!ask) return "";
    const more = ask.more ? "Add more " : "Add ";
    const where = (plan?.vessels ?? 1) > 1 ? `, beaker ${ask.vessel} of ${plan?.vessels}` : "";
    return `${more}${ask.label.toLowerCase()}${where}, until it shows`;
  }

  #lastSentence(): string {
    const { weighing, plan, readability, massUnit } = this.#now ?? {};
    if (!weighing || !plan || readability === undefined || massUnit === undefined) return "";
    return lastText(weighing, plan, readability, massUnit);
  }

  #paintCautions(now: Now): void {
    const { scene, step, text, entry } = now;
    const place = this.querySelector("[data-cautions]");
    if (!place) return;
    const kind = kindOf(entry?.step ?? "");
    const notices = stageNotices(scene.outcomeOf).filter(({ calculation }) =>
      text?.notices.includes(calculation),
    );
    const said = [...planCautions(now), ...stageSentences(scene.graph, notices, scene.unitFor)];
    for (const item of place.querySelectorAll<HTMLElement>("[data-steps]")) {
      const holds = item.dataset["steps"]?.split(" ").includes(kind ?? "");
      const again = said.some(({ caution }) => caution === item.dataset["caution"]);
      item.hidden = !holds || again;
    }
    // While weighing, the next press stays on the first screen: only what stands in its way is above it.
    const below = step?.stage === "weigh" ? said.filter(({ caution }) => caution) : [];
    this.#list(
      "[data-notices]",
      said.filter((each) => !below.includes(each)),
    );
    this.#list("[data-notices-below]", below);
  }

  #paintEnd(now: Now): void {
    const end = now.log.findLast(({ kind }) => kind === "end");
    const start = now.log[0];
    if (end && start) {
      const took = lengthText(Math.max(secondsSince(now.log, start, end), 0));
      this.#text("[data-end-time]", `It took ${took} and ended at ${wallClockAt(timeOf(end))}.`);
    }
    this.#text("[data-end-composition]", compositionText(now));
  }

  /** The amounts that are asked for at this step. */
  #asked({ step }: Now): readonly Noted[] {
    if (step?.stage === "skim") return ["skimmedVolume", "skimmedMass"];
    if (step?.stage === "bottle") return ["bottles", "lastVolume"];
    return [];
  }

  #paintAmounts(now: Now, ended: boolean): void {
    const asked = this.#asked(now);
    const form = this.querySelector("[data-amounts]");
    const place = this.querySelector(`[data-amounts-at="${ended ? "end" : "step"}"]`);
    if (form && form.parentElement !== place) place?.append(form);
    for (const field of this.querySelectorAll<HTMLElement>("[data-amount-field]")) {
      const of = field.dataset["amountField"] as Noted;
      field.hidden = !ended && !asked.includes(of);
      const entry = now.log.findLast((each) => each.kind === "amount" && each.of === of);
      this.#text(
        `[data-noted="${of}"]`,
        entry?.kind === "amount" ? `(noted: ${amountText(of, entry.value)})` : "",
      );
    }
  }

  #paintLesser({ log, steps, entry }: Now): void {
    const last = lastMade(log);
    for (const button of this.querySelectorAll("[data-undo]"))
      button.textContent = last ? `Undo: ${entryText(last, steps)}` : "";
    const list = this.querySelector("[data-steps-list]");
    const key = JSON.stringify([steps.map(({ id, label }) => [id, label]), entry?.step]);
    if (!list || list.getAttribute("data-key") === key) return;
    list.setAttribute("data-key", key);
    list.replaceChildren(
      ...steps.map(({ id, label }) => {
        const here = id === entry?.step && { "aria-current": "step" };
        const props = { type: "button", class: "large", "data-go-to": id, ...here };
        return made("li", {}, made("button", props, label));
      }),
    );
  }

  #paintDrafts(): void {
    for (const field of this.querySelectorAll<Field>("[data-draft]")) {
      const draft = drafts.get()[DRAFT_PREFIX + field.dataset["draft"]] ?? "";
      if (field.value === draft || document.activeElement === field) continue;
      field.value = draft;
      // A text that a reload brought back is not left where nobody sees it.
      if (draft !== "") field.closest("details")?.setAttribute("open", "");
    }
    for (const box of this.querySelectorAll<HTMLInputElement>("[data-check]"))
      box.checked = checkDraft(box.dataset["check"] ?? "") in drafts.get();
  }

  #paintSound(): void {
    const on = soundAllowed();
    this.querySelector("[data-sound]")?.setAttribute("aria-pressed", String(on));
    this.#text(
      "[data-sound-says]",
      !on
        ? "Off. Press to hear when a time is up, and when the liquid nears its ceiling."
        : soundReady()
          ? "On, on this device. Press to switch it off."
          : "On, but silent until you touch this page once: so browsers want it.",
    );
  }

  // What the clock does.

  #tick(): void {
    this.#watch();
    const now = this.#now;
    const { entry, step, text } = now ?? {};
    if (!now || !entry || !step) {
      this.#show("[data-time]", false);
      return this.#retitle("");
    }
    const elapsed = secondsSince(now.log, entry, Date.now());
    const left = step.length - elapsed;
    const over = left <= 0;
    const shown = over ? `+${clockText(-left)}` : clockText(Math.ceil(left));
    const end = Date.now() + left * 1000;
    this.#show("[data-time]", text?.timed === true);
    this.querySelector("[data-time]")?.toggleAttribute("data-over", over);
    if (elapsed < -1) this.#paintLost();
    else {
      this.#text("[data-time-before]", over ? "Over by" : "Time left");
      this.#text("[data-time-left]", shown);
      this.#text(
        "[data-time-after]",
        over ? `it was up at ${wallClockAt(end)}` : `until ${wallClockAt(end)}`,
      );
    }
    if (!text?.timed || elapsed < -1) return this.#retitle(step.label);
    this.#retitle(over ? `${shown} over, ${step.label}` : `${shown} left, ${step.label}`);
    // One that was over before it was seen has called already, or nobody was there to hear.
    const first = this.#seen !== entry.at;
    this.#seen = entry.at;
    if (!over || this.#called === entry.at) return;
    this.#called = entry.at;
    if (first) return;
    callOut("over");
    this.#speak(`Time is up: ${step.label}.`);
  }

  #paintLost(): void {
    this.#text("[data-time-before]", "Time left");
    this.#text("[data-time-left]", "?");
    this.#text(
      "[data-time-after]",
      "The clock of this device was set back while this page was closed. Skip to this stage again to start its time anew.",
    );
  }

  /** A clock set back under the eyes of this page is noted; another tab that saw it too notes nothing more. */
  #watch(): void {
    const by = this.#setBack();
    const { log } = this.#now ?? { log: [] };
    const jumps = log.filter(({ kind }) => kind === "clock").length;
    const noted = jumps > this.#jumpsKnown;
    this.#jumpsKnown = jumps;
    if (by === 0 || noted || !this.#now?.entry) return;
    this.#jumpsKnown = jumps + 1;
    if (this.#add({ kind: "clock", at: stampNow(), by }))
      this.#say("The clock of this device was set back. The times here go on as they were.");
  }

  #retitle(text: string): void {
    const title = text === "" ? this.#title : `${text} · ${this.#title}`;
    if (document.title !== title) document.title = title;
  }

  // Small things.

  #text(selector: string, text: string): void {
    setText(this.querySelector(selector), text);
  }

  #show(selector: string, shown: boolean): void {
    this.querySelector(selector)?.toggleAttribute("hidden", !shown);
  }

  /** What the page shows nowhere else. */
  #say(text: string): void {
    this.#text("[data-said]", text);
  }

  /** What the page shows already, for whoever does not see it. */
  #speak(text: string): void {
    this.#say("");
    this.#text("[data-spoken]", text);
  }

  #list(selector: string, sentences: readonly PlanSentence[]): void {
    this.querySelector(selector)?.replaceChildren(...sentences.map(cautionItem));
  }

  #error(field: Field, message: string): void {
    const place = this.querySelector(`#${field.id}-error`);
    if (!place) return;
    this.#text(`#${field.id}-error`, message);
    place.toggleAttribute("hidden", message === "");
    if (message === "") field.removeAttribute("aria-invalid");
    else field.setAttribute("aria-invalid", "true");
  }
}

type Field = HTMLInputElement | HTMLTextAreaElement;

function isField(target: unknown): target is Field {
  const typed = target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
  return typed && target.dataset["draft"] !== undefined;
}

function checkDraft(check: string): string {
  return `${DRAFT_PREFIX}check.${check}`;
}

function withoutEvening({ planned: _, log: __, ...plan }: Batch): Batch {
  return plan;
}

/** Makes the bench come alive. */
export function defineBenchStage(): void {
  if (!customElements.get("bench-stage")) customElements.define("bench-stage", BenchStage);
}
