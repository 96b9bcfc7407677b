import { inRange } from "../errors.ts";
import { naturalSpline } from "../numeric/interpolate.ts";
import { newtonBracketed } from "../numeric/root.ts";
import { heatCapacity as heatCapacityOfWater } from "./water.ts";

// The general formula's coefficients as printed, lowest power first. Public copies carry other C sets,
// which pass every check at 20 °C: the tests vary strength and temperature together.
const A = [
  998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388, 306287.4042,
  -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426,
] as const;
const B = [
  -0.20618513, -0.0052682542, 3.6130013e-5, -3.8957702e-7, 7.169354e-9, -9.9739231e-11,
] as const;
const C = [
  [
    0.1693443461530087, -10.46914743455169, 71.96353469546523, -704.7478054272792,
    3924.090430035045, -12101.64659068747, 22486.46550400788, -26055.62982188164, 18523.73922069467,
    -7420.201433430137, 1285.617841998974,
  ],
  [
    -0.0119301300505701, 0.2517399633803461, -2.170575700536993, 13.53034988843029,
    -50.29988758547014, 109.635566657757, -142.2753946421155, 108.043594285623, -44.14153236817392,
    7.442971530188783,
  ],
  [
    -0.0006802995733503803, 0.01876837790289664, -0.2002561813734156, 1.02299296671922,
    -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461,
    -0.5411227621436812,
  ],
  [4.075376675622027e-6, -8.76305857347111e-6, 6.515031360099368e-6, -1.51578483698721e-6],
  [-2.788074354782409e-8, 1.345612883493354e-8],
] as const;

/** Powers of t − 20 from 6 down to 0. */
const WIDTH = 7;
/**
 * The same numbers, one row for each power of the mass fraction from 11 down to 0, each row a polynomial in
 * t − 20 with its highest power first: the order that Horner's rule takes them in. Flat and typed because
 * draws by the hundred thousand go through it.
 */
const TABLE = new Float64Array(
  A.map((a, power) => (power === 0 ? [a, ...B] : [a, ...C.map((row) => row[power - 1] ?? 0), 0]))
    .reverse()
    .flatMap((row) => row.reverse()),
);

/** Mass %, freezing point °C. CRC Handbook, Concentrative properties of aqueous solutions: ethanol. memory */
const FREEZING = [
  [0, 0],
  [1, -0.4],
  [2, -0.81],
  [3, -1.23],
  [4, -1.65],
  [5, -2.09],
  [6, -2.54],
  [7, -2.99],
  [8, -3.47],
  [9, -3.96],
  [10, -4.47],
  [12, -5.56],
  [14, -6.73],
  [16, -8.01],
  [18, -9.4],
  [20, -10.92],
  [22, -12.6],
  [24, -14.47],
  [26, -16.41],
  [28, -18.43],
  [30, -20.47],
] as const;

const COLDEST = -20;

/** Where the functions of this file hold. The form reads the same object, so page and function cannot disagree. */
export const ETHANOL_WATER_LIMITS = {
  massFraction: { min: 0, max: 1, unit: "1" },
  moleFraction: { min: 0, max: 1, unit: "1" },
  strength: { min: 0, max: 1, unit: "1" },
  temperature: { min: COLDEST, max: 40, unit: "°C" },
  /** Not below 0 °C: there every strength is liquid, so every strength has a volume to count by. */
  referenceTemperature: { min: 0, max: 40, unit: "°C" },
} as const;

/** Up to the mass fraction that freezes at −20 °C, where the density formula ends. */
export const FREEZING_LIMITS = {
  massFraction: { min: 0, max: weakestLiquid(COLDEST), unit: "1" },
} as const;

/** Where the viscosity table ends. */
export const VISCOSITY_LIMITS = {
  massFraction: ETHANOL_WATER_LIMITS.massFraction,
  temperature: { min: 0, max: 60, unit: "°C" },
} as const;

