import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import type { Canvas } from "../../../components/figure/canvas.ts";
import { drawFigure, redrawFigure } from "../../../components/figure/draw.ts";
import type { Axis, Drawing, FigureData } from "../../../lib/calculations/calculation.ts";
import {
  BAND,
  BARS,
  LINES,
  SPANS,
  corners,
  draw,
  firstUnit,
  linePaths,
  temperature,
  texts,
  volume,
} from "../../helpers/figures.ts";

describe("drawFigure(data, title, canvas)", () => {
  it.each([
    ["lines", LINES],
    ["bars", BARS],
    ["spans", SPANS],
  ])("is an image with a name, for %s", (_, data) => {
    const svg = draw(data);
    expect(svg.tagName.toLowerCase()).toBe("svg");
    expect(svg.getAttribute("role")).toBe("img");
    expect(svg.getAttribute("aria-label")).toBe("How warm it gets.");
    expect(svg.getAttribute("width")).toBe("640");
    expect(svg.parentNode).toBeNull();
  });

  it.each([
    ["lines", LINES],
    ["bars", BARS],
    ["spans", SPANS],
  ])("brings no style element, which the page's policy would refuse, for %s", (_, data) => {
    expect(draw(data).querySelectorAll("style")).toHaveLength(0);
    expect(draw(data).outerHTML).not.toContain("<style");
  });

  it("is one picture with one name: its parts have none", () => {
    for (const data of [LINES, BARS, SPANS])
      expect(draw(data).querySelectorAll("[aria-label]")).toHaveLength(0);
  });

  it("draws each line through all its points, as they lie", () => {
    const paths = linePaths(draw(LINES));
    expect(paths).toHaveLength(2);
    const [mixture, water] = paths.map(corners);
    expect(mixture).toHaveLength(4);
    expect(water).toHaveLength(2);
    const [a, b, c, d] = mixture!;
    // Even in x, and up where the value is higher.
    expect((c![0] - b![0]) / (b![0] - a![0])).toBeCloseTo(1, 2);
    expect((d![0] - c![0]) / (b![0] - a![0])).toBeCloseTo(2, 2);
    expect((a![1] - b![1]) / (a![1] - c![1])).toBeCloseTo(6 / 4, 2);
    expect(water![0]![0]).toBeCloseTo(a![0], 2);
    expect(water![1]![0]).toBeCloseTo(c![0], 2);
    for (const [x, y] of paths.flatMap(corners)) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(640);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(300);
    }
  });

  it("dashes only the line that asks for it", () => {
    const dashed = linePaths(draw(LINES)).map((line) =>
      line.parentElement?.hasAttribute("stroke-dasharray"),
    );
    expect(dashed).toEqual([false, true]);
  });

  it("names lines, marks, rules and axes, with their units", () => {
    const written = texts(draw(LINES)).join("\n");
    for (const word of ["mixture", "water", "yours", "warm", "Water added (mL)", "Warmth (°C)"])
      expect(written).toContain(word);
  });

  it("draws band, mark and rule", () => {
    const svg = draw(LINES);
    expect(svg.querySelectorAll(BAND)).toHaveLength(1);
    expect(svg.querySelectorAll("circle")).toHaveLength(1);
    expect(svg.querySelectorAll('[stroke="var(--ink-soft)"] > line')).toHaveLength(1);
    const { x, y, lines } = LINES;
    const bare = draw({ x, y, lines });
    expect(bare.querySelectorAll(BAND)).toHaveLength(0);
    expect(bare.querySelectorAll("circle")).toHaveLength(0);
  });

  it("puts the mark on the point that it marks", () => {
    const svg = draw(LINES);
    const circle = svg.querySelector("circle")!;
    const [, peak] = corners(linePaths(svg)[0]!);
    expect(Number(circle.getAttribute("cx"))).toBeCloseTo(peak![0], 2);
    expect(Number(circle.getAttribute("cy"))).toBeCloseTo(peak![1], 2);
  });

  it("writes the axes in the unit that the canvas chooses, and leaves the shape", () => {
    const unitOf = (axis: Axis): string => axis.of.units[1]!;
    const svg = draw(LINES, { unitOf });
    const written = texts(svg).join("\n");
    expect(written).toContain("Water added (fl oz)");
    expect(written).toContain("Warmth (°F)");
    const [a, b, c] = corners(linePaths(svg)[0]!);
    expect((a![1] - b![1]) / (a![1] - c![1])).toBeCloseTo(6 / 4, 2);
  });

  it("keeps an axis to the domain that is asked for", () => {
    const wide = { ...LINES, x: { ...volume, domain: [0, 8e-4] as const } };
    const [first, , , last] = corners(linePaths(draw(wide))[0]!);
    // Half of what is between the margins of 56 and 24 px.
    expect(last![0] - first![0]).toBeCloseTo((640 - 56 - 24) / 2, 2);
  });

  it.each([320, 640])("fits a width of %d px", (width) => {
    const xs = linePaths(draw(LINES, { width }))
      .flatMap(corners)
      .map(([x]) => x);
    expect(Math.max(...xs)).toBeLessThanOrEqual(width);
    expect(draw(LINES, { width }).getAttribute("viewBox")).toBe(`0 0 ${width} 300`);
  });

  it("names a line where the name has room", () => {
    const label = "a name of some length";
    const falling: FigureData = {
      x: volume,
      y: temperature,
      lines: [{ label, points: Array.from({ length: 21 }, (_, i) => [i * 1e-5, 40 - i]) }],
      // Far from the mark is far to the right, where the name would leave the drawing.
      marks: [{ x: 0, y: 40, label: "yours" }],
    };
    const name = Array.from(draw(falling, { width: 420 }).querySelectorAll("text")).find(
      (text) => text.textContent === label,
    )!;
    const [, x] = /translate\(([\d.]+)/.exec(name.getAttribute("transform") ?? "") ?? [];
    expect(Number(x) + 6 * label.length).toBeLessThan(420);
  });

  /** Where the name of a mark stands: px from the top left, and which end of it is there. */
  function markName(svg: SVGSVGElement, name: string): { x: number; y: number; anchor: string } {
    const text = Array.from(svg.querySelectorAll("text")).find((t) => t.textContent === name)!;
    const group = text.closest("g")!;
    const [x, y] = [text, group]
      .map((part) =>
        (
          /translate\(([-\d.]+),([-\d.]+)\)/.exec(part.getAttribute("transform") ?? "") ?? [
            "",
            0,
            0,
          ]
        )
          .slice(1)
          .map(Number),
      )
      .reduce(([a, b], [c, d]) => [a! + c!, b! + d!]);
    return { x: x!, y: y!, anchor: group.getAttribute("text-anchor") ?? "middle" };
  }
  const flat: FigureData = {
    x: { ...volume, domain: [0, 4e-4] },
    y: temperature,
    lines: [
      {
        label: "",
        points: [
          [0, 20],
          [4e-4, 30],
        ],
      },
    ],
  };

  it("parts the names of two marks at one place", () => {
    const at = { x: 2e-4, y: 25 };
    const svg = draw({
      ...flat,
      marks: [
        { ...at, label: "these" },
        { ...at, label: "those" },
      ],
    });
    const [these, those] = ["these", "those"].map((name) => markName(svg, name));
    expect(Math.abs(these!.y - those!.y)).toBeGreaterThan(14);
  });

  it("keeps the name of a mark at an end of the drawing inside it", () => {
    const svg = draw({
      ...flat,
      marks: [
        { x: 0, y: 20, label: "at the left" },
        { x: 2e-4, y: 25, label: "amid" },
        { x: 4e-4, y: 30, label: "at the right" },
      ],
    });
    const anchors = ["at the left", "amid", "at the right"].map(
      (name) => markName(svg, name).anchor,
    );
    expect(anchors).toEqual(["start", "middle", "end"]);
  });

  it.each([
    ["the lower first", [20, 30]],
    ["the upper first", [30, 20]],
  ])("puts each name nearest to its own of two lines, %s", (_, heights) => {
    const names = ["a name", "another name"];
    const svg = draw({
      x: volume,
      y: temperature,
      lines: heights.map((height, i) => ({
        label: names[i]!,
        points: Array.from({ length: 21 }, (_, at): [number, number] => [
          at * 1e-5,
          height + 5 * at,
        ]),
      })),
    });
    const shift = (part: Element | null): number[] =>
      (/translate\(([-\d.]+),([-\d.]+)\)/.exec(part?.getAttribute("transform") ?? "") ?? [0, 0, 0])
        .slice(1)
        .map(Number);
    const placeOf = (text: string): [number, number] => {
      const label = Array.from(svg.querySelectorAll("text")).find((t) => t.textContent === text)!;
      const group = label.closest("g")!;
      const [[x, y], [dx, dy]] = [shift(label), shift(group)];
      // The middle of the words, which start or end here.
      const half = 3 * text.length;
      const ends = group.getAttribute("text-anchor") === "end";
      return [x! + dx! + (ends ? -half : half), y! + dy!];
    };
    const lines = linePaths(svg).map(corners);
    for (const [i, name] of names.entries()) {
      const [x, y] = placeOf(name);
      const gaps = lines.map((line) => {
        const next = line.findIndex(([at]) => at >= x);
        const [[x0, y0], [x1, y1]] = [line[next - 1]!, line[next]!];
        return Math.abs(y0 + ((y1 - y0) * (x - x0)) / (x1 - x0) - y);
      });
      expect(gaps[i], name).toBe(Math.min(...gaps));
    }
  });

  it("draws what has no points as axes alone", () => {
    const svg = draw({ x: volume, y: temperature, lines: [{ label: "none", points: [] }] });
    expect(svg.getAttribute("role")).toBe("img");
    expect(texts(svg)).not.toContain("none");
  });

  it("draws a bar for each value, as long as it is large, with its number", () => {
    const svg = draw(BARS);
    const widths = Array.from(svg.querySelectorAll("rect"), (bar) =>
      Number(bar.getAttribute("width")),
    );
    expect(widths).toHaveLength(3);
    expect(widths[0]! / widths[1]!).toBeCloseTo(2.5, 2);
    expect(widths[2]).toBe(0);
    const written = texts(svg);
    for (const word of ["Water", "Spirit", "Acid", "250\u00a0mL", "100\u00a0mL", "0\u00a0mL"])
      expect(written).toContain(word);
  });
});

