import * as Plot from "@observablehq/plot";
import type { SpanData, SpanLook } from "../../lib/calculations/calculation.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { fromSI } from "../../lib/units/units.ts";
import { fromZero, scaled } from "./axis.ts";
import { ACCENT, halo, INK, SOFT, type Canvas } from "./canvas.ts";

/** Told apart without colour: filled, tinted inside a line, or the line alone. */
const LOOKS: Readonly<Record<SpanLook, Readonly<Record<string, string | number>>>> = {
  solid: { fill: INK, stroke: INK },
  tinted: { fill: ACCENT, fillOpacity: 0.3, stroke: ACCENT },
  open: { fill: "none", stroke: SOFT, strokeDasharray: "3 2" },
};
const SPAN_LOOKS = Object.keys(LOOKS) as readonly SpanLook[];
/** px at either side of a timeline, and above it for the key. */
const SPAN_MARGIN = { side: 14, top: 34 } as const;

/** A timeline: a row for each stage, with its name and how long it lasts. */
export function spanOptions(data: SpanData, canvas: Canvas): Plot.PlotOptions {
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
    x: fromZero(x, canvas.width < 480 ? 4 : 7),
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
export function addKey(svg: SVGSVGElement, { looks }: SpanData, { document, width }: Canvas): void {
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