/** From where the heat capacity table begins to where the excess may still be held: see {@link heatCapacity}. */
export const HEAT_CAPACITY_LIMITS = {
  massFraction: ETHANOL_WATER_LIMITS.massFraction,
  temperature: { min: 3, max: 60, unit: "°C" },
} as const;

/** Where the excess enthalpy was measured. */
export const EXCESS_ENTHALPY_LIMITS = {
  moleFraction: ETHANOL_WATER_LIMITS.moleFraction,
  temperature: { min: 25, max: 110, unit: "°C" },
} as const;

/** kg/mol. Source: IUPAC standard atomic weights. memory */
export const MOLAR_MASS = { ethanol: 0.046068, water: 0.018015 } as const;

/** Relative half-width of the band of {@link viscosity}. */
export const VISCOSITY_SPREAD = 0.03;

/** Relative half-width of the band of {@link heatCapacity} up to 41 °C, where its table ends. */
export const HEAT_CAPACITY_SPREAD = 0.04;

/**
 * Density of a mixture of ethanol and water.
 *
 * ρ(p, t) is the general formula of the International Alcoholometric Tables: 54 coefficients, powers of p
 * up to 11 and of t − 20 up to 6.
 *
 * @param massFraction - ethanol in ethanol + water, p, 0 to 1
 * @param temperature - °C; −20 to 40, and not below the freezing point of that mixture
 * @returns kg/m³, true density (not as weighed in air)
 * @throws OutOfRangeError outside those ranges, NaN included; for a frozen mixture (quantity "temperature")
 * the least that is allowed is its freezing point
 * @remarks Falls with p at every temperature. Its temperature scale is that of 1968 (memory): 5 mK from
 * today's at 20 °C, 0.004 kg/m³ for ethanol. Its water end is up to 0.008 kg/m³ from `water.ts`: use one
 * of them throughout a balance.
 * Source: OIML R 22 (1975), general formula; also Council Directive 76/766/EEC, Annex, OJ L 262 (1976)
 * 149–152. seen (A1–A4, B1–B4 in the Directive; all 54 in several stored copies that agree)
 *
 * @example
 * density(0.5, 20); // 913.77 kg/m³
 */
export function density(massFraction: number, temperature: number): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  inRange("temperature", temperature, ETHANOL_WATER_LIMITS.temperature);
  if (temperature < 0 && massFraction < FREEZING_LIMITS.massFraction.max)
    inRange("temperature", temperature, {
      ...ETHANOL_WATER_LIMITS.temperature,
      min: freezingPoint(massFraction),
    });
  return generalFormula(massFraction, temperature);
}

/**
 * The densities that mixtures of ethanol and water have at a temperature: from pure ethanol to water, or
 * below 0 °C to the weakest mixture that is still liquid.
 *
 * @param temperature - °C; −20 to 40
 * @returns kg/m³
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link density} and {@link freezingPoint}
 */
export function densityRange(temperature: number): { readonly min: number; readonly max: number } {
  inRange("temperature", temperature, ETHANOL_WATER_LIMITS.temperature);
  return {
    min: generalFormula(1, temperature),
    max: generalFormula(weakestLiquid(temperature), temperature),
  };
}

/**
 * Mass fraction from density, the inverse of {@link density}.
 *
 * @param density - true, kg/m³; within {@link densityRange}
 * @param temperature - °C; −20 to 40
 * @returns ethanol in ethanol + water, 0 to 1, to 1e-12
 * @throws OutOfRangeError outside those ranges, NaN included: a liquid denser than water holds something else
 * Source: as {@link density}
 */
export function massFractionFromDensity(density: number, temperature: number): number {
  const range = densityRange(temperature);
  const nearest = Math.min(Math.max(density, range.min), range.max);
  const wanted = Math.abs(density - nearest) < ROUNDING ? nearest : density;
  inRange("density", wanted, { ...range, unit: "kg/m³" });
  const polynomial = inMassFraction(temperature);
  const low = weakestLiquid(temperature);
  return newtonBracketed(
    (p) => {
      const [value, slope] = valueAndSlope(polynomial, p);
      return [value - wanted, slope];
    },
    low,
    1,
    SOLVED,
    low + ((1 - low) * (range.max - wanted)) / (range.max - range.min),
  );
}

