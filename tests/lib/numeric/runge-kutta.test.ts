import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { integrateUntil } from "../../../lib/numeric/runge-kutta.ts";

/** y' = −y beside the time. */
const decay = ([y = 0]: readonly number[]): number[] => [-y, 1];
const half = ([y = 0]: readonly number[]): number => 0.5 - y;

describe("integrateUntil(slope, start, event, tolerance)", () => {
  it("halves a decay at ln 2", () => {
    const [y, time] = integrateUntil(decay, [1, 0], half, 1e-12);
    expect(y).toBeCloseTo(0.5, 11);
    expect(time).toBeCloseTo(Math.LN2, 11);
  });

  it("finds where a cosine crosses zero, and where it comes back to 1 after ten turns", () => {
    const swing = ([x = 0, v = 0]: readonly number[]): number[] => [v, -x, 1];
    const [, v, quarter] = integrateUntil(swing, [1, 0, 0], ([x = 0]) => -x, 1e-12);
    expect(v).toBeCloseTo(-1, 10);
    expect(quarter).toBeCloseTo(Math.PI / 2, 10);
    const tenTurns = integrateUntil(swing, [1, 0, 0], ([, , t = 0]) => t - 20 * Math.PI, 1e-12);
    expect(tenTurns[0]).toBeCloseTo(1, 9);
    expect(tenTurns[1]).toBeCloseTo(0, 9);
  });

  it("takes short steps where the slope changes fast", () => {
    // y' = −1000 (y − cos t) ends close to cos t + sin t / 1000.
    const fast = ([y = 0, t = 0]: readonly number[]): number[] => [-1000 * (y - Math.cos(t)), 1];
    const [y] = integrateUntil(fast, [0, 0], ([, t = 0]) => t - 2, 1e-9);
    expect(y).toBeCloseTo(Math.cos(2) + Math.sin(2) / 1000, 5);
  });

  it.each([1e-4, 1e-6, 1e-8, 1e-10])("is off by little more than a tolerance of %d", (wanted) => {
    const [, time = 0] = integrateUntil(decay, [1, 0], half, wanted);
    expect(Math.abs(time - Math.LN2)).toBeLessThan(10 * wanted);
  });

  it("has fifth order: a step half as long is off by a 64th", () => {
    // At a tolerance of 1e-2 one step is taken, to the event and no further.
    const off = (length: number): number => {
      const [y = 0] = integrateUntil(decay, [1, 0], ([, t = 0]) => t - length, 1e-2);
      return Math.abs(y / Math.exp(-length) - 1);
    };
    const ratio = off(0.2) / off(0.1);
    expect(ratio).toBeGreaterThan(50);
    expect(ratio).toBeLessThan(80);
  });

  it("closes a gap hardly longer than the tolerance", () => {
    for (const gap of [1.1e-9, 1e-8, 1e-5]) {
      const [time] = integrateUntil(
        () => [1],
        [0],
        ([t = 0]) => t - (1 + gap),
        1e-9,
      );
      expect(Math.abs((time ?? Number.NaN) - (1 + gap))).toBeLessThanOrEqual(1e-9);
    }
  });

  it("stays where it is when the event has happened already", () => {
    expect(integrateUntil(decay, [0.5, 3], half, 1e-6)).toEqual([0.5, 3]);
    expect(integrateUntil(decay, [0.4, 3], half, 1e-6)).toEqual([0.4, 3]);
  });

  it("meets the event at once where the path is a cubic", () => {
    let asked = 0;
    const slope = ([, t = 0]: readonly number[]): number[] => (asked++, [3 * t ** 2, 1]);
    const [, time] = integrateUntil(slope, [0, 0], ([y = 0]) => y - 0.4, 1e-9);
    expect(time).toBeCloseTo(Math.cbrt(0.4), 12);
    // The slope at the start, and six for each of two steps: past the event, and to it.
    expect(asked).toBe(13);
  });

  it("takes a large value by its share, not by its size", () => {
    const asked = (start: number): number => {
      let count = 0;
      const slope = ([y = 0]: readonly number[]): number[] => (count++, [-y, 1]);
      integrateUntil(slope, [start, 0], ([y = 0]) => 0.5 - y / start, 1e-9);
      return count;
    };
    expect(asked(1000)).toBeLessThan(1.2 * asked(1));
  });

  it("gives up when the event never comes or a value is lost", () => {
    const swing = ([x = 0, v = 0]: readonly number[]): number[] => [v, -x];
    const never = ([x = 0]: readonly number[]): number => x - 2;
    expect(() => integrateUntil(swing, [1, 0], never, 1e-6)).toThrow(/does not come/);
    expect(() =>
      integrateUntil(
        ([y = 0]) => [Math.sqrt(-y)],
        [1],
        () => -1,
        1e-6,
      ),
    ).toThrow(/finite/);
  });

  it("answers at both ends of the tolerance and refuses the rest", () => {
    for (const tolerance of [1e-13, 1e-2])
      expect(integrateUntil(decay, [1, 0], half, tolerance)[1]).toBeCloseTo(Math.LN2, 1);
    for (const tolerance of [0, 9e-14, 1.1e-2, Number.NaN])
      expect(() => integrateUntil(decay, [1, 0], half, tolerance)).toThrow(OutOfRangeError);
  });
});
