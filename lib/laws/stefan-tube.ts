import { inRange } from "../errors.ts";

/** Where the law is used. The form reads the same object, so page and function cannot disagree. */
export const STEFAN_LIMITS = {
  diffusivity: { min: 1e-7, max: 1e-3, unit: "m²/s" },
  length: { min: 1e-6, max: 10, unit: "m" },
  temperature: { min: -50, max: 200, unit: "°C" },
  pressure: { min: 50e3, max: 500e3, unit: "Pa" },
} as const;

/** J/(mol K), exact. Source: SI Brochure, 9th ed. (2019). memory */
export const GAS_CONSTANT = 8.314462618;

/**
 * How many times more vapour passes through air that stands still than diffusion alone would carry: the
 * vapour drags the gas along, and the air has to diffuse back against it.
 *
 * P / p_lm, p_lm the logarithmic mean of the air's pressure: P ln((P − p₂)/(P − p₁)) / (p₁ − p₂)
 *
 * @param pressure - P, of the whole gas, Pa; 50 000 to 500 000
 * @param atSurface - p₁, of all vapours at the liquid, Pa; 0 or more, below P
 * @param outside - p₂, of the same vapours at the other end, Pa; 0 or more, below P
 * @returns factor, 1 or more
 * @throws OutOfRangeError outside those ranges, NaN included: at P the liquid boils
 * @remarks For two vapours at once the common factor is exact only with equal diffusivities, and good to a
 * few per cent below 15 kPa.
 * Source: Bird, Stewart & Lightfoot, Transport Phenomena, ch. 18. memory
 */
export function stagnantAirFactor(pressure: number, atSurface: number, outside: number): number {
  inRange("pressure", pressure, STEFAN_LIMITS.pressure);
  // An air share of a millionth is as good as boiling.
  const vapour = { min: 0, max: pressure * (1 - 1e-6), unit: "Pa" };
  inRange("atSurface", atSurface, vapour);
  inRange("outside", outside, vapour);
  const surplus = (atSurface - outside) / (pressure - atSurface);
  const perShare = surplus === 0 ? 1 : Math.log1p(surplus) / surplus;
  return (pressure / (pressure - atSurface)) * perShare;
}

/**
 * Evaporation through a column of air that stands still.
 *
 * N = P D / (R T L) · ln((P − p₂)/(P − p₁))
 *
 * @param tube - `diffusivity` D, m²/s; `length` L from the liquid to the open end, m; `temperature` of the
 * gas, °C; `pressure` P of the gas, Pa
 * @param atSurface - p₁, of the vapour at the liquid, Pa; 0 or more, below P
 * @param outside - p₂, of the vapour at the open end, Pa; 0 or more, below P
 * @returns mol/(m² s); negative where vapour condenses
 * @throws OutOfRangeError outside {@link STEFAN_LIMITS} and those ranges, NaN included
 * Source: as {@link stagnantAirFactor}; Geankoplis, Transport Processes and Separation Process Principles,
 * ch. 6. memory
 *
 * @example
 * const tube = { diffusivity: 1.2253e-5, length: 0.1, temperature: 25, pressure: 101325 };
 * stefanFlux(tube, 7876.4, 0); // 4.05e-4 mol/(m² s)
 */
export function stefanFlux(tube: Tube, atSurface: number, outside: number): number {
  inRange("diffusivity", tube.diffusivity, STEFAN_LIMITS.diffusivity);
  inRange("length", tube.length, STEFAN_LIMITS.length);
  inRange("temperature", tube.temperature, STEFAN_LIMITS.temperature);
  const factor = stagnantAirFactor(tube.pressure, atSurface, outside);
  const conductance = tube.diffusivity / tube.length;
  return (
    (conductance * factor * (atSurface - outside)) / (GAS_CONSTANT * (tube.temperature + 273.15))
  );
}

/** A column of still gas over a liquid. */
export interface Tube {
  /** m²/s */
  readonly diffusivity: number;
  /** m */
  readonly length: number;
  /** °C */
  readonly temperature: number;
  /** Pa */
  readonly pressure: number;
}

/**
 * Mass that evaporates in a second through a column of air that stands still.
 *
 * @param tube - as in {@link stefanFlux}
 * @param atSurface - of the vapour at the liquid, Pa
 * @param outside - of the vapour at the open end, Pa
 * @param area - cross-section, m²; above 0, to 1
 * @param molarMass - of the vapour, kg/mol; 0.001 to 1
 * @returns kg/s; negative where vapour condenses
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function stefanMassRate(
  tube: Tube,
  atSurface: number,
  outside: number,
  area: number,
  molarMass: number,
): number {
  inRange("area", area, { min: Number.MIN_VALUE, max: 1, unit: "m²" });
  inRange("molarMass", molarMass, { min: 1e-3, max: 1, unit: "kg/mol" });
  return stefanFlux(tube, atSurface, outside) * area * molarMass;
}
