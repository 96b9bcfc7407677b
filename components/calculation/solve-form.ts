import { keyOf } from "../../lib/calculations/graph.ts";
import { say } from "../../lib/calculations/say.ts";
import { solveFor } from "../../lib/calculations/solve.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { parse } from "../../lib/units/parse.ts";
import { unitOf } from "../../lib/units/units.ts";
import { setDraft, setValue } from "../batch/store.ts";
import { unitIn, type Scene } from "./live.ts";

/** Brings “Start from the answer” of one calculator alive. */
export function connectSolve(
  host: HTMLElement,
  id: string,
  sceneNow: () => Scene | undefined,
): void {
  const details = host.querySelector<HTMLElement>("[data-solve]");
  const form = details?.querySelector("form");
  const answer = details?.querySelector("[data-answer]");
  const use = details?.querySelector<HTMLButtonElement>("[data-use]");
  if (!form || !answer || !use) return;
  let found: { readonly key: string; readonly value: number } | undefined;

  const field = (name: string): string => {
    const control = form.elements.namedItem(name);
    return control instanceof HTMLInputElement || control instanceof HTMLSelectElement
      ? control.value
      : "";
  };
  const tell = (text: string): void => {
    answer.textContent = text;
    use.hidden = found === undefined;
  };

  form.addEventListener("change", () => {
    const scene = sceneNow();
    const result = scene?.graph.get(id).results[field("result")];
    const unit = form.querySelector("[data-wanted-unit]");
    if (scene && result && unit)
      unit.textContent = unitOf(
        result.dimension,
        unitIn(scene.batch.units, field("result"), result.units),
      ).symbol;
  });

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const scene = sceneNow();
    const calculation = scene?.graph.get(id);
    const result = calculation?.results[field("result")];
    const moving = calculation?.inputs[field("moving")];
    if (!scene || !calculation || !result || moving?.kind !== "number") return;
    found = undefined;
    const unit = unitIn(scene.batch.units, field("result"), result.units);
    const wanted = parse(field("wanted"), result.dimension, result.units, unit);
    if (!wanted.ok) return tell(wanted.message);
    const solved = solveFor(
      scene.graph,
      id,
      scene.values,
      { result: field("result"), value: wanted.value },
      field("moving"),
    );
    if (!solved.ok) return tell(say(solved.say, scene.unitFor));
    found = { key: keyOf(calculation, field("moving")), value: solved.value };
    const shown = formatAmount(
      solved.value,
      moving.dimension,
      unitIn(scene.batch.units, moving.name, moving.units),
      6,
    );
    tell(`${moving.label}: ${shown}.`);
  });

  use.addEventListener("click", () => {
    if (!found) return;
    setDraft(found.key, undefined);
    setValue(found.key, found.value);
    found = undefined;
    tell("It is in the calculator above.");
  });
}