/**
 * Strength by volume: the volume of the ethanol, alone, over the volume of the mixture.
 *
 * φ = p ρ(p, t₀) / ρ(1, t₀)
 *
 * @param massFraction - ethanol in ethanol + water, p, 0 to 1
 * @param referenceTemperature - both volumes are taken at it, °C; 0 to 40. 20 °C in most countries, 60 °F
 * (15.56 °C) in the United States
 * @returns 0 to 1; multiply by 100 for % vol
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: OIML R 22 (1975); Council Directive 76/766/EEC, Annex, section 4. seen
 *
 * @example
 * strength(0.333); // 0.4
 */
export function strength(massFraction: number, referenceTemperature = 20): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  inRange("referenceTemperature", referenceTemperature, ETHANOL_WATER_LIMITS.referenceTemperature);
  const ethanol = massFraction * generalFormula(massFraction, referenceTemperature);
  // Next to 1 rounding may carry it past.
  return Math.min(ethanol / generalFormula(1, referenceTemperature), 1);
}

/**
 * Mass fraction from strength by volume, the inverse of {@link strength}. 0 and 1 come back exactly.
 *
 * @param strength - by volume at the reference temperature, 0 to 1
 * @param referenceTemperature - °C; 0 to 40
 * @returns ethanol in ethanol + water, 0 to 1, to 1e-12
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link strength}
 *
 * @example
 * massFraction(0.4); // 0.333
 */
export function massFraction(strength: number, referenceTemperature = 20): number {
  inRange("strength", strength, ETHANOL_WATER_LIMITS.strength);
  inRange("referenceTemperature", referenceTemperature, ETHANOL_WATER_LIMITS.referenceTemperature);
  const polynomial = inMassFraction(referenceTemperature);
  // Mass of ethanol in each volume of mixture, kg/m³: what has to come out.
  const wanted = strength * generalFormula(1, referenceTemperature);
  return newtonBracketed(
    (p) => {
      const [value, slope] = valueAndSlope(polynomial, p);
      return [p * value - wanted, value + p * slope];
    },
    0,
    1,
    SOLVED,
    // A parabola through the densities at 20 °C: within 0.01, so four steps do.
    wanted / (998 - 97 * strength - 112 * strength ** 2),
  );
}

/** Tolerance of the inverses, as mass fraction. */
const SOLVED = 1e-12;
/** The formula's large terms cancel near pure ethanol and leave this much noise, kg/m³. */
const ROUNDING = 1e-9;

function generalFormula(p: number, temperature: number): number {
  const t = temperature - 20;
  let density = 0;
  for (let i = 0; i < TABLE.length; i += WIDTH) density = density * p + coefficient(i, t);
  return density;
}

/** The general formula at one temperature, a polynomial in the mass fraction, highest power first. */
function inMassFraction(temperature: number): readonly number[] {
  const t = temperature - 20;
  const polynomial: number[] = [];
  for (let i = 0; i < TABLE.length; i += WIDTH) polynomial.push(coefficient(i, t));
  return polynomial;
}

/** Horner's rule for a polynomial, highest power first, and its derivative. */
function valueAndSlope(
  polynomial: readonly number[],
  x: number,
): readonly [value: number, slope: number] {
  let value = 0;
  let slope = 0;
  for (const a of polynomial) {
    slope = slope * x + value;
    value = value * x + a;
  }
  return [value, slope];
}

/** One row of the table at t − 20, written out: a loop here halves the speed. */
function coefficient(i: number, t: number): number {
  const at = (k: number): number => TABLE[i + k] as number;
  return (((((at(0) * t + at(1)) * t + at(2)) * t + at(3)) * t + at(4)) * t + at(5)) * t + at(6);
}

