import { describe, expect, it } from "vitest";
import { SPANS, draw, texts } from "../../helpers/figures.ts";

describe("a timeline", () => {
  /** The spans, not the key: left edge and width. */
  function bars(svg: SVGSVGElement): readonly (readonly [number, number])[] {
    return Array.from(svg.querySelectorAll("g > rect"), (bar) => [
      Number(bar.getAttribute("x")),
      Number(bar.getAttribute("width")),
    ]);
  }

  it("draws each span where it lies in time, as long as it lasts", () => {
    const drawn = bars(draw(SPANS));
    expect(drawn).toHaveLength(5);
    // In the order of the looks: two filled, two tinted, one outlined.
    const [weigh, setUp, first, second, rest] = drawn;
    expect(weigh![1] / setUp![1]).toBeCloseTo(2, 2);
    expect(setUp![0]).toBeCloseTo(weigh![0] + weigh![1], 2);
    expect(first![1]).toBeCloseTo(second![1], 2);
    expect(rest![0]).toBeCloseTo(first![0] + first![1], 2);
    expect(second![0]).toBeCloseTo(rest![0] + rest![1], 2);
  });

  it("tells the looks apart without colour", () => {
    const groups = Array.from(draw(SPANS).querySelectorAll("g:has(> rect)"));
    expect(groups).toHaveLength(3);
    const looks = groups.map((group) =>
      ["fill-opacity", "stroke-dasharray"].map((name) => group.getAttribute(name)).join(" "),
    );
    expect(new Set(looks).size).toBe(3);
  });

  it("says at each row how long it lasts, and above what the looks mean", () => {
    const written = texts(draw(SPANS));
    expect(written).toContain("Weigh in: 10\u00a0min at work");
    expect(written).toContain("Bath: 5\u00a0min at work, 40\u00a0min running, 10\u00a0min waiting");
    expect(written).toEqual(expect.arrayContaining(["at work", "running", "waiting"]));
    expect(written).toContain("Since the start (min)");
  });

  it("says them in the unit chosen", () => {
    const written = texts(draw(SPANS, { unitOf: () => "h" })).join("\n");
    expect(written).toContain("Since the start (h)");
    expect(written).toContain("0.67\u00a0h running");
  });

  it("says what is short in seconds", () => {
    const short = { label: "Blink", spans: [{ from: 0, to: 37, look: "open" as const }] };
    expect(texts(draw({ ...SPANS, rows: [short] }))).toContain("Blink: 37\u00a0s waiting");
  });
});
