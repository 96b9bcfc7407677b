import * as Plot from "@observablehq/plot";
import type {
  Axis,
  BarData,
  Drawing,
  FigureData,
  SpanData,
  SpanLook,
} from "../../lib/calculations/calculation.ts";
import { ABOVE, BELOW, LETTER, placeNames, type Plane } from "./names.ts";
import { formatTrimmed, formatAmount } from "../../lib/units/format.ts";
import { fromSI, unitOf } from "../../lib/units/units.ts";

/** Where to draw: the browser's document, or the build's stand-in for one. */
export interface Canvas {
  readonly document: Document;
  /** px */
  readonly width: number;
  /** The unit an axis is shown in. */
  readonly unitOf: (axis: Axis) => string;
}

/** Of the drawing made at build, px: between a phone and a column, so that it can serve both. */
export const BUILT_WIDTH = 420;

const HEIGHT = 300;
const INK = "var(--ink)";
const SOFT = "var(--ink-soft)";
const ACCENT = "var(--accent)";
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

interface Scaled {
  readonly at: (value: number) => number;
  readonly label: string;
  readonly domain?: [number, number];
}

function scaled(axis: Axis, unit: string): Scaled {
  const { dimension } = axis.of;
  const at = (value: number): number => fromSI(value, dimension, unit);
  const { symbol } = unitOf(dimension, unit);
  return {
    at,
    label: symbol === "" ? axis.label : `${axis.label} (${symbol})`,
    ...(axis.domain && { domain: [at(axis.domain[0]), at(axis.domain[1])] as [number, number] }),
  };
}

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
const AXIS = "data-axis";

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

/**
 * A ring round each mark that can be dragged, with what it sets; and on the drawing how far its x axis goes,
 * in pixels and in the unit shown, so that a pointer's place can be read as a value.
 */
