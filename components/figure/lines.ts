import * as Plot from "@observablehq/plot";
import type { FigureData } from "../../lib/calculations/calculation.ts";
import { scaled, tick } from "./axis.ts";
import { ACCENT, halo, INK, SOFT, type Canvas } from "./canvas.ts";
import { ABOVE, BELOW, placeNames, type Plane } from "./names.ts";

const HEIGHT = 300;

/** Lines with their bands, rules and marks, each named where it stands. */
export function lineOptions(data: FigureData, canvas: Canvas): Plot.PlotOptions {
  const x = scaled(data.x, canvas.unitOf(data.x));
  const y = scaled(data.y, canvas.unitOf(data.y));
  const narrow = canvas.width < 480;
  const lines = data.lines.map((line, i) => ({
    ...line,
    points: line.points.map(([a, b]) => [x.at(a), y.at(b)] as const),
    stroke: i === 0 ? ACCENT : INK,
  }));
  const marks = (data.marks ?? []).map((mark) => ({ ...mark, x: x.at(mark.x), y: y.at(mark.y) }));
  const margins = {
    marginLeft: 56,
    marginRight: narrow ? 16 : 24,
    // The name of a rule along the top must not run into the name of the axis.
    marginTop: data.rules?.length ? 42 : 28,
    marginBottom: 46,
  };
  const rules = (data.rules ?? []).map((rule) => ({ ...rule, y: y.at(rule.y) }));
  const edges = (data.bands ?? []).flatMap((band) =>
    band.points.flatMap(([, low, high]) => [y.at(low), y.at(high)]),
  );
  const ends = extent(lines, marks);
  const plane = planeOf(
    { domain: x.domain ?? ends, nice: !x.domain },
    {
      domain:
        y.domain ??
        extremes([
          ...edges,
          ...rules.map((rule) => rule.y),
          ...marks.map((mark) => mark.y),
          ...lines.flatMap(({ points }) => points.map(([, height]) => height)),
        ]),
      nice: true,
    },
    { width: canvas.width, ...margins },
  );
  const { sides, names } = placeNames(lines, marks, rules, plane);
  return {
    height: HEIGHT,
    ...margins,
    x: {
      label: x.label,
      labelAnchor: "center",
      labelArrow: "none",
      domain: plane.across,
      ticks: narrow ? 5 : 8,
      tickFormat: tick,
    },
    y: {
      label: y.label,
      labelArrow: "none",
      grid: true,
      domain: plane.up,
      ticks: 6,
      tickFormat: tick,
    },
    // Radii are px, not values to be scaled.
    r: { type: "identity" },
    marks: [
      ...(data.bands ?? []).map((band) =>
        Plot.areaY(band.points, {
          x: ([a]: readonly number[]) => x.at(a as number),
          y1: ([, low]: readonly number[]) => y.at(low as number),
          y2: ([, , high]: readonly number[]) => y.at(high as number),
          fill: ACCENT,
          fillOpacity: 0.15,
          ariaHidden: "true",
        }),
      ),
      rules.length === 0
        ? null
        : [
            Plot.ruleY(rules, {
              y: "y",
              stroke: SOFT,
              strokeDasharray: "1 4",
              strokeLinecap: "round",
            }),
            words(rules, {
              x: () => ends[0],
              text: "label",
              textAnchor: "start",
              dx: 4,
              dy: -7,
            }),
          ],
      ...lines.map((line) =>
        Plot.line(line.points, {
          x: ([a]: readonly number[]) => a,
          y: ([, b]: readonly number[]) => b,
          stroke: line.stroke,
          strokeWidth: line.dashed ? 1.5 : 2,
          ...(line.dashed && { strokeDasharray: "6 4" }),
        }),
      ),
      // Beside the line on its open side, so that a slope does not run through its name.
      ...[true, false].flatMap((above) =>
        [true, false].map((rising) =>
          words(
            names.filter((name) => name.above === above && name.rising === rising),
            {
              textAnchor: above === rising ? "end" : "start",
              dx: above === rising ? -7 : 7,
              dy: above ? -8 : 10,
              fontStyle: "italic",
            },
          ),
        ),
      ),
      Plot.dot(marks, {
        x: "x",
        y: "y",
        // One named point stands out; many readings must not hide their line.
        r: ({ label }: { label: string }) => (label === "" ? 2.5 : 5),
        fill: ACCENT,
        stroke: "var(--ground)",
        strokeWidth: 1,
      }),
      ...[ABOVE, BELOW].flatMap((dy) =>
        (["start", "middle", "end"] as const).map((textAnchor) =>
          words(
            marks.filter((_, i) => sides[i]?.dy === dy && sides[i].textAnchor === textAnchor),
            { text: "label", dy, textAnchor, fontWeight: 600 },
          ),
        ),
      ),
    ],
  };
}

