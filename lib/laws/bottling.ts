import { inRange } from "../errors.ts";

/** Where the balance is used. The form reads the same object, so page and function cannot disagree. */
export const BOTTLING_LIMITS = {
  batchVolume: { min: 1e-6, max: 0.02, unit: "m³" },
  lossVolume: { min: 0, max: 0.02, unit: "m³" },
  bottleVolume: { min: 5e-6, max: 0.02, unit: "m³" },
  fillShare: { min: 0.01, max: 1, unit: "1" },
} as const;

/** How a batch goes into bottles. */
export interface Bottling {
  /** filled to the mark */
  readonly bottles: number;
  /** liquid in each of them, m³ */
  readonly fillVolume: number;
  /** air over it, m³ */
  readonly headspaceVolume: number;
  /** left for a last bottle, m³; 0 where nothing is */
  readonly lastVolume: number;
  /** air over that, m³; 0 where there is no last bottle */
  readonly lastHeadspaceVolume: number;
}

/**
 * How many bottles a batch fills, and how much air stays over the liquid.
 *
 * @param batchVolume - m³; 1 mL to 20 L
 * @param lossVolume - skimmed, spilled and clinging, m³; 0 to the batch
 * @param bottleVolume - of one bottle, brimful, m³; 5 mL to 20 L
 * @param fillShare - liquid over that, 0.01 to 1: above 1 the headspace would be less than nothing
 * @returns whole bottles, and what the last one gets
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Measure the brimful volume with water on the scale: a label states what a bottle is sold with, not
 * what it holds. A liquid bottled cold grows by half a per cent up to room temperature: leave it that much. The
 * last, part-filled bottle has the most air: drink it first, or take a smaller one.
 * Source: conservation of volume. computed
 *
 * @example
 * bottling(0.5e-3, 20e-6, 0.1e-3, 0.95); // { bottles: 5, headspaceVolume: 5e-6, lastVolume: 5e-6, … }
 */
export function bottling(
  batchVolume: number,
  lossVolume: number,
  bottleVolume: number,
  fillShare: number,
): Bottling {
  inRange("batchVolume", batchVolume, BOTTLING_LIMITS.batchVolume);
  inRange("lossVolume", lossVolume, { ...BOTTLING_LIMITS.lossVolume, max: batchVolume });
  inRange("bottleVolume", bottleVolume, BOTTLING_LIMITS.bottleVolume);
  inRange("fillShare", fillShare, BOTTLING_LIMITS.fillShare);
  const fillVolume = fillShare * bottleVolume;
  const filled = (batchVolume - lossVolume) / fillVolume;
  // A billionth, because what fills the last bottle exactly may come out a hair short, or a hair over.
  const bottles = Math.floor(filled + 1e-9);
  const part = filled - bottles;
  const lastVolume = part > 1e-9 ? part * fillVolume : 0;
  return {
    bottles,
    fillVolume,
    headspaceVolume: bottleVolume - fillVolume,
    lastVolume,
    lastHeadspaceVolume: lastVolume > 0 ? bottleVolume - lastVolume : 0,
  };
}