function addHandles(svg: SVGSVGElement, data: FigureData, canvas: Canvas): void {
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

function lineOptions(data: FigureData, canvas: Canvas): Plot.PlotOptions {
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

const halo = { stroke: "var(--ground)", strokeWidth: 4, strokeLinejoin: "round" } as const;

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

function tick(value: number): string {
  return formatTrimmed(value, 6);
}

function barOptions(data: BarData, canvas: Canvas): Plot.PlotOptions {
  const unit = canvas.unitOf(data.x);
  const x = scaled(data.x, unit);
  const bars = data.bars.map(({ label, value }) => ({
    label,
    value: x.at(value),
    text: formatAmount(value, data.x.of.dimension, unit, data.x.of.digits),
  }));
  return {
    height: 66 + 38 * bars.length,
    marginLeft: 20 + LETTER * Math.max(...bars.map(({ label }) => label.length)),
    marginRight: 76,
    marginTop: 8,
    marginBottom: 46,
    x: {
      label: x.label,
      labelAnchor: "center",
      labelArrow: "none",
      zero: true,
      ...(x.domain && { domain: x.domain }),
      ticks: canvas.width < 480 ? 3 : 5,
      grid: true,
      tickFormat: tick,
    },
    y: { label: null, domain: bars.map(({ label }) => label) },
    marks: [
      Plot.barX(bars, { x: "value", y: "label", fill: ACCENT, insetTop: 4, insetBottom: 4 }),
      Plot.text(bars, {
        x: "value",
        y: "label",
        text: "text",
        textAnchor: "start",
        dx: 5,
        fill: INK,
        ...halo,
      }),
      Plot.ruleX([0], { stroke: INK }),
    ],
  };
}

/** Told apart without colour: filled, tinted inside a line, or the line alone. */
const LOOKS: Readonly<Record<SpanLook, Readonly<Record<string, string | number>>>> = {
  solid: { fill: INK, stroke: INK },
  tinted: { fill: ACCENT, fillOpacity: 0.3, stroke: ACCENT },
  open: { fill: "none", stroke: SOFT, strokeDasharray: "3 2" },
};
const SPAN_LOOKS = Object.keys(LOOKS) as readonly SpanLook[];
/** px at either side of a timeline, and above it for the key. */
const SPAN_MARGIN = { side: 14, top: 34 } as const;

function spanOptions(data: SpanData, canvas: Canvas): Plot.PlotOptions {
  const unit = canvas.unitOf(data.x);
  const x = scaled(data.x, unit);
  const spans = data.rows.flatMap(({ label, spans: own }) =>
    own.map(({ from, to, look }) => ({ label, look, from: x.at(from), to: x.at(to) })),
  );
  return {
    height: SPAN_MARGIN.top + 46 + 38 * data.rows.length,
    marginLeft: SPAN_MARGIN.side,
    marginRight: SPAN_MARGIN.side,
    marginTop: SPAN_MARGIN.top,
    marginBottom: 46,
    x: {
      label: x.label,
      labelAnchor: "center",
      labelArrow: "none",
      zero: true,
      ...(x.domain && { domain: x.domain }),
      ticks: canvas.width < 480 ? 4 : 7,
      grid: true,
      tickFormat: tick,
    },
    y: { axis: null, domain: data.rows.map(({ label }) => label) },
    marks: [
      ...SPAN_LOOKS.map((look) =>
        Plot.barX(
          spans.filter((span) => span.look === look),
          { x1: "from", x2: "to", y: "label", insetTop: 18, insetBottom: 6, ...LOOKS[look] },
        ),
      ),
      Plot.text(data.rows, {
        y: "label",
        frameAnchor: "left",
        textAnchor: "start",
        dx: 4,
        dy: -9,
        text: (row: SpanData["rows"][number]) => `${row.label}: ${lengths(row, data, unit)}`,
        fill: INK,
        ...halo,
      }),
      Plot.ruleX([0], { stroke: INK }),
    ],
  };
}

/** s: what is shorter is told in seconds. */
const SHORT = 90;

/** How long a row lasts in all, look by look: "11 min at work, 60 min ultrasound on". */
function lengths(
  { spans }: SpanData["rows"][number],
  { x, looks }: SpanData,
  unit: string,
): string {
  return SPAN_LOOKS.flatMap((look) => {
    const own = spans.filter((span) => span.look === look);
    const sum = own.reduce((all, { from, to }) => all + to - from, 0);
    if (sum === 0) return [];
    // "0.62 min" is nobody's word for 37 seconds.
    const shown = x.of.dimension === "time" && sum < SHORT ? "s" : unit;
    const whole = Math.trunc(fromSI(sum, x.of.dimension, shown));
    return [
      `${formatAmount(sum, x.of.dimension, shown, Math.max(2, `${whole}`.length))} ${looks[look]}`,
    ];
  }).join(", ");
}

/** What the looks mean, above the timeline. */
function addKey(svg: SVGSVGElement, { looks }: SpanData, { document, width }: Canvas): void {
  const make = (name: string, attributes: Readonly<Record<string, string | number>>): Element => {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) {
      const dashed = key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
      element.setAttribute(dashed, String(value));
    }
    return element;
  };
  // Each has room by its letters and its sample, whatever the size of the letters.
  const rooms = SPAN_LOOKS.map((look) => looks[look].length + 4);
  const all = rooms.reduce((sum, room) => sum + room, 0);
  let at = 0;
  for (const [i, look] of SPAN_LOOKS.entries()) {
    const x = SPAN_MARGIN.side + ((width - 2 * SPAN_MARGIN.side) * at) / all;
    at += rooms[i] ?? 0;
    const name = make("text", { x: x + 18, y: 17, textAnchor: "start", fill: INK });
    name.textContent = looks[look];
    svg.append(make("rect", { x, y: 7, width: 12, height: 10, ...LOOKS[look] }), name);
  }
}

/** The same numbers as rows, for who reads rather than looks. */
export function figureRows(
  data: Drawing,
  unitFor: (axis: Axis) => string,
): { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const x = scaled(data.x, unitFor(data.x));
  if ("bars" in data)
    return {
      head: ["", x.label],
      rows: data.bars.map(({ label, value }) => [label, formatTrimmed(x.at(value), 4)]),
    };
  if ("rows" in data)
    return {
      head: ["Stage", `${x.label}: from`, "to", "What"],
      rows: data.rows.flatMap(({ label, spans }) =>
        spans.map(({ from, to, look }) => [
          label,
          formatTrimmed(x.at(from), 4),
          formatTrimmed(x.at(to), 4),
          data.looks[look],
        ]),
      ),
    };
  const y = scaled(data.y, unitFor(data.y));
  const at =
    data.lines[0]?.points.filter(
      (_, i, all) => i % Math.max(1, Math.floor(all.length / 10)) === 0,
    ) ?? [];
  return {
    head: [x.label, ...data.lines.map((line) => `${y.label}: ${line.label}`)],
    rows: at.map(([a]) => [
      formatTrimmed(x.at(a), 4),
      ...data.lines.map((line) => {
        const value = along(line.points, a);
        return value === undefined ? "–" : formatTrimmed(y.at(value), 4);
      }),
    ]),
  };
}

/** The height of a line at x, straight between its points; nothing beyond its ends. */
function along(points: readonly (readonly [number, number])[], x: number): number | undefined {
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    if (!a || !b || x < a[0] || x > b[0]) continue;
    return b[0] === a[0] ? a[1] : a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
  }
  return points.find(([at]) => at === x)?.[1];
}
