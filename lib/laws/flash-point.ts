import { inRange } from "../errors.ts";
import { brent } from "../numeric/root.ts";
import {
  ATMOSPHERE,
  partialPressures,
  totalPressure,
  VAPOUR_LIMITS,
} from "../substances/ethanol-water-vapour.ts";
import { massFractionFromMoleFraction, moleFraction } from "../substances/ethanol-water.ts";
import { ethanolSaturationPressure } from "../substances/vapour-pressure.ts";

/**
 * Flash point of pure ethanol in a closed cup, °C.
 * Source: NFPA 497 (2008). seen; IEC 60079-20-1 (2010) has 12, NIOSH 12.8, safety sheets 14. seen
 */
export const PURE_FLASH_POINT = 13;

/**
 * Explosive limits of ethanol in air, shares of the volume near 25 °C; the lower one falls by 0.8 % of
 * itself in 10 K.
 * Source: NFPA 497 (2008) and NIOSH Pocket Guide; IEC 60079-20-1 (2010) has 3.1 % for the lower. seen
 */
export const EXPLOSIVE_LIMITS = { lower: 0.033, upper: 0.19 } as const;

/**
 * Where the functions of this file hold. The form reads the same object, so page and function cannot
 * disagree.
 */
export const FLASH_LIMITS = {
  massFraction: VAPOUR_LIMITS.massFraction,
  /**
   * Above 79 °C the vapours leave the air only 10.5 % of oxygen, the least that ethanol burns in (NFPA 69.
   * memory).
   */
  temperature: { min: PURE_FLASH_POINT, max: 79, unit: "°C" },
  pressure: VAPOUR_LIMITS.pressure,
  volumeFraction: { min: 0, max: 1, unit: "1" },
  share: { min: 0.5, max: 1.5, unit: "1" },
  flashPoint: { min: -100, max: 500, unit: "°C" },
  boilingPoint: { min: -100, max: 1000, unit: "°C" },
} as const;

/** Half-width of {@link flashPoint} on the low side, K. */
const BELOW = 3;
/** On the high side: at pure ethanol, K, and for each K above that. */
const ABOVE = { atPure: 4, perKelvin: 0.12 } as const;

/**
 * Flash point of ethanol and water, closed cup: from this temperature on, a flame or spark lights the vapour
 * over the liquid.
 *
 * x γ(x, T) P(T) = P(T_pure): the liquid flashes when it gives off as much vapour of ethanol as pure ethanol
 * does at its flash point; water gives nothing that burns
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @returns °C; `low` to `high` holds every published table that agrees with any other, whether its % is read
 * as mass or as volume. `low` is the safe side: stay below it. null where no temperature leaves enough air
 * to burn, under about 1.8 % mass, and for water
 * @throws OutOfRangeError outside 0 to 1, NaN included
 * @remarks Water vapour in the air hinders the flame and is not counted: the value is 0 to 5 K low for weak
 * mixtures. Not a laboratory's measurement: sugar, acid and lecithin are left out (they raise it by less
 * than 1 K), and foam or a warm spot gives vapour as its own temperature does.
 * Source: Liaw et al., J. Loss Prev. Process Ind. 15 (2002) 429–438. memory; Vidal, Rogers & Mannan, Process
 * Saf. Environ. Prot. 84 (2006) 1–9. seen (first page)
 *
 * @example
 * flashPoint(0.333); // 28.3 °C, 25.3 to 34.1: a spirit of 40 % vol
 */
export function flashPoint(
  massFraction: number,
): { readonly value: number; readonly low: number; readonly high: number } | null {
  inRange("massFraction", massFraction, FLASH_LIMITS.massFraction);
  const found = temperatureAt(moleFraction(massFraction), FLASH_PRESSURE);
  if (found === null) return null;
  // Rounding may put pure ethanol under its own flash point.
  const value = Math.max(found, PURE_FLASH_POINT);
  const warmer = value - PURE_FLASH_POINT;
  return { value, low: value - BELOW, high: value + ABOVE.atPure + ABOVE.perKelvin * warmer };
}

/**
 * The strength whose flash point is a temperature, the inverse of {@link flashPoint}'s `value`: anything
 * stronger flashes below it.
 *
 * @param temperature - °C; 13 to 79
 * @returns mass fraction of ethanol, 0.018 to 1
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link flashPoint}
 *
 * @example
 * massFractionFlashingAt(40); // 0.135, about 17 % vol
 */
