import { setDraft, setValue } from "../batch/store.ts";
import type { Scene } from "../calculation/live.ts";
import { keyOf } from "../../lib/calculations/graph.ts";
import { toSI } from "../../lib/units/units.ts";

/** From a pointer's place to a value on the x axis, in the unit that the axis shows. */
type Reading = (clientX: number) => number;

interface Drag {
  /** the input it sets, and where on the axis that is 0 */
  readonly input: string;
  readonly from: number;
  readonly at: Reading;
  readonly unit: string;
}

/**
 * Lets the ringed marks of a figure be dragged along its x axis: each sets the input it stands for, in whole
 * units. What is dragged can be typed in the calculator too, which is how a keyboard does it.
 */
export function dragHandles(host: HTMLElement, sceneNow: () => Scene | undefined): void {
  let drag: Drag | undefined;

  host.addEventListener("pointerdown", (event) => {
    const handle = (event.target as Element).closest<SVGElement>("[data-drag]");
    const svg = handle?.closest("svg");
    const at = svg && readingOf(svg);
    if (!handle || !at) return;
    event.preventDefault();
    host.setPointerCapture(event.pointerId);
    // The axis as it was: the drawing may change its scale while the mark moves.
    const { drag: input = "", from } = handle.dataset;
    drag = { input, from: Number(from), at, unit: svg.dataset["unit"] ?? "" };
  });
  host.addEventListener("pointermove", (event) => {
    const scene = sceneNow();
    if (drag && scene) set(scene, host.dataset["calculation"] ?? "", drag, event.clientX);
  });
  for (const end of ["pointerup", "pointercancel"] as const)
    host.addEventListener(end, () => (drag = undefined));
}

function readingOf(svg: SVGSVGElement): Reading | undefined {
  const span = svg.dataset["span"]?.split(" ").map(Number) ?? [];
  const [left, right, low, high] = span as [number, number, number, number];
  if (span.length !== 4 || right === left) return undefined;
  const { left: edge, width } = svg.getBoundingClientRect();
  const pixel = svg.viewBox.baseVal.width / width;
  return (clientX) => low + (((clientX - edge) * pixel - left) / (right - left)) * (high - low);
}

function set(
  scene: Scene,
  id: string,
  { input: name, from, at, unit }: Drag,
  clientX: number,
): void {
  const calculation = scene.graph.get(id);
  const input = calculation.inputs[name];
  if (input?.kind !== "number") return;
  const value = toSI(Math.round(at(clientX) - from), input.dimension, unit);
  const key = keyOf(calculation, name);
  setDraft(key, undefined);
  setValue(key, Math.min(Math.max(value, input.limits.min), input.limits.max));
}
