import { inRange } from "../errors.ts";

export const SCALE_LIMITS = {
  readability: { min: 0, max: 1, unit: "kg" },
  repeatability: { min: 0, max: 1, unit: "kg" },
  linearity: { min: 0, max: 1, unit: "kg" },
} as const;

/** A scale as its leaflet describes it, kg. */
export interface Scale {
  /** Step of the display. */
  readonly readability: number;
  /** Standard deviation of repeated readings of one load. */
  readonly repeatability: number;
  /** Largest deviation over the range, ±. */
  readonly linearity: number;
}

/**
 * Standard uncertainty of one reading.
 *
 * u² = d²/12 + s² + L²/3: the display step is a rectangle of half-width d/2, the linearity one of
 * half-width L, the repeatability is a standard deviation already.
 *
 * @returns kg
 * @throws OutOfRangeError for a negative figure or NaN
 * Source: JCGM 100:2008 (GUM) F.2.2.1 and 4.3.7. seen (d/√12), memory (the rest)
 */
export function readingUncertainty({ readability, repeatability, linearity }: Scale): number {
  inRange("readability", readability, SCALE_LIMITS.readability);
  inRange("repeatability", repeatability, SCALE_LIMITS.repeatability);
  inRange("linearity", linearity, SCALE_LIMITS.linearity);
  return Math.hypot(readability / Math.sqrt(12), repeatability, linearity / Math.sqrt(3));
}

/**
 * Standard uncertainty of a portion: the difference of two readings, √2 times that of one. With the
 * display step alone this is d/√6 = 0.41 d.
 *
 * @returns kg
 * @throws OutOfRangeError as {@link readingUncertainty}
 * @remarks Two readings of one scale share part of their linearity error, so this errs on the wide side.
 */
export function portionUncertainty(scale: Scale): number {
  return Math.SQRT2 * readingUncertainty(scale);
}

/**
 * Covariance of portions weighed in one after another under one tare.
 *
 * Portion i is reading i minus reading i − 1. Neighbours share a reading with opposite signs, so what one
 * gets too much the next gets too little: 2u² on the diagonal, −u² beside it.
 *
 * @param count - number of portions, 1 to 100
 * @returns kg², shape (count, count)
 * @throws OutOfRangeError as {@link readingUncertainty}, or for another count
 * Source: JCGM 100:2008 (GUM) 5.2, correlated inputs. memory
 */
export function portionCovariance(scale: Scale, count: number): readonly (readonly number[])[] {
  inRange("count", count, { min: 1, max: 100, unit: "1" });
  const variance = readingUncertainty(scale) ** 2;
  return Array.from({ length: count }, (_, i) =>
    Array.from({ length: count }, (_, j) =>
      i === j ? 2 * variance : Math.abs(i - j) === 1 ? -variance : 0,
    ),
  );
}

/**
 * Relative standard uncertainty of a share, portion ÷ sum of all portions.
 *
 * @param portions - kg, each > 0
 * @param covariance - kg², shape (n, n) for n portions, as {@link portionCovariance} gives it
 * @param index - which portion, 0 to n − 1
 * @returns u(share) / share
 * @throws OutOfRangeError for a portion that is not positive
 */
export function shareUncertainty(
  portions: readonly number[],
  covariance: readonly (readonly number[])[],
  index: number,
): number {
  for (const portion of portions)
    inRange("portion", portion, { min: Number.MIN_VALUE, max: 1000, unit: "kg" });
  const total = portions.reduce((sum, portion) => sum + portion, 0);
  // d(ln share)/d(portion j)
  const slope = portions.map((portion, j) => (j === index ? 1 / portion : 0) - 1 / total);
  let variance = 0;
  for (const [i, row] of covariance.entries())
    for (const [j, value] of row.entries()) variance += (slope[i] ?? 0) * (slope[j] ?? 0) * value;
  return Math.sqrt(Math.max(variance, 0));
}
