import { inRange } from "../errors.ts";
import { STANDARD_GRAVITY } from "./gravity.ts";

/** Where the laws of a stand hold. The form reads the same object. */
export const STAND_LIMITS = {
  mass: { min: 0, max: 100, unit: "kg" },
  distance: { min: -2, max: 2, unit: "m" },
  lever: { min: 0.001, max: 4, unit: "m" },
  height: { min: 0.01, max: 2, unit: "m" },
  safetyFactor: { min: 1, max: 10, unit: "1" },
} as const;

/** One part of a stand. */
export interface StandPart {
  /** kg */
  readonly mass: number;
  /** of its centre of mass, ahead of the rod, m; below zero behind it */
  readonly ahead: number;
}

/** About one edge of the base, N m. */
export interface Moments {
  readonly tipping: number;
  readonly restoring: number;
}

/**
 * What tips a stand over the edge of its base, and what holds it.
 *
 * A stand can only turn about the edge that stays on the table. Each part counts with its weight times its
 * distance from that edge: outside it tips, inside it holds.
 *
 * @param edge - ahead of the rod, m; −2 to 2
 * @param parts - masses 0 to 100 kg at −2 to 2 m, shape (n)
 * @returns moments about the edge, N m, neither below 0
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Table level, base rigid, nothing pushed.
 * Source: law of the lever. memory
 *
 * @example
 * momentsAbout(0.16, [{ mass: 1.5, ahead: 0.06 }, { mass: 0.75, ahead: 0.25 }]);
 * // tipping 0.662, restoring 1.471 N m
 */
export function momentsAbout(edge: number, parts: readonly StandPart[]): Moments {
  inRange("edge", edge, STAND_LIMITS.distance);
  let tipping = 0;
  let restoring = 0;
  for (const { mass, ahead } of parts) {
    inRange("mass", mass, STAND_LIMITS.mass);
    inRange("ahead", ahead, STAND_LIMITS.distance);
    tipping += STANDARD_GRAVITY * mass * Math.max(ahead - edge, 0);
    restoring += STANDARD_GRAVITY * mass * Math.max(edge - ahead, 0);
  }
  return { tipping, restoring };
}

/**
 * Counterweight for a wanted ratio of restoring to tipping moment.
 *
 * m = (s M_tip − M_restore)/(g l)
 *
 * @param moments - without the counterweight, N m; tipping and restoring from 0 to 4000
 * @param lever - of the counterweight inside the edge, m; 0.001 to 4
 * @param safetyFactor - wanted ratio, 1 to 10
 * @returns kg; 0 where none is needed
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: law of the lever. memory
 *
 * @example
 * counterweightFor({ tipping: 1.0, restoring: 0.8 }, 0.2, 1.5); // 0.357 kg
 */
export function counterweightFor(moments: Moments, lever: number, safetyFactor: number): number {
  refuseOddMoments(moments);
  inRange("lever", lever, STAND_LIMITS.lever);
  inRange("safetyFactor", safetyFactor, STAND_LIMITS.safetyFactor);
  const missing = safetyFactor * moments.tipping - moments.restoring;
  return Math.max(missing, 0) / (STANDARD_GRAVITY * lever);
}

/**
 * Level push that tips a stand over the edge.
 *
 * F = (M_restore − M_tip)/h
 *
 * @param moments - about that edge, N m; each from 0 to 4000
 * @param height - of the push above the table, m; 0.01 to 2
 * @returns N; 0 where the stand tips by itself
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks If the base slides before that, it does not tip.
 * Source: law of the lever. memory
 *
 * @example
 * tippingPush({ restoring: 2.148, tipping: 0.662 }, 0.45); // 3.30 N
 */
export function tippingPush(moments: Moments, height: number): number {
  refuseOddMoments(moments);
  inRange("height", height, STAND_LIMITS.height);
  return Math.max(moments.restoring - moments.tipping, 0) / height;
}

function refuseOddMoments({ tipping, restoring }: Moments): void {
  const limits = { min: 0, max: 4000, unit: "N m" } as const;
  inRange("tipping", tipping, limits);
  inRange("restoring", restoring, limits);
}