/**
 * Freezing point: where the first ice appears on cooling.
 *
 * @param massFraction - ethanol in ethanol + water; 0 to 0.2954, which freezes at −20 °C. Stronger mixtures
 * freeze below −20 °C, out of the density formula's range
 * @returns °C, straight between the points of the table, ±0.1
 * @throws OutOfRangeError outside that range, NaN included
 * Source: CRC Handbook of Chemistry and Physics, Concentrative properties of aqueous solutions. memory
 */
export function freezingPoint(massFraction: number): number {
  inRange("massFraction", massFraction, FREEZING_LIMITS.massFraction);
  let [percent, point]: readonly [number, number] = FREEZING[0];
  for (const [nextPercent, nextPoint] of FREEZING) {
    if (massFraction * 100 <= nextPercent && nextPercent > percent)
      return (
        point + ((massFraction * 100 - percent) / (nextPercent - percent)) * (nextPoint - point)
      );
    [percent, point] = [nextPercent, nextPoint];
  }
  return point;
}

/** Least mass fraction that is liquid at a temperature from −20 °C up. */
function weakestLiquid(temperature: number): number {
  if (temperature >= 0) return 0;
  let [percent, point]: readonly [number, number] = FREEZING[0];
  for (const [nextPercent, nextPoint] of FREEZING) {
    if (nextPoint <= temperature)
      return (
        (percent + ((temperature - point) / (nextPoint - point)) * (nextPercent - percent)) / 100
      );
    [percent, point] = [nextPercent, nextPoint];
  }
  return percent / 100;
}

/**
 * Mole fraction of ethanol.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @returns 0 to 1
 * @throws OutOfRangeError outside 0 to 1, NaN included
 */
export function moleFraction(massFraction: number): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  const ethanol = massFraction / MOLAR_MASS.ethanol;
  return ethanol / (ethanol + (1 - massFraction) / MOLAR_MASS.water);
}

/**
 * Mass fraction from the mole fraction of ethanol, the inverse of {@link moleFraction}.
 *
 * @param moleFraction - 0 to 1
 * @returns 0 to 1
 * @throws OutOfRangeError outside 0 to 1, NaN included
 */
export function massFractionFromMoleFraction(moleFraction: number): number {
  inRange("moleFraction", moleFraction, ETHANOL_WATER_LIMITS.moleFraction);
  const ethanol = moleFraction * MOLAR_MASS.ethanol;
  return ethanol / (ethanol + (1 - moleFraction) * MOLAR_MASS.water);
}

/** °C, then mPa s at 0, 10, … 100 % mass. */
const VISCOSITIES = [
  [0, [1.792, 3.311, 5.319, 6.94, 7.14, 6.58, 5.75, 4.762, 3.69, 2.732, 1.773]],
  [20, [1.005, 1.538, 2.183, 2.71, 2.91, 2.87, 2.67, 2.37, 2.008, 1.61, 1.2]],
  [40, [0.656, 0.907, 1.16, 1.368, 1.482, 1.499, 1.447, 1.344, 1.203, 1.035, 0.834]],
  [60, [0.469, 0.609, 0.736, 0.834, 0.893, 0.913, 0.902, 0.856, 0.789, 0.704, 0.592]],
] as const;

const LOG_VISCOSITIES = VISCOSITIES.map(([temperature, values]) => ({
  perKelvin: 1 / (temperature + 273.15),
  at: naturalSpline(values.map((value, i) => [i / 10, Math.log(value / 1000)])),
}));

/**
 * Viscosity of a mixture of ethanol and water.
 *
 * The logarithm of the table's values, by a natural cubic spline in the mass fraction and a cubic in 1/T.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 0 to 60
 * @returns Pa s, ±3 % ({@link VISCOSITY_SPREAD}); greatest near 45 % mass, 4 times water's at 0 °C
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Later tables lie 4 to 7 % lower from 60 to 80 % mass (memory): there the band is the table's own,
 * not what all authors agree on.
 * Source: Bingham & Jackson, Viscosity of alcohol–water mixtures, US Bureau of Standards (1917), abridged.
 * seen
 *
 * @example
 * viscosity(0.4, 20); // 0.00291 Pa s
 */
