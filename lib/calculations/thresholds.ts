import { flashPoint } from "../laws/flash-point.ts";

/** °C: skin comes to harm from about here, in hours (Moritz and Henriques 1947. memory), and sooner above. */
export const SCALDS_FROM = 44;

/**
 * The cautious end of the flash point: a liquid that may be this warm may flash.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @returns °C; out of reach where there is no flash point
 */
export function flashesFrom(massFraction: number): number {
  return flashPoint(massFraction)?.low ?? Infinity;
}
