import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { inRange } from "../errors.ts";

/**
 * A source of numbers from the standard normal distribution: the same seed gives the same row everywhere.
 *
 * Polar method of Marsaglia and Bray (SIAM Rev. 6 (1964) 260). memory
 *
 * @param seed - a whole number
 * @returns a function that gives the next number
 */
export function normalDraws(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const next = spare;
      spare = undefined;
      return next;
    }
    for (;;) {
      const u = 2 * uniformFloat64(generator) - 1;
      const v = 2 * uniformFloat64(generator) - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) {
        const scale = Math.sqrt((-2 * Math.log(s)) / s);
        spare = v * scale;
        return u * scale;
      }
    }
  };
}

/**
 * Quantiles of a sample, straight between neighbours, without sorting the whole of it.
 *
 * @param sample - at least one number; its order is changed
 * @param shares - 0 to 1, ascending
 * @returns one number for each share
 * @throws OutOfRangeError for an empty sample or a share outside 0 to 1
 */
export function quantiles(sample: Float64Array, shares: readonly number[]): readonly number[] {
  inRange("count", sample.length, { min: 1, max: Number.MAX_SAFE_INTEGER, unit: "1" });
  let from = 0;
  return shares.map((share) => {
    inRange("share", share, { min: 0, max: 1, unit: "1" });
    const at = share * (sample.length - 1);
    const rank = Math.floor(at);
    select(sample, rank, from);
    from = rank;
    const below = sample[rank] as number;
    // The next number in order is the least of those to the right of the rank.
    let above = below;
    if (at > rank) {
      above = Infinity;
      for (let i = rank + 1; i < sample.length; i++) above = Math.min(above, sample[i] as number);
    }
    return below + (above - below) * (at - rank);
  });
}

/** Moves the number of that rank to its place, smaller ones before it (Hoare's selection). */
function select(sample: Float64Array, rank: number, from: number): void {
  let [left, right] = [from, sample.length - 1];
  while (left < right) {
    const pivot = sample[(left + right) >> 1] as number;
    let [i, j] = [left, right];
    while (i <= j) {
      while ((sample[i] as number) < pivot) i++;
      while ((sample[j] as number) > pivot) j--;
      if (i <= j) {
        [sample[i], sample[j]] = [sample[j] as number, sample[i] as number];
        i++;
        j--;
      }
    }
    if (rank <= j) right = j;
    else if (rank >= i) left = i;
    else return;
  }
}
