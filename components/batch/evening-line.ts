import type { Batch } from "../../lib/batch/record.ts";
import { eveningSentence } from "./sheet-text.ts";

/** Shows within an element whether the batch is at the bench, in its line for that. */
export function paintEvening(host: HTMLElement, batch: Batch): void {
  const sentence = eveningSentence(batch);
  const line = host.querySelector<HTMLElement>("[data-evening]");
  const text = line?.querySelector("span");
  if (!line || !text) return;
  text.textContent = sentence;
  line.hidden = sentence === "";
}
