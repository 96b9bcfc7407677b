import { describe, expect, it } from "vitest";
import { shorten } from "../../../components/figure/shorten.ts";
import { BARS, LINES, SPANS, corners, draw, linePaths, texts } from "../../helpers/figures.ts";

describe("shorten(svg)", () => {
  it("leaves no more than one decimal of a pixel, and no line moved by more than that", () => {
    const [long, short] = [draw(LINES), draw(LINES)];
    shorten(short);
    const exact = linePaths(long).flatMap(corners).flat();
    const rounded = linePaths(short).flatMap(corners).flat();
    expect(exact.join(" ")).toMatch(/\d\.\d{2}/);
    expect(rounded.join(" ")).not.toMatch(/\d\.\d{2}/);
    expect(rounded).toHaveLength(exact.length);
    for (const [i, number] of rounded.entries())
      expect(Math.abs(number - exact[i]!)).toBeLessThanOrEqual(0.050_001);
  });

  it.each([
    ["lines", LINES],
    ["bars", BARS],
    ["spans", SPANS],
  ])("keeps ticks and grid lines where they are, a group as one path, for %s", (_, data) => {
    const [long, short] = [draw(data), draw(data)];
    shorten(short);
    const grid = (svg: SVGSVGElement): Element => svg.querySelector('g[stroke-opacity="0.1"]')!;
    const lines = Array.from(grid(long).children);
    expect(lines.length).toBeGreaterThan(1);
    expect(grid(short).children).toHaveLength(1);
    const ends = lines.flatMap((line) =>
      ["x1", "y1", "x2", "y2"].map((name) => Number(line.getAttribute(name))),
    );
    const found = corners(grid(short).firstElementChild!).flat();
    expect(found).toHaveLength(ends.length);
    for (const [i, end] of ends.entries()) expect(found[i]).toBeCloseTo(end, 0);
    expect(texts(short)).toEqual(texts(long));
  });

  it("leaves lines of the figure itself alone", () => {
    const svg = draw(LINES);
    shorten(svg);
    expect(linePaths(svg)).toHaveLength(2);
  });

  it("sends fewer elements", () => {
    const [long, short] = [draw(LINES), draw(LINES)];
    shorten(short);
    const count = (svg: SVGSVGElement): number => svg.querySelectorAll("*").length;
    expect(count(short)).toBeLessThan(0.75 * count(long));
  });
});
