import { parseHTML } from "linkedom";
import type { Canvas } from "../../components/figure/canvas.ts";
import { drawFigure } from "../../components/figure/draw.ts";
import type {
  Axis,
  BarData,
  Drawing,
  FigureData,
  SpanData,
} from "../../lib/calculations/calculation.ts";

export const volume: Axis = {
  label: "Water added",
  of: { dimension: "volume", units: ["mL", "fl oz"], digits: 3 },
};
export const temperature: Axis = {
  label: "Warmth",
  of: { dimension: "temperature", units: ["°C", "°F"], digits: 3 },
};

export const LINES: FigureData = {
  x: volume,
  y: temperature,
  lines: [
    {
      label: "mixture",
      points: [
        [0, 20],
        [1e-4, 26],
        [2e-4, 24],
        [4e-4, 21],
      ],
    },
    {
      label: "water",
      points: [
        [0, 10],
        [2e-4, 30],
      ],
      dashed: true,
    },
  ],
  bands: [
    {
      points: [
        [0, 19, 21],
        [4e-4, 20, 23],
      ],
    },
  ],
  marks: [{ x: 1e-4, y: 26, label: "yours" }],
  rules: [{ y: 25, label: "warm" }],
};

export const BARS: BarData = {
  x: volume,
  bars: [
    { label: "Water", value: 2.5e-4 },
    { label: "Spirit", value: 1e-4 },
    { label: "Acid", value: 0 },
  ],
};

export const SPANS: SpanData = {
  x: { label: "Since the start", of: { dimension: "time", units: ["min", "h"], digits: 3 } },
  looks: { solid: "at work", tinted: "running", open: "waiting" },
  rows: [
    { label: "Weigh in", spans: [{ from: 0, to: 600, look: "solid" }] },
    {
      label: "Bath",
      spans: [
        { from: 600, to: 900, look: "solid" },
        { from: 900, to: 2100, look: "tinted" },
        { from: 2100, to: 2700, look: "open" },
        { from: 2700, to: 3900, look: "tinted" },
      ],
    },
  ],
};

export const firstUnit = (axis: Axis): string => axis.of.units[0]!;

export function draw(
  data: Drawing,
  { width = 640, unitOf = firstUnit }: Partial<Canvas> = {},
): SVGSVGElement {
  const { document } = parseHTML("<!doctype html><html><body></body></html>");
  return drawFigure(data, "How warm it gets.", {
    document: document as unknown as Document,
    width,
    unitOf,
  });
}

export function texts(svg: SVGSVGElement): readonly string[] {
  return Array.from(svg.querySelectorAll("text"), (text) => text.textContent ?? "");
}

export const BAND = '[fill="var(--accent)"][fill-opacity] > path';

/** The paths of the lines, not of ticks or bands. */
export function linePaths(svg: SVGSVGElement): readonly Element[] {
  return Array.from(svg.querySelectorAll('g[fill="none"][stroke-linejoin="round"] > path'));
}

/** The corners of a path, px to three decimals. */
export function corners(path: Element): readonly (readonly [number, number])[] {
  const numbers = (path.getAttribute("d") ?? "").match(/-?[\d.]+(?:e-?\d+)?/g)?.map(Number) ?? [];
  return Array.from({ length: numbers.length / 2 }, (_, i) => [
    numbers[2 * i]!,
    numbers[2 * i + 1]!,
  ]);
}