export function viscosity(massFraction: number, temperature: number): number {
  inRange("massFraction", massFraction, VISCOSITY_LIMITS.massFraction);
  inRange("temperature", temperature, VISCOSITY_LIMITS.temperature);
  const perKelvin = 1 / (temperature + 273.15);
  let log = 0;
  for (const node of LOG_VISCOSITIES) {
    let weight = 1;
    for (const other of LOG_VISCOSITIES)
      if (other !== node)
        weight *= (perKelvin - other.perKelvin) / (node.perKelvin - other.perKelvin);
    log += weight * node.at(massFraction);
  }
  return Math.exp(log);
}

/** cal to J, thermochemical. */
const CALORIE = 4.184;
/** Mole fractions of the table's columns. */
const HEAT_CAPACITY_COLUMNS = [0.0416, 0.115, 0.37, 0.61, 1] as const;
/**
 * °C, then water's heat capacity in J/(kg K), which the table lacks, then the table in cal/(g K).
 * Water: IAPWS SR6-08 (2011), between the computed values at 0, 10, 20, 25 and 40 °C. seen
 */
const HEAT_CAPACITIES = [
  [3, 4210, [1.05, 1.02, 0.805, 0.67, 0.54]],
  [23, 4182, [1.02, 1.03, 0.86, 0.727, 0.577]],
  [41, 4179, [1.02, 1.03, 0.875, 0.748, 0.621]],
] as const;

const HEAT_CAPACITY_CURVES = HEAT_CAPACITIES.map(([temperature, water, values]) => ({
  temperature,
  at: naturalSpline([
    [0, water],
    ...values.map((value, i): [number, number] => [
      massFractionFromMoleFraction(HEAT_CAPACITY_COLUMNS[i] ?? Number.NaN),
      value * CALORIE * 1000,
    ]),
  ]),
}));

/**
 * Heat capacity of a mixture of ethanol and water at constant pressure.
 *
 * Measured values up to 41 °C, by a natural cubic spline in the mass fraction and straight lines in the
 * temperature. Above, the value at 41 °C and what the pure liquids gain from there, weighted by mass: the
 * excess is held. The other way, weighting the pure liquids and adding the slope of {@link excessEnthalpy},
 * was tried and left: from 30 % mass up it agrees within 4 %, but that slope is steep in the dilute end,
 * where the smoothing formula was not made to be differentiated, and it comes out 6 % high at 10 % mass.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 3 to 60
 * @returns J/(kg K), ±4 % up to 41 °C, ±6 % at 60 °C ({@link heatCapacitySpread}). Above water's up to about
 * 36 % mass (28 % at 3 °C); a mass-weighted mean of the pure liquids is up to 15 % too low
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Perry's Chemical Engineers' Handbook, specific heats of aqueous solutions, ethyl alcohol. seen (in a
 * stored copy). The 36 %: Dupré & Page, Proc. R. Soc. 16 (1868) 337. seen (abstract). Above 41 °C: as
 * {@link ethanolHeatCapacity} and IAPWS SR6-08 (2011). seen
 *
 * @example
 * heatCapacity(0.25, 23); // 4309 J/(kg K)
 */
export function heatCapacity(massFraction: number, temperature: number): number {
  inRange("massFraction", massFraction, HEAT_CAPACITY_LIMITS.massFraction);
  inRange("temperature", temperature, HEAT_CAPACITY_LIMITS.temperature);
  const [cold, mild, warm] = HEAT_CAPACITY_CURVES as [Curve, Curve, Curve];
  if (temperature > warm.temperature)
    return (
      warm.at(massFraction) +
      massFraction * (ethanolHeatCapacity(temperature) - ethanolHeatCapacity(warm.temperature)) +
      (1 - massFraction) *
        (heatCapacityOfWater(temperature) - heatCapacityOfWater(warm.temperature))
    );
  const [below, above] = temperature < mild.temperature ? [cold, mild] : [mild, warm];
  const share = (temperature - below.temperature) / (above.temperature - below.temperature);
  return (1 - share) * below.at(massFraction) + share * above.at(massFraction);
}

