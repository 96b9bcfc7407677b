import { showAmount } from "../../lib/calculations/say.ts";
import { made } from "../shell/elements.ts";
import type { DrawReply, DrawRequest } from "./draws-worker.ts";
import { influenceRows } from "./influence-rows.ts";
import { onScene, unitIn, type Scene } from "./live.ts";

const DRAWS = 100_000;

/** Brings “What matters most” of one calculator alive; nothing is worked out while it is closed. */
export function fillInfluences(
  host: HTMLElement,
  id: string,
  sceneNow: () => Scene | undefined,
): void {
  const details = host.querySelector<HTMLDetailsElement>("[data-influences]");
  const select = details?.querySelector("select");
  const list = details?.querySelector("[data-rows]");
  if (!details || !select || !list) return;

  const paint = (): void => {
    const scene = sceneNow();
    const outcome = scene?.outcomeOf(id);
    if (!details.open || !scene || !outcome?.ok) return;
    const rows = influenceRows(
      scene.graph.get(id),
      outcome,
      (name, offered) => unitIn(scene.batch.units, name, offered),
      select.value,
    );
    list.replaceChildren(
      ...rows.map((row) => {
        const bar = made("span", { class: "bar" });
        bar.style.inlineSize = `${(row.share * 100).toFixed(1)}%`;
        return made(
          "li",
          {},
          made("span", { class: "name" }, `${row.label}: ${row.effect}`),
          bar,
          made("span", { class: "because" }, row.because),
        );
      }),
    );
    details.querySelector("[data-none]")?.toggleAttribute("hidden", rows.length > 0);
  };
  details.addEventListener("toggle", paint);
  select.addEventListener("change", paint);
  onScene(paint);
  connectDraws(details, id, select, sceneNow);
}

function connectDraws(
  details: HTMLElement,
  id: string,
  select: HTMLSelectElement,
  sceneNow: () => Scene | undefined,
): void {
  const status = details.querySelector("[data-drawn]");
  details.querySelector("[data-draw]")?.addEventListener("click", () => {
    const scene = sceneNow();
    const outcome = scene?.outcomeOf(id);
    const name = select.value;
    const result = scene?.graph.get(id).results[name];
    if (!scene || !status || !result) return;
    if (!outcome?.ok) {
      status.textContent = "There is no result to check yet.";
      return;
    }
    status.textContent = "Drawing…";
    const worker = new Worker(new URL("./draws-worker.ts", import.meta.url), { type: "module" });
    const request: DrawRequest = {
      id,
      batch: scene.values,
      draws: DRAWS,
      seed: 1,
      result: name,
    };
    worker.postMessage(request);
    worker.addEventListener("message", ({ data }: MessageEvent<DrawReply>) => {
      worker.terminate();
      const sampled = data.bands[name];
      const linear = outcome.values[name];
      if (!sampled || !linear) {
        status.textContent = "This result takes no band.";
        return;
      }
      const unit = unitIn(scene.batch.units, name, result.units);
      const at = (x: number): string => showAmount(x, result, unit);
      status.textContent = `By draws, 95 of 100 lie from ${at(sampled.low)} to ${at(sampled.high)}; the band above says ${at(linear.low)} to ${at(linear.high)}.${data.refused > 0 ? ` ${data.refused} draws gave no result.` : ""}`;
    });
    worker.addEventListener("error", () => {
      worker.terminate();
      status.textContent = "The draws could not run in this browser. The band above stands.";
    });
  });
}
