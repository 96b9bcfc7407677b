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
 * A quantile of a sample, straight between neighbours.
 *
 * @param sorted - ascending, at least one
 * @param share - 0 to 1
 * @throws OutOfRangeError for an empty sample or a share outside 0 to 1
 */
export function quantile(sorted: ArrayLike<number>, share: number): number {
  inRange("share", share, { min: 0, max: 1, unit: "1" });
  inRange("count", sorted.length, { min: 1, max: Number.MAX_SAFE_INTEGER, unit: "1" });
  const at = share * (sorted.length - 1);
  const below = sorted[Math.floor(at)] as number;
  const above = sorted[Math.ceil(at)] as number;
  return below + (above - below) * (at - Math.floor(at));
}
