import { describe, expect, it } from "vitest";
import { curveBand } from "../../../lib/calculations/curve-band.ts";

interface Line {
  readonly slope: number;
  readonly start: number;
}
const XS = [0, 1, 3];
const HERE: Line = { slope: 2, start: 5 };
const line = ({ slope, start }: Line) =>
  slope > 0 ? (x: number): number => start + slope * x : undefined;
const band = (inputs: Line, spread: readonly { above?: Line; below?: Line }[]) =>
  curveBand<never>(XS, line as never, inputs as never, spread as never);
const steeper = { above: { ...HERE, slope: 2.1 }, below: { ...HERE, slope: 1.9 } };
const higher = { above: { ...HERE, start: 5.3 }, below: { ...HERE, start: 4.7 } };

describe("curveBand(xs, curve, inputs, spread)", () => {
  it("is two standard uncertainties either way, added in squares at each x", () => {
    const found = band(HERE, [steeper, higher]);
    expect(found.map(([x]) => x)).toEqual(XS);
    for (const [x, low, high] of found) {
      const half = 2 * Math.hypot(0.1 * x, 0.3);
      expect(low).toBeCloseTo(5 + 2 * x - half, 12);
      expect(high).toBeCloseTo(5 + 2 * x + half, 12);
    }
  });

  it("is the curve itself where nothing is unsure", () => {
    expect(band(HERE, [])).toEqual(XS.map((x) => [x, 5 + 2 * x, 5 + 2 * x]));
  });

  it("leaves out a quantity that is refused on one side", () => {
    const refused = { above: higher.above, below: { ...HERE, slope: -1 } };
    const missing = { above: higher.above };
    for (const lost of [refused, missing])
      expect(band(HERE, [steeper, lost])).toEqual(band(HERE, [steeper]));
  });

  it("has no edges where the curve is refused", () => {
    expect(band({ ...HERE, slope: -1 }, [steeper])).toEqual([]);
  });
});
