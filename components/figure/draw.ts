import * as Plot from "@observablehq/plot";
import type {
  Axis,
  BarData,
  Drawing,
  FigureData,
  Mark,
  SpanData,
  SpanLook,
} from "../../lib/calculations/calculation.ts";
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
  const svg = Plot.plot({
    document: canvas.document,
    width: canvas.width,
    ariaLabel: title,
    style: { fontSize: "13px" },
    ...optionsOf(data, canvas),
  }) as SVGSVGElement;
  for (const style of svg.querySelectorAll("style")) style.remove();
  // The drawing is one picture with one name; names of its parts would be read as nothing.
  for (const part of svg.querySelectorAll("[aria-label]")) part.removeAttribute("aria-label");
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
  const plane = planeOf(
    x.domain ?? extent(lines, marks),
    y.domain ?? [
      ...edges,
      ...rules.map((rule) => rule.y),
      ...marks.map((mark) => mark.y),
      ...lines.flatMap(({ points }) => points.map(([, height]) => height)),
    ],
    { width: canvas.width, ...margins },
  );
  const sides = sidesOf(marks, plane);
  const named = labels(lines, takenBy(marks, sides, rules, plane), plane);
  return {
    height: HEIGHT,
    ...margins,
    x: {
      label: x.label,
      labelAnchor: "center",
      labelArrow: "none",
      nice: !x.domain,
      ...(x.domain && { domain: x.domain }),
      ticks: narrow ? 5 : 8,
      tickFormat: tick,
    },
    y: {
      label: y.label,
      labelArrow: "none",
      grid: true,
      nice: true,
      ...(y.domain && { domain: y.domain }),
      ticks: 6,
      tickFormat: tick,
    },
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
              x: () => extent(lines, marks)[0],
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
            named.filter((name) => name.above === above && name.rising === rising),
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

type Point = readonly [number, number];

interface Line {
  readonly label: string;
  readonly points: readonly Point[];
}

interface Label {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly above: boolean;
  readonly rising: boolean;
}

/** About what a letter of a name takes, px: of the drawing made at build, whose letters are kept large on a phone. */
const LETTER = 7.5;
const LINE_HEIGHT = 14;
/** px from a line to the middle of its name. */
const BESIDE = 12;
/** As far from other lines and names as makes a difference, px. */
const CLEAR = 24;
const PLACES = [0.3, 0.7, 0.5, 0.85, 0.15];

/** What must not be hidden by a name, and must not be taken for what it names: px, from the top left. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly y: number;
}

/**
 * A name at each line, above it or below, as far from the other lines, the marks and the other names as can be:
 * a name that lies nearer to another line would be taken for that one's.
 */
function labels(lines: readonly Line[], taken: Box[], plane: Plane): readonly Label[] {
  const boxOf = ({ x, y, text, above, rising }: Label): Box => {
    const [at, width] = [plane.x(x), LETTER * text.length];
    const left = above === rising ? at - 7 - width : at + 7;
    return { left, right: left + width, y: plane.y(y) + (above ? -BESIDE : BESIDE) };
  };
  const traces = lines.map(({ points }) => traceOf(points, plane));
  const room = (label: Label, own: number): number => {
    const box = boxOf(label);
    if (box.left < plane.left + 6 || box.right > plane.right) return -1;
    if (box.y > plane.bottom - LINE_HEIGHT / 2) return -1;
    const heights = traces.flatMap((trace, i) => {
      const distances = [0, 0.25, 0.5, 0.75, 1].flatMap((share) => {
        const height = trace[Math.round(box.left + share * (box.right - box.left))];
        return height === undefined ? [] : [Math.abs(height - box.y)];
      });
      // Beside its own line is where it belongs, as long as that does not run through it.
      return i === own ? distances.filter((px) => px < BESIDE / 2) : distances;
    });
    const gaps = taken.map(({ left, right, y }) =>
      Math.max(left - box.right, box.left - right, Math.abs(y - box.y) - LINE_HEIGHT),
    );
    return Math.min(CLEAR, ...heights, ...gaps);
  };
  return lines.flatMap((line, i) => {
    const { label: text, points } = line;
    if (points.length === 0 || text === "") return [];
    const places = [i % 2 === 0, i % 2 !== 0].flatMap((above) =>
      PLACES.map((share): Label => ({ ...alongPath(points, share), text, above })),
    );
    const { place: best } = places
      .map((place) => ({ place, free: room(place, i) }))
      .reduce((a, b) => (b.free > a.free ? b : a));
    taken.push(boxOf(best));
    return [best];
  });
}

/** About where Plot will draw what, px from the top left: it rounds its axes outwards, which moves little. */
interface Plane {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
}

/** How high a line runs, px from the top, at each px from the left where it is drawn: asked again and again. */
function traceOf(points: Line["points"], plane: Plane): readonly (number | undefined)[] {
  const trace: (number | undefined)[] = [];
  for (let i = 1; i < points.length; i++) {
    const [[ax, ay], [bx, by]] = [points[i - 1], points[i]] as [Point, Point];
    const [from, to] = [plane.x(ax), plane.x(bx)];
    const left = Math.max(plane.left, Math.ceil(Math.min(from, to)));
    const right = Math.min(plane.right, Math.max(from, to));
    for (let px = left; px <= right; px++)
      trace[px] ??= plane.y(from === to ? ay : ay + ((by - ay) * (px - from)) / (to - from));
  }
  return trace;
}

function planeOf(
  xs: readonly number[],
  ys: readonly number[],
  size: { readonly width: number } & Readonly<
    Record<"marginLeft" | "marginRight" | "marginTop" | "marginBottom", number>
  >,
): Plane {
  const [from, to, low, high] = [xs, ys].flatMap((all) => [Math.min(...all), Math.max(...all)]) as [
    number,
    number,
    number,
    number,
  ];
  const [left, right] = [size.marginLeft, size.width - size.marginRight];
  const [top, bottom] = [size.marginTop, HEIGHT - size.marginBottom];
  return {
    left,
    right,
    bottom,
    x: (value) => left + ((right - left) * (value - from)) / (to - from || 1),
    y: (value) => bottom - ((bottom - top) * (value - low)) / (high - low || 1),
  };
}

/** Where the name of a mark stands: px down from it, and which end of the name is there. */
interface Side {
  readonly dy: number;
  readonly textAnchor: "start" | "middle" | "end";
}

const ABOVE = -15;
const BELOW = 24;

/** Above its mark, or below where another name is; never over the numbers of an axis. */
function sidesOf(marks: readonly Mark[], plane: Plane): readonly Side[] {
  const taken: Box[] = [];
  return marks.map((mark, i) => {
    const amid = boxOfMark(mark, { dy: ABOVE, textAnchor: "middle" }, plane);
    const textAnchor =
      amid.left < plane.left ? "start" : amid.right > plane.right ? "end" : "middle";
    const box = boxOfMark(mark, { dy: ABOVE, textAnchor }, plane);
    const covered = taken.some(
      ({ left, right, y }) =>
        left < box.right && box.left < right && Math.abs(y - box.y) < LINE_HEIGHT,
    );
    // Two ends of one stage may come close while they are dragged: their names are on either side from the first.
    const dy = (mark.drag ? i % 2 === 1 : covered) ? BELOW : ABOVE;
    const side: Side = { dy, textAnchor };
    if (mark.label !== "") taken.push(boxOfMark(mark, side, plane));
    return side;
  });
}

function boxOfMark({ x, y, label }: Mark, { dy, textAnchor }: Side, plane: Plane): Box {
  const width = LETTER * label.length;
  const left = plane.x(x) - { start: 0, middle: width / 2, end: width }[textAnchor];
  return { left, right: left + width, y: plane.y(y) + dy };
}

/** What stands in the drawing before lines are named: marks with their names, names of rules. */
function takenBy(
  marks: readonly Mark[],
  sides: readonly Side[],
  rules: readonly { readonly y: number; readonly label: string }[],
  plane: Plane,
): Box[] {
  return [
    ...marks.flatMap((mark, i) => {
      const at = plane.x(mark.x);
      const dot = { left: at - 5, right: at + 5, y: plane.y(mark.y) };
      return [dot, boxOfMark(mark, sides[i] as Side, plane)];
    }),
    ...rules.map(({ y, label }) => ({
      left: plane.left,
      right: plane.left + LETTER * label.length,
      y: plane.y(y) - 7,
    })),
  ];
}

/** The point so far along a line, by its share of the points, and whether the line rises there. */
function alongPath(
  points: readonly Point[],
  share: number,
): { readonly x: number; readonly y: number; readonly rising: boolean } {
  const at = share * (points.length - 1);
  const before = Math.floor(at);
  const a = points[before] as Point;
  const b = points[before + 1] ?? a;
  const rest = at - before;
  return {
    x: a[0] + (b[0] - a[0]) * rest,
    y: a[1] + (b[1] - a[1]) * rest,
    rising: b[1] >= a[1],
  };
}

function extent(
  lines: readonly { readonly points: readonly (readonly [number, number])[] }[],
  marks: readonly { readonly x: number }[],
): [number, number] {
  const xs = [...lines.flatMap((line) => line.points.map(([x]) => x)), ...marks.map(({ x }) => x)];
  return [Math.min(...xs), Math.max(...xs)];
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
