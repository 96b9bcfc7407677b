import { BATCH_KEY, DATABASE, DRAFTS_KEY } from "../batch/keys.ts";

/** Loads a module and gives what brings its elements alive. */
type Load = () => Promise<() => void>;

const waiting: Load[] = [];
let begun = false;
let live = false;
let pressed: HTMLElement | undefined;

/**
 * A page is true as it was built until the reader has a batch of their own or touches a calculator. Until
 * then the calculations stay unloaded, and reading costs next to nothing.
 */
export function whenNeeded(load: Load): void {
  waiting.push(load);
  if (begun) void begin();
  else if (waiting.length === 1) watch();
}

/** Loads the calculations because the batch is no longer as the page was built: by a file, a name, another tab. */
export function needNow(): void {
  if (!begun) void begin();
}

function hasBatch(): boolean {
  if (location.hash.startsWith("#batch=")) return true;
  try {
    return [BATCH_KEY, DRAFTS_KEY].some((key) => localStorage.getItem(key) !== null);
  } catch {
    return false; // Nothing can be kept, so nothing was.
  }
}

/** Gear and batches outlive what `localStorage` had, and stand in for it where it is refused. */
async function hasRecords(): Promise<boolean> {
  try {
    if (!(await indexedDB.databases()).some(({ name }) => name === DATABASE)) return false;
  } catch {
    return true; // A browser that does not list them, or forbids them, which the reader has to be told.
  }
  const { all } = await import("../batch/database.ts");
  return (await Promise.all([all("gear"), all("batches")])).some((rows) => rows.length > 0);
}

/** Whether a field holds something else than it was built with: typed before this ran. */
function wasTyped(): boolean {
  const fields = document.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>(
    "[data-calculation] :is(input, textarea)",
  );
  // A box has a value of its own, ticked or not.
  return [...fields].some((field) =>
    field.type === "checkbox"
      ? (field as HTMLInputElement).checked
      : field.value !== field.defaultValue,
  );
}

function watch(): void {
  // What is pressed before the calculations are there is pressed again once they are.
  addEventListener("click", hold, { capture: true });
  addEventListener("submit", hold, { capture: true });
  // Modules of one page run one after another; all have said what they need by then.
  if (hasBatch() || wasTyped())
    return addEventListener("DOMContentLoaded", needNow, { once: true });
  const touched = (event: Event): void => {
    if (
      event.target instanceof Element &&
      event.target.closest("[data-calculation], batch-records")
    )
      needNow();
  };
  addEventListener("pointerdown", touched, { passive: true });
  addEventListener("focusin", touched);
  // A field that had the focus before this ran, or in a window that is not the front one, tells of none.
  addEventListener("input", touched);
  addEventListener("storage", needNow);
  void hasRecords().then((found) => found && needNow());
}

function hold(event: Event): void {
  if (live || !(event.target instanceof Element)) return;
  if (!event.target.closest("calculation-form, bench-stage, gear-shelf, batch-records")) return;
  const button = event instanceof SubmitEvent ? event.submitter : event.target.closest("button");
  if (!(button instanceof HTMLElement) && event.type === "click") return;
  event.preventDefault();
  event.stopPropagation();
  if (button instanceof HTMLElement) pressed = button;
  needNow();
}

async function begin(): Promise<void> {
  begun = true;
  const loads = waiting.splice(0);
  const defines = await Promise.all(loads.map((load) => load()));
  for (const define of defines) define();
  const { whenLive } = await import("./live.ts");
  await whenLive();
  live = true;
  const again = pressed;
  pressed = undefined;
  again?.click();
}
