import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { normalDraws, quantiles } from "../../../lib/numeric/sampling.ts";

const COUNT = 100_000;

function row(seed: number, count: number): readonly number[] {
  const next = normalDraws(seed);
  return Array.from({ length: count }, () => next());
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe("normalDraws(seed)", () => {
  // Four standard errors of each moment of a normal sample: 1, 2, 6 and 24 over n, roots.
  it.each([1, 2, 20_250_101])("has the moments of the normal distribution from seed %d", (seed) => {
    const draws = row(seed, COUNT);
    const centre = mean(draws);
    const moment = (power: number): number => mean(draws.map((x) => (x - centre) ** power));
    const spread = Math.sqrt(moment(2));
    expect(Math.abs(centre)).toBeLessThan(4 * Math.sqrt(1 / COUNT));
    expect(Math.abs(moment(2) - 1)).toBeLessThan(4 * Math.sqrt(2 / COUNT));
    expect(Math.abs(moment(3) / spread ** 3)).toBeLessThan(4 * Math.sqrt(6 / COUNT));
    expect(Math.abs(moment(4) / spread ** 4 - 3)).toBeLessThan(4 * Math.sqrt(24 / COUNT));
  });

  it.each([
    // Shares of a normal distribution within ±k: any table of Φ. memory
    [1, 0.682_69],
    [1.959_964, 0.95],
    [3, 0.9973],
  ])("keeps its share within ±%d", (k, share) => {
    const inside = row(3, COUNT).filter((x) => Math.abs(x) <= k).length / COUNT;
    expect(Math.abs(inside - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / COUNT));
  });

  it("gives numbers that do not follow from the one before, though they are made in pairs", () => {
    const draws = row(4, COUNT);
    for (const lag of [1, 2]) {
      const products = draws.slice(lag).map((x, i) => x * draws[i]!);
      const squares = draws.slice(lag).map((x, i) => (x * draws[i]!) ** 2);
      expect(Math.abs(mean(products))).toBeLessThan(4 / Math.sqrt(COUNT));
      // Independent numbers: the squares multiply too, E = 1, variance 8.
      expect(Math.abs(mean(squares) - 1)).toBeLessThan(4 * Math.sqrt(8 / COUNT));
    }
  });

  it("gives the same row for the same seed, whatever is drawn beside it", () => {
    const [one, other] = [normalDraws(5), normalDraws(5)];
    const stranger = normalDraws(6);
    for (let i = 0; i < 1000; i++) {
      stranger();
      expect(one()).toBe(other());
    }
  });

  it("gives another row for another seed", () => {
    const rows = [0, 1, 2, -1, 2 ** 31 - 1].map((seed) => row(seed, 5).join());
    expect(new Set(rows).size).toBe(rows.length);
  });

  it("gives finite numbers from seed 0", () => {
    expect(row(0, 1000).every(Number.isFinite)).toBe(true);
    expect(new Set(row(0, 1000)).size).toBe(1000);
  });
});

/** The same from a sample sorted whole. */
function reference(sample: readonly number[], share: number): number {
  const sorted = sample.toSorted((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const [below, above] = [sorted[Math.floor(at)]!, sorted[Math.ceil(at)]!];
  return below + (above - below) * (at - Math.floor(at));
}

describe("quantiles(sample, shares)", () => {
  const SHARES = [0, 0.025, 0.25, 0.5, 0.5, 0.975, 1];

  it.each([1, 2, 3, 100, 1001, 10_000])("agrees with a sorted sample of %d", (count) => {
    const sample = row(7, count);
    expect(quantiles(Float64Array.from(sample), SHARES)).toEqual(
      SHARES.map((share) => reference(sample, share)),
    );
  });

  it("agrees with a sorted sample in any order, ties among them", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 1, maxLength: 60 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 6 }),
        (sample, unsorted) => {
          const shares = unsorted.toSorted((a, b) => a - b);
          const got = quantiles(Float64Array.from(sample), shares);
          expect(got).toHaveLength(shares.length);
          for (const [i, share] of shares.entries())
            expect(got[i]).toBeCloseTo(reference(sample, share), 12);
        },
      ),
      { seed: 20_250_101, numRuns: 500 },
    );
  });

  it.each([
    ["rising", (i: number) => i],
    ["falling", (i: number) => -i],
    ["all alike", () => 3],
    ["a roof", (i: number) => Math.min(i, 500 - i)],
  ])("manages a sample that is %s", (_, at) => {
    const sample = Array.from({ length: 501 }, (_, i) => at(i));
    expect(quantiles(Float64Array.from(sample), SHARES)).toEqual(
      SHARES.map((share) => reference(sample, share)),
    );
  });

  it("goes straight between neighbours", () => {
    expect(quantiles(Float64Array.of(20, 10), [0, 0.25, 1])).toEqual([10, 12.5, 20]);
  });

  it("changes the order of the sample and nothing else in it", () => {
    const sample = Float64Array.from(row(8, 301));
    const before = sample.toSorted();
    quantiles(sample, SHARES);
    expect(sample.toSorted()).toEqual(before);
  });

  it("gives nothing where nothing is asked", () => {
    expect(quantiles(Float64Array.of(1), [])).toEqual([]);
  });

  it("refuses an empty sample", () => {
    expect(() => quantiles(new Float64Array(0), [0.5])).toThrow(OutOfRangeError);
  });

  it.each([-0.001, 1.001, Number.NaN])("refuses a share of %d", (share) => {
    expect(() => quantiles(Float64Array.of(1, 2, 3), [share])).toThrow(OutOfRangeError);
  });
});