describe("redrawFigure(shown, data, title, canvas)", () => {
  const { document } = parseHTML("<!doctype html><html><body></body></html>");
  const canvas = (changes: Partial<Canvas> = {}): Canvas => ({
    document: document as unknown as Document,
    width: 640,
    unitOf: firstUnit,
    ...changes,
  });
  const redraw = (
    shown: SVGSVGElement | null,
    data: Drawing,
    changes?: Partial<Canvas>,
  ): SVGSVGElement => redrawFigure(shown, data, "How warm it gets.", canvas(changes));
  const parts = (svg: SVGSVGElement): readonly string[] =>
    Array.from(svg.children, (part) => part.outerHTML).sort();
  const axis = (svg: SVGSVGElement, name: string): readonly Element[] =>
    Array.from(svg.querySelectorAll(`[data-axis="${name}"]`));
  const raised = (by: number): FigureData => ({
    ...LINES,
    lines: LINES.lines.map((line) => ({
      ...line,
      points: line.points.map(([x, y]) => [x, y + by] as const),
    })),
  });
  const marked: FigureData = {
    ...LINES,
    marks: [
      { x: 1e-4, y: 26, label: "yours" },
      { x: 2e-4, y: 24, label: "end", drag: { input: "time", from: 0 } },
    ],
  };
  const longer: FigureData = {
    ...LINES,
    lines: [...LINES.lines, { label: "more", points: [[0, 20], [9e-4, 60]] }], // prettier-ignore
  };

  it.each([
    ["the same", LINES],
    ["other numbers inside the same axes", raised(0.1)],
    ["other numbers beyond one axis", raised(40)],
    ["other numbers beyond both", longer],
    ["more parts", marked],
    ["the same axes without a rule above them", { ...LINES, rules: [] }],
    ["fewer parts", { ...LINES, marks: [], rules: LINES.rules ?? [] }],
    ["bars", BARS],
    ["a timeline", SPANS],
  ] satisfies [string, Drawing][])("shows %s as drawing anew would", (_, data) => {
    const shown = redraw(redraw(redraw(null, LINES), data), data);
    expect(parts(shown)).toEqual(parts(drawFigure(data, "How warm it gets.", canvas())));
  });

  it("changes the drawing that is there", () => {
    const shown = redraw(null, LINES);
    expect(redraw(shown, raised(0.1))).toBe(shown);
  });

  it("keeps the parts of an axis that is the same", () => {
    const shown = redraw(null, LINES);
    const across = axis(shown, "x");
    expect(across.length).toBeGreaterThan(1);
    expect(texts(shown)).not.toContain("70");
    redraw(shown, raised(40));
    expect(axis(shown, "x").map((part, i) => part === across[i])).toEqual(across.map(() => true));
    expect(texts(shown)).toContain("70");
  });

  it.each([
    ["in another width", LINES, { width: 300 }],
    ["in another height", SPANS, {}],
  ])("draws a new one %s", (_, data, changes) => {
    const shown = redraw(null, LINES);
    expect(redraw(shown, data, changes)).not.toBe(shown);
  });

  it("draws a new one in place of the one made at build", () => {
    const built = redraw(null, LINES);
    built.setAttribute("data-built", "");
    expect(redraw(built, LINES)).not.toBe(built);
  });

  it("draws an axis anew for another unit", () => {
    const shown = redraw(redraw(null, LINES), LINES, { unitOf: (of) => of.of.units[1]! });
    expect(texts(shown)).toContain("Water added (fl oz)");
  });
});
