import * as Plot from "@observablehq/plot";
import type { Drawing } from "../../lib/calculations/calculation.ts";
import { barOptions } from "./bars.ts";
import type { Canvas } from "./canvas.ts";
import { addHandles, lineOptions } from "./lines.ts";
import { addKey, spanOptions } from "./spans.ts";

/**
 * Draws a figure: at build and in the browser alike. One colour of ink, one accent, labels at the lines.
 *
 * @returns an SVG element with `role="img"`, not yet in the document, without Plot's own style element: the
 * page's stylesheet has those rules, for the page's policy allows no style of a script
 */
export function drawFigure(data: Drawing, title: string, canvas: Canvas): SVGSVGElement {
  return draw(data, title, canvas, optionsOf(data, canvas));
}

/**
 * Draws a figure in place of an older drawing of it, part by part, and not an axis that is the same: its
 * letters take as long as all the rest.
 *
 * @param shown - the older drawing, in the document
 * @returns that drawing, changed; or where it took other room, a new one as of `drawFigure`
 */
export function redrawFigure(
  shown: SVGSVGElement | null,
  data: Drawing,
  title: string,
  canvas: Canvas,
): SVGSVGElement {
  const options = optionsOf(data, canvas);
  const frames = AXES.map((axis) => ({ axis, frame: frameOf(options, axis, canvas.width) }));
  const kept = frames.flatMap(({ axis, frame }) =>
    frame !== "" && frame === shown?.getAttribute(`data-${axis}`) ? [axis] : [],
  );
  const bare = kept.map((axis) => [axis, { ...options[axis], axis: null, grid: false }] as const);
  const drawn = draw(data, title, canvas, { ...options, ...Object.fromEntries(bare) });
  for (const { axis, frame } of frames) drawn.setAttribute(`data-${axis}`, frame);
  if (!shown || !takesSameRoom(shown, drawn)) return drawn;
  for (const { name, value } of drawn.attributes)
    if (shown.getAttribute(name) !== value) shown.setAttribute(name, value);
  const were = Array.from(shown.children).filter(
    (part) => !kept.some((axis) => part.getAttribute(AXIS) === axis),
  );
  const are = Array.from(drawn.children);
  if (were.length === are.length)
    were.forEach((part, i) => !part.isEqualNode(are[i] ?? null) && part.replaceWith(are[i] ?? ""));
  else {
    for (const part of were) part.remove();
    shown.append(...are);
  }
  return shown;
}

const AXES = ["x", "y"] as const;
/** On what Plot drew of an axis. */
export const AXIS = "data-axis";

/**
 * All that an axis is drawn from, as a text; empty where Plot finds its ends for itself. What is no data, as a
 * function, falls out of it.
 */
function frameOf(
  { marks: _, ...options }: Plot.PlotOptions,
  axis: (typeof AXES)[number],
  width: number,
): string {
  const other = axis === "x" ? "y" : "x";
  return options[axis]?.domain ? JSON.stringify([width, { ...options, [other]: null }]) : "";
}

function takesSameRoom(shown: SVGSVGElement, drawn: SVGSVGElement): boolean {
  return (
    !shown.hasAttribute("data-built") &&
    ["width", "height", "viewBox"].every(
      (name) => shown.getAttribute(name) === drawn.getAttribute(name),
    )
  );
}

function draw(
  data: Drawing,
  title: string,
  canvas: Canvas,
  options: Plot.PlotOptions,
): SVGSVGElement {
  const svg = Plot.plot({
    document: canvas.document,
    width: canvas.width,
    ariaLabel: title,
    className: "drawn",
    style: { fontSize: "13px" },
    ...options,
  }) as SVGSVGElement;
  for (const style of svg.querySelectorAll("style")) style.remove();
  // The drawing is one picture with one name; names of its parts would be read as nothing.
  for (const part of svg.querySelectorAll("[aria-label]")) {
    const [, axis] = /^([xy])-(?:axis|grid)/.exec(part.getAttribute("aria-label") ?? "") ?? [];
    if (axis && part.parentNode === svg) part.setAttribute(AXIS, axis);
    part.removeAttribute("aria-label");
  }
  svg.setAttribute("role", "img");
  if ("lines" in data) addHandles(svg, data, canvas);
  if ("rows" in data) addKey(svg, data, canvas);
  return svg;
}

function optionsOf(data: Drawing, canvas: Canvas): Plot.PlotOptions {
  if ("bars" in data) return barOptions(data, canvas);
  return "rows" in data ? spanOptions(data, canvas) : lineOptions(data, canvas);
}
