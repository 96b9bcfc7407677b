import { inRange } from "../errors.ts";
import { ASCORBIC_ACID_MOLAR_MASS } from "../substances/ascorbic-acid.ts";
import { saturationPressure } from "../substances/water.ts";
import type { Banded } from "../numeric/banded.ts";
import { GAS_CONSTANT } from "./stefan-tube.ts";

/** Where the balance is used. The form reads the same object, so page and function cannot disagree. */
export const OXYGEN_LIMITS = {
  headspaceVolume: { min: 0, max: 0.02, unit: "m³" },
  liquidVolume: { min: 0, max: 0.02, unit: "m³" },
  temperature: { min: 0, max: 40, unit: "°C" },
  pressure: { min: 50e3, max: 120e3, unit: "Pa" },
  ascorbicAcidMass: { min: 1e-6, max: 20, unit: "kg" },
} as const;

/** Share of dry air that is oxygen, by amount. Source: ISO 2533, 20.9476 %. memory */
export const OXYGEN_SHARE = 0.2095;

/** O₂, kg/mol. Source: IUPAC standard atomic weights. memory */
export const OXYGEN_MOLAR_MASS = 0.031998;

/** Pa: what the solubility of oxygen is tabled at. */
const ATMOSPHERE = 101_325;

/**
 * Oxygen in fresh water that has stood in air.
 *
 * ln C = −139.34410 + 1.575701e5/T − 6.642308e7/T² + 1.243800e10/T³ − 8.621949e11/T⁴, times (p − p_w)/(p₀ − p_w)
 *
 * @param temperature - °C; 0 to 40
 * @param pressure - of the moist air, p, Pa; 50 000 to 120 000
 * @returns kg/m³, ±0.2 % in water; the acid and what else is dissolved lower it by some per cent, alcohol
 * changes it little at drinking strengths and raises it several times over when nearly pure (memory)
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Benson & Krause, as APHA (1985) prints it, in a public model's documentation. seen; Cargill, J. Chem.
 * Soc. Faraday Trans. 1, 72 (1976) 2296 measured it in ethanol and water. memory
 *
 * @example
 * oxygenSolubility(20, 101325); // 9.09e-3 kg/m³
 */
export function oxygenSolubility(temperature: number, pressure: number): number {
  inRange("temperature", temperature, OXYGEN_LIMITS.temperature);
  inRange("pressure", pressure, OXYGEN_LIMITS.pressure);
  const perKelvin = 1 / (temperature + 273.15);
  const milligramsPerLitre = Math.exp(
    -139.3441 +
      perKelvin *
        (1.575701e5 +
          perKelvin * (-6.642308e7 + perKelvin * (1.2438e10 - perKelvin * 8.621949e11))),
  );
  const vapour = saturationPressure(temperature);
  return (1e-3 * milligramsPerLitre * (pressure - vapour)) / (ATMOSPHERE - vapour);
}

/** A closed bottle, filled in air. */
export interface ClosedBottle {
  /** of air, m³ */
  readonly headspaceVolume: number;
  /** m³ */
  readonly liquidVolume: number;
  /** when it was closed, °C */
  readonly temperature: number;
  /** when it was closed, Pa */
  readonly pressure: number;
}

/** Oxygen in a bottle, and the acid that it can take. */
export interface BottleOxygen {
  /** in the headspace, mol */
  readonly oxygenMoles: number;
  /** in the liquid, mol */
  readonly dissolvedOxygenMoles: number;
  /** kg: `value` and `low` one acid for each oxygen, `high` two */
  readonly acidOxidised: Banded;
  /** of the acid there is; never above 1 */
  readonly shareOxidised: Banded;
}

/**
 * The most acid that the oxygen closed in a bottle can take.
 *
 * Headspace: n = 0.2095 p V/(R T), dry air (the vapour in it would take 2 % off at 20 °C). Liquid: full of air,
 * as fresh water would be. One molecule of oxygen takes one of acid and leaves a peroxide; the peroxide can
 * take a second.
 *
 * @param bottle - headspace and liquid 0 to 0.02 m³; 0 to 40 °C; 50 000 to 120 000 Pa
 * @param ascorbicAcidMass - in the bottle, kg; 1 mg to 20 kg
 * @returns mol, kg and shares, the acid's no more than there is
 * @throws OutOfRangeError outside those ranges, NaN included: a headspace below nothing is an overfull bottle
 * @remarks A bound only while nothing leaks and no bottle is opened: every opening brings new air, and plastic
 * walls let oxygen in. It says nothing of the loss without oxygen, which goes on. Bubbles still in the liquid
 * belong to the headspace.
 * Source: ideal gas. memory; two for one through the peroxide: a wine chemistry note. seen
 *
 * @example
 * const bottle = { headspaceVolume: 20e-6, liquidVolume: 250e-6, temperature: 20, pressure: 101325 };
 * headspaceOxygen(bottle, 0.025).shareOxidised; // { value: 0.0017, low: 0.0017, high: 0.0035 }
 */
export function headspaceOxygen(bottle: ClosedBottle, ascorbicAcidMass: number): BottleOxygen {
  const { headspaceVolume, liquidVolume, temperature, pressure } = bottle;
  inRange("headspaceVolume", headspaceVolume, OXYGEN_LIMITS.headspaceVolume);
  inRange("liquidVolume", liquidVolume, OXYGEN_LIMITS.liquidVolume);
  inRange("ascorbicAcidMass", ascorbicAcidMass, OXYGEN_LIMITS.ascorbicAcidMass);
  const dissolvedOxygenMoles =
    (oxygenSolubility(temperature, pressure) * liquidVolume) / OXYGEN_MOLAR_MASS;
  const oxygenMoles =
    (OXYGEN_SHARE * pressure * headspaceVolume) / (GAS_CONSTANT * (temperature + 273.15));
  const oneForOne = (oxygenMoles + dissolvedOxygenMoles) * ASCORBIC_ACID_MOLAR_MASS;
  const one = Math.min(oneForOne, ascorbicAcidMass);
  const two = Math.min(2 * oneForOne, ascorbicAcidMass);
  return {
    oxygenMoles,
    dissolvedOxygenMoles,
    acidOxidised: { value: one, low: one, high: two },
    shareOxidised: {
      value: one / ascorbicAcidMass,
      low: one / ascorbicAcidMass,
      high: two / ascorbicAcidMass,
    },
  };
}