/** Words at points; nothing where there are none, for every mark costs time, empty or not. */
function words<T extends { readonly y: number }>(
  points: readonly T[],
  options: Plot.TextOptions,
): Plot.Text | null {
  if (points.length === 0) return null;
  return Plot.text(points as T[], { x: "x", y: "y", text: "text", fill: INK, ...halo, ...options });
}

/** Where Plot will draw what, with its axes rounded outwards; and where these begin and end. */
function planeOf(
  across: { readonly domain: Ends; readonly nice: boolean },
  up: { readonly domain: Ends; readonly nice: boolean },
  size: { readonly width: number } & Readonly<
    Record<"marginLeft" | "marginRight" | "marginTop" | "marginBottom", number>
  >,
): Plane & { readonly across: Ends; readonly up: Ends } {
  const [left, right] = [size.marginLeft, size.width - size.marginRight];
  const [top, bottom] = [size.marginTop, HEIGHT - size.marginBottom];
  const x = Plot.scale({ x: { type: "linear", ...across, range: [left, right] } });
  const y = Plot.scale({ y: { type: "linear", ...up, range: [bottom, top] } });
  return {
    left,
    right,
    bottom,
    across: x?.domain as Ends,
    up: y?.domain as Ends,
    x: x?.apply as Plane["x"],
    y: y?.apply as Plane["y"],
  };
}

type Ends = [number, number];

/** An axis of nothing goes from 0 to 1. */
function extremes(values: readonly number[]): Ends {
  return values.length === 0 ? [0, 1] : [Math.min(...values), Math.max(...values)];
}

function extent(
  lines: readonly { readonly points: readonly (readonly [number, number])[] }[],
  marks: readonly { readonly x: number }[],
): Ends {
  return extremes([
    ...lines.flatMap((line) => line.points.map(([x]) => x)),
    ...marks.map(({ x }) => x),
  ]);
}

/**
 * A ring round each mark that can be dragged, with what it sets; and on the drawing how far its x axis goes,
 * in pixels and in the unit shown, so that a pointer's place can be read as a value.
 */
export function addHandles(svg: SVGSVGElement, data: FigureData, canvas: Canvas): void {
  const draggable = (data.marks ?? []).filter(({ drag }) => drag);
  const { scale } = svg as SVGSVGElement & Plot.Plot;
  const [across, up] = [scale.call(svg, "x"), scale.call(svg, "y")];
  if (draggable.length === 0 || !across?.range || !across.domain) return;
  svg.setAttribute("data-span", [...across.range, ...across.domain].map(Number).join(" "));
  svg.setAttribute("data-unit", canvas.unitOf(data.x));
  const x = scaled(data.x, canvas.unitOf(data.x));
  const y = scaled(data.y, canvas.unitOf(data.y));
  for (const mark of draggable) {
    const ring = canvas.document.createElementNS("http://www.w3.org/2000/svg", "circle");
    const looks = { r: "11", fill: "transparent", stroke: ACCENT, "stroke-dasharray": "3 3" };
    for (const [name, value] of Object.entries(looks)) ring.setAttribute(name, value);
    ring.setAttribute("cx", String(across.apply(x.at(mark.x))));
    ring.setAttribute("cy", String(up?.apply(y.at(mark.y))));
    ring.setAttribute("data-drag", mark.drag?.input ?? "");
    ring.setAttribute("data-from", String(x.at(mark.drag?.from ?? 0)));
    svg.append(ring);
  }
}
