import { setText } from "../shell/elements.ts";
import {
  EMPTY_CHECK_LIST,
  OWN_LIMITS,
  ownLine,
  readCheckList,
  writeCheckList,
  type CheckListRecord,
} from "./check-list.ts";

const KEY = "bilayer-bench.check-list";
const KEPT = "Ticks and lines are kept in this browser, and nowhere else.";
const NOT_KEPT =
  "This browser does not let the page keep anything: ticks and lines are gone when you leave it. Print the list to keep it.";

class CheckList extends HTMLElement {
  private record: CheckListRecord = EMPTY_CHECK_LIST;

  connectedCallback(): void {
    this.addEventListener("change", () => this.keep());
    this.querySelector("form")?.addEventListener("submit", (event) => {
      event.preventDefault();
      this.add();
    });
    this.querySelector("[data-clear]")?.addEventListener("click", () => {
      for (const box of this.boxes()) box.checked = false;
      this.keep();
    });
    this.querySelector("[data-print]")?.addEventListener("click", () => {
      // The page's print style leaves out the rest while this stands.
      document.documentElement.dataset["print"] = "check-list";
      addEventListener("afterprint", () => delete document.documentElement.dataset["print"], {
        once: true,
      });
      print();
    });
    addEventListener("storage", this.onStorage);
    this.load();
  }

  disconnectedCallback(): void {
    removeEventListener("storage", this.onStorage);
  }

  /** Another tab changed the list. */
  private readonly onStorage = (event: StorageEvent): void => {
    if (event.key === KEY || event.key === null) this.show(readCheckList(event.newValue));
  };

  private boxes(): readonly HTMLInputElement[] {
    return [...this.querySelectorAll<HTMLInputElement>("input[type=checkbox]")];
  }

  private ownList(): HTMLElement | null {
    return this.querySelector("[data-own]");
  }

  private load(): void {
    try {
      this.show(readCheckList(localStorage.getItem(KEY)));
      this.say(KEPT);
    } catch {
      // Storage is forbidden: the list works, and says that nothing is kept.
      this.say(NOT_KEPT);
    }
  }

  private show(record: CheckListRecord): void {
    this.record = record;
    for (const box of this.querySelectorAll<HTMLInputElement>("input[data-item]"))
      box.checked = record.ticked.includes(box.dataset["item"] ?? "");
    this.ownList()?.replaceChildren(
      ...record.own.map(({ text, ticked }, i) => this.ownItem(text, ticked, i)),
    );
  }

  private ownItem(text: string, ticked: boolean, at: number): HTMLLIElement {
    const item = document.createElement("li");
    const label = document.createElement("label");
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = ticked;
    const line = document.createElement("span");
    line.textContent = text;
    label.append(box, line);
    const remove = document.createElement("button");
    remove.type = "button";
    remove.textContent = "Remove";
    remove.setAttribute("aria-label", `Remove “${text}”`);
    remove.addEventListener("click", () => {
      this.keep();
      this.write({ ...this.record, own: this.record.own.filter((_, i) => i !== at) });
      this.show(this.record);
      this.querySelector<HTMLInputElement>("input[name=line]")?.focus();
    });
    item.append(label, remove);
    return item;
  }

  private add(): void {
    const field = this.querySelector<HTMLInputElement>("input[name=line]");
    const line = ownLine(field?.value ?? "");
    if (!field || line === undefined) return;
    this.keep();
    if (this.record.own.length >= OWN_LIMITS.lines) {
      this.say(`The list holds ${OWN_LIMITS.lines} lines of your own. Remove one to add another.`);
      return;
    }
    this.write({ ...this.record, own: [...this.record.own, { text: line, ticked: false }] });
    this.show(this.record);
    field.value = "";
    field.focus();
  }

  /** Takes the record from what the page shows, and keeps it. */
  private keep(): void {
    const shown = [...this.querySelectorAll<HTMLInputElement>("input[data-item]")];
    const ownBoxes = [...(this.ownList()?.querySelectorAll("input") ?? [])];
    this.write({
      ticked: shown.filter((box) => box.checked).map((box) => box.dataset["item"] ?? ""),
      own: this.record.own.map(({ text }, i) => ({ text, ticked: ownBoxes[i]?.checked ?? false })),
    });
  }

  private write(record: CheckListRecord): void {
    this.record = record;
    try {
      localStorage.setItem(KEY, writeCheckList(record));
      this.say(KEPT);
    } catch {
      this.say(NOT_KEPT);
    }
  }

  private say(text: string): void {
    setText(this.querySelector("[data-status]"), text);
  }
}

export function defineCheckList(): void {
  customElements.define("check-list", CheckList);
}