/**
 * Relative half-width of the band of {@link heatCapacity}.
 *
 * @param temperature - °C; 3 to 60
 * @returns {@link HEAT_CAPACITY_SPREAD} up to 41 °C, from there rising to 0.06 at 60 °C: the slope of
 * {@link excessEnthalpy} loses up to 2.5 % of the heat capacity on the way, which is held here
 * @throws OutOfRangeError outside that range, NaN included
 */
export function heatCapacitySpread(temperature: number): number {
  const { temperature: limits } = HEAT_CAPACITY_LIMITS;
  inRange("temperature", temperature, limits);
  const { temperature: end } = HEAT_CAPACITY_CURVES.at(-1) as Curve;
  const beyond = Math.max(temperature - end, 0) / (limits.max - end);
  return HEAT_CAPACITY_SPREAD + 0.02 * beyond;
}

/**
 * Heat capacity of pure liquid ethanol at constant pressure.
 *
 * @param temperature - °C; 3 to 60
 * @returns J/(kg K); flow calorimetry of 2012 lies lower by a few percent (memory)
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks {@link heatCapacity} has an ethanol end of its own, up to 1 % away: use one of them throughout.
 * Source: Perry's Chemical Engineers' Handbook, heat capacities of liquids, a cubic from −114 to 117 °C. seen
 * (in the data of a public library)
 *
 * @example
 * ethanolHeatCapacity(25); // 2439 J/(kg K)
 */
export function ethanolHeatCapacity(temperature: number): number {
  inRange("temperature", temperature, HEAT_CAPACITY_LIMITS.temperature);
  const kelvin = temperature + 273.15;
  // J/(kmol K).
  const molar = 102_640 + kelvin * (-139.63 + kelvin * (-0.030341 + kelvin * 2.0386e-3));
  return molar / (1000 * MOLAR_MASS.ethanol);
}

type Curve = (typeof HEAT_CAPACITY_CURVES)[number];

/** Power of x, then b, c, d of a = b + c T + d T², J/mol. */
const EXCESS_ENTHALPY = [
  [0, -363868, 1838.29, -2.32763],
  [0.5, 925982, -4835.86, 6.37228],
  [1.5, -1404894, 7516.61, -10.1128],
  [2.5, 1091318, -5894.98, 7.98868],
  [4.5, -279986, 1505.57, -2.03127],
] as const;

/**
 * Excess enthalpy: the heat taken up when a mole of mixture is made from the pure liquids. Negative where
 * mixing warms.
 *
 * H^E = x (1 − x) Σ aₘ xᵐ, m = 0, ½, 1½, 2½, 4½; aₘ = b + c T + d T²
 *
 * @param moleFraction - of ethanol, x, 0 to 1
 * @param temperature - °C; 25 to 110
 * @returns J/mol, ±15 %: published calorimetry differs by that much
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Its slope with temperature is not a good heat capacity below 30 % mass: see {@link heatCapacity}.
 * Source: Larkin, J. Chem. Thermodyn. 7 (1975) 137–148. seen (form and coefficients, in stored copies)
 *
 * @example
 * excessEnthalpy(0.15, 25); // −810 J/mol
 */
export function excessEnthalpy(moleFraction: number, temperature: number): number {
  inRange("moleFraction", moleFraction, EXCESS_ENTHALPY_LIMITS.moleFraction);
  inRange("temperature", temperature, EXCESS_ENTHALPY_LIMITS.temperature);
  const kelvin = temperature + 273.15;
  let sum = 0;
  for (const [power, b, c, d] of EXCESS_ENTHALPY)
    sum += (b + kelvin * (c + kelvin * d)) * moleFraction ** power;
  // Adding 0 turns the −0 of a pure liquid into 0.
  return moleFraction * (1 - moleFraction) * sum + 0;
}
