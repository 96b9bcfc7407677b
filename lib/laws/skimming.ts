import { inRange } from "../errors.ts";

/** Where the balance is used. The form reads the same object, so page and function cannot disagree. */
export const SKIMMING_LIMITS = {
  volume: { min: 1e-9, max: 1, unit: "m³" },
  mass: { min: 0, max: 1000, unit: "kg" },
  skimmedVolume: { min: 0, max: 10, unit: "m³" },
  // A foam of thin films alone.
  gasShare: { min: 0, max: 0.999, unit: "1" },
} as const;

/** What was taken off and what stayed, in the unit of each. */
export interface Skimmed<Ingredient extends string> {
  /** liquid taken off with the foam, m³ */
  readonly volumeLost: number;
  /** m³ */
  readonly volumeLeft: number;
  /** share of the liquid that was taken off */
  readonly shareLost: number;
  /** kg */
  readonly lost: Readonly<Record<Ingredient, number>>;
  /** kg */
  readonly left: Readonly<Record<Ingredient, number>>;
}

/**
 * What goes with the foam that is skimmed.
 *
 * The liquid between the bubbles, V (1 − g), is taken to be the liquid below: every ingredient loses the same
 * share.
 *
 * @param volume - of the liquid, m³; 1 mm³ to 1 m³
 * @param masses - of each ingredient in it, kg; 0 to 1000
 * @param skimmedVolume - of the foam as it is skimmed, m³; from 0 to what holds all the liquid
 * @param gasShare - gas in the foam, share of its volume; 0 to 0.999
 * @returns what is lost and what is left
 * @throws OutOfRangeError outside those ranges, NaN included; more skimmed than there is names "skimmedVolume"
 * and the most that there is
 * @remarks Lecithin gathers where liquid meets gas, so foam takes more of it than this says, and of what is
 * dissolved neither more nor less. Weighing before and after is surer than guessing the foam's gas.
 * Source: conservation of mass. computed
 *
 * @example
 * skimming(0.5e-3, { acid: 0.05 }, 0.05e-3, 0.8).lost.acid; // 0.001 kg
 */
export function skimming<Ingredient extends string>(
  volume: number,
  masses: Readonly<Record<Ingredient, number>>,
  skimmedVolume: number,
  gasShare: number,
): Skimmed<Ingredient> {
  inRange("volume", volume, SKIMMING_LIMITS.volume);
  inRange("gasShare", gasShare, SKIMMING_LIMITS.gasShare);
  const { skimmedVolume: limits } = SKIMMING_LIMITS;
  inRange("skimmedVolume", skimmedVolume, {
    ...limits,
    max: Math.min(limits.max, volume / (1 - gasShare)),
  });
  // What holds all the liquid may come out a rounding above it.
  const shareLost = Math.min((skimmedVolume * (1 - gasShare)) / volume, 1);
  const shared = (share: number): Readonly<Record<Ingredient, number>> => {
    const portion = {} as Record<Ingredient, number>;
    for (const name of Object.keys(masses) as Ingredient[]) {
      inRange(name, masses[name], SKIMMING_LIMITS.mass);
      portion[name] = masses[name] * share;
    }
    return portion;
  };
  return {
    volumeLost: volume * shareLost,
    volumeLeft: volume * (1 - shareLost),
    shareLost,
    lost: shared(shareLost),
    left: shared(1 - shareLost),
  };
}