export function massFractionFlashingAt(temperature: number): number {
  inRange("temperature", temperature, FLASH_LIMITS.temperature);
  // Ethanol's pressure rises with its share: one root.
  const x = brent((x) => partialPressures(x, temperature).ethanol - FLASH_PRESSURE, 0, 1, 0);
  return massFractionFromMoleFraction(x);
}

/**
 * The temperatures between which the air in balance with the liquid can burn: a closed headspace, or right
 * over the surface. Colder it is too lean, warmer too rich; a stream of fresh air makes a rich one burn.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @param pressure - of the air, Pa; 50 000 to 104 000
 * @param share - of the published limits to reckon with, 0.5 to 1.5: for the band of the answer
 * @returns °C, 0 to 79; null for an end that is not reached there or below the boiling point
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Begins 1 to 4 K under the measured flash point.
 *
 * @example
 * burnableSpan(1); // 11 to 41 °C: a bottle of strong spirit at room temperature
 */
export function burnableSpan(
  massFraction: number,
  pressure: number = ATMOSPHERE,
  share: number = 1,
): { readonly from: number | null; readonly to: number | null } {
  inRange("massFraction", massFraction, FLASH_LIMITS.massFraction);
  inRange("pressure", pressure, FLASH_LIMITS.pressure);
  inRange("share", share, FLASH_LIMITS.share);
  const x = moleFraction(massFraction);
  const below = (limit: number): number | null => {
    const temperature = temperatureAt(x, share * limit * pressure);
    return temperature !== null && totalPressure(x, temperature) < pressure ? temperature : null;
  };
  return { from: below(EXPLOSIVE_LIMITS.lower), to: below(EXPLOSIVE_LIMITS.upper) };
}

/**
 * How much of the lower explosive limit a share of vapour is: alarms stand at 0.1, ventilation rules at
 * 0.25.
 *
 * @param volumeFraction - ethanol in the air, 0 to 1
 * @returns 1 at the limit
 * @throws OutOfRangeError outside that range, NaN included
 */
export function shareOfLowerLimit(volumeFraction: number): number {
  inRange("volumeFraction", volumeFraction, FLASH_LIMITS.volumeFraction);
  return volumeFraction / EXPLOSIVE_LIMITS.lower;
}

/**
 * Category of a flammable liquid: 1 the worst.
 *
 * @param flashPoint - closed cup, °C; −100 to 500, or null for none
 * @param boilingPoint - where boiling begins, °C; −100 to 1000
 * @returns 1 to 4, or null for none. Category 4 (60 to 93 °C) exists in the United Nations' and the United
 * States' lists only; European law ends at 60
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: UN GHS ch. 2.6; Regulation (EC) 1272/2008, annex I, 2.6; 29 CFR 1910.1200 appendix B.6. seen
 *
 * @example
 * hazardCategory(13, 78.3); // 2, "highly flammable liquid and vapour"
 */
export function hazardCategory(
  flashPoint: number | null,
  boilingPoint: number,
): 1 | 2 | 3 | 4 | null {
  inRange("boilingPoint", boilingPoint, FLASH_LIMITS.boilingPoint);
  if (flashPoint === null) return null;
  inRange("flashPoint", flashPoint, FLASH_LIMITS.flashPoint);
  if (flashPoint < 23) return boilingPoint <= 35 ? 1 : 2;
  if (flashPoint <= 60) return 3;
  return flashPoint <= 93 ? 4 : null;
}

/** Pa; 3.75 % of the air, a little over the lower explosive limit. */
const FLASH_PRESSURE = ethanolSaturationPressure(PURE_FLASH_POINT);

/** °C at which ethanol's vapour over the liquid has a pressure, null if not from 0 to 79. */
function temperatureAt(moleFraction: number, pressure: number): number | null {
  const excess = (t: number): number => partialPressures(moleFraction, t).ethanol - pressure;
  const [min, max] = [VAPOUR_LIMITS.temperature.min, FLASH_LIMITS.temperature.max];
  return excess(min) > 0 || excess(max) < 0 ? null : brent(excess, min, max, 1e-11);
}
