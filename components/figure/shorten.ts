import { AXIS } from "./draw.ts";

const LONG = /-?\d+\.\d{2,}/g;

/**
 * For a drawing that is sent: a tenth of a pixel is as fine as screens are, and ticks and grid lines of one
 * group are drawn alike, so they are one path.
 */
export function shorten(svg: SVGSVGElement): void {
  for (const part of svg.querySelectorAll(`[${AXIS}]`)) part.removeAttribute(AXIS);
  for (const group of svg.querySelectorAll("g")) joinStrokes(group);
  for (const element of svg.querySelectorAll("*"))
    for (const name of ["d", "transform", "x1", "x2", "y1", "y2", "cx", "cy", "x", "y", "width"]) {
      const text = element.getAttribute(name);
      if (text !== null && !text.includes("em"))
        element.setAttribute(
          name,
          text.replaceAll(LONG, (number) => String(Number(Number(number).toFixed(1)))),
        );
    }
}

function joinStrokes(group: SVGGElement): void {
  const strokes = Array.from(group.children, strokeOf);
  if (strokes.length < 2 || strokes.includes(undefined)) return;
  const path = group.ownerDocument.createElementNS("http://www.w3.org/2000/svg", "path");
  path.setAttribute("d", strokes.join(""));
  group.replaceChildren(path);
}

/** A plain line or a tick as part of a path; nothing for what has looks of its own. */
function strokeOf(part: Element): string | undefined {
  const at = (name: string): string => part.getAttribute(name) ?? "";
  if (part.localName === "line" && part.attributes.length === 4)
    return `M${at("x1")},${at("y1")}L${at("x2")},${at("y2")}`;
  const [, step] = /^M0,0L([-\d.,]+)$/.exec(at("d")) ?? [];
  const [, place] = /^translate\(([-\d.,]+)\)$/.exec(at("transform")) ?? [];
  return step && place && part.attributes.length === 2 ? `M${place}l${step}` : undefined;
}
