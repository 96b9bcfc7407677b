import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { bottling } from "../../../lib/laws/bottling.ts";

describe("bottling(batchVolume, lossVolume, bottleVolume, fillShare)", () => {
  it("fills whole bottles to the mark and gives the last one the rest", () => {
    // By hand: 480 mL into bottles of 100 mL, 95 mL each.
    const found = bottling(0.5e-3, 20e-6, 0.1e-3, 0.95);
    expect(found.bottles).toBe(5);
    expect(found.fillVolume).toBeCloseTo(95e-6, 12);
    expect(found.headspaceVolume).toBeCloseTo(5e-6, 12);
    expect(found.lastVolume).toBeCloseTo(5e-6, 12);
    expect(found.lastHeadspaceVolume).toBeCloseTo(95e-6, 12);
  });

  it("has no last bottle where the batch comes out even", () => {
    for (const [batch, bottle, fill, count] of [
      [0.3e-3, 0.1e-3, 1, 3],
      [0.7e-3, 0.07e-3, 1, 10],
      // Comes out a hair above six.
      [0.342e-3, 0.06e-3, 0.95, 6],
    ] as const) {
      const { bottles, lastVolume, lastHeadspaceVolume } = bottling(batch, 0, bottle, fill);
      expect(bottles).toBe(count);
      expect(lastVolume).toBe(0);
      expect(lastHeadspaceVolume).toBe(0);
    }
  });

  it("loses no liquid", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 0.02, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 5e-6, max: 0.02, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (batch, lost, bottle, fill) => {
          const found = bottling(batch, lost * batch, bottle, fill);
          const held = found.bottles * found.fillVolume + found.lastVolume;
          expect(held).toBeCloseTo(batch * (1 - lost), 10);
          expect(found.lastVolume).toBeLessThan(found.fillVolume);
          expect(found.headspaceVolume).toBeGreaterThanOrEqual(0);
          expect(found.lastHeadspaceVolume).toBeGreaterThanOrEqual(0);
        },
      ),
      { seed: 750, numRuns: 1000 },
    );
  });

  it("fills nothing where all is lost, and leaves no air in a brimful bottle", () => {
    expect(bottling(0.5e-3, 0.5e-3, 0.1e-3, 0.9)).toMatchObject({ bottles: 0, lastVolume: 0 });
    expect(bottling(0.5e-3, 0, 0.1e-3, 1).headspaceVolume).toBe(0);
  });

  it.each([
    ["batchVolume", [0, 0, 1e-4, 0.9]],
    ["batchVolume", [0.021, 0, 1e-4, 0.9]],
    ["batchVolume", [Number.NaN, 0, 1e-4, 0.9]],
    ["lossVolume", [5e-4, -1e-9, 1e-4, 0.9]],
    ["lossVolume", [5e-4, 5.1e-4, 1e-4, 0.9]],
    ["lossVolume", [5e-4, Number.NaN, 1e-4, 0.9]],
    ["bottleVolume", [5e-4, 0, 1e-6, 0.9]],
    ["bottleVolume", [5e-4, 0, 0.021, 0.9]],
    ["fillShare", [5e-4, 0, 1e-4, 0]],
    ["fillShare", [5e-4, 0, 1e-4, 1.01]],
    ["fillShare", [5e-4, 0, 1e-4, Number.NaN]],
  ] as const)("refuses a %s out of range: %j", (quantity, [batch, loss, bottle, fill]) => {
    expect(() => bottling(batch, loss, bottle, fill)).toThrow(OutOfRangeError);
    expect(() => bottling(batch, loss, bottle, fill)).toThrow(
      expect.objectContaining({ quantity }),
    );
  });
});
