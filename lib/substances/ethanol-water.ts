import { inRange } from "../errors.ts";
import { monotoneCubic } from "../numeric/interpolate.ts";
import { newtonBracketed } from "../numeric/root.ts";

/** Where each formula holds. */
export const ETHANOL_WATER_LIMITS = {
  massFraction: { min: 0, max: 1, unit: "1" },
  strength: { min: 0, max: 1, unit: "1" },
  temperature: { min: -20, max: 40, unit: "°C" },
  referenceTemperature: { min: 0, max: 40, unit: "°C" },
  moleFraction: { min: 0, max: 1, unit: "1" },
  viscosityTemperature: { min: 0, max: 60, unit: "°C" },
  heatCapacityTemperature: { min: 3, max: 41, unit: "°C" },
  excessEnthalpyTemperature: { min: 25, max: 110, unit: "°C" },
} as const;

/** kg/mol. IUPAC atomic weights. memory (ethanol 46.07 seen) */
export const MOLAR_MASS = { ethanol: 0.046068, water: 0.018015 } as const;

/**
 * Coefficients of the general formula of OIML R 22 (1975), also in Council Directive 76/766/EEC. seen
 * A in kg/m³ by powers of the mass fraction; B by powers of (t − 20 °C); C[i − 1] by powers of the mass
 * fraction, from the first, for (t − 20 °C)^i.
 */
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

/**
 * Freezing points by mass fraction of ethanol, °C, down to where the density formula ends.
 * CRC Handbook, concentrative properties of aqueous solutions. memory
 */
const FREEZING: readonly (readonly [massFraction: number, temperature: number])[] = [
  [0, 0],
  [0.01, -0.4],
  [0.02, -0.81],
  [0.03, -1.23],
  [0.04, -1.65],
  [0.05, -2.09],
  [0.06, -2.54],
  [0.07, -2.99],
  [0.08, -3.47],
  [0.09, -3.96],
  [0.1, -4.47],
  [0.12, -5.56],
  [0.14, -6.73],
  [0.16, -8.01],
  [0.18, -9.4],
  [0.2, -10.92],
  [0.22, -12.6],
  [0.24, -14.47],
  [0.26, -16.41],
  [0.28, -18.43],
  [0.3, -20.47],
];

/** The mass fraction at which the mixture would freeze at −20 °C, where the density formula begins. */
const FREEZES_AT_LOWEST = 0.295394;

/**
 * The temperature at which ice begins to form in a mixture.
 *
 * @param massFraction - ethanol, 0 to 0.295; a stronger mixture freezes below −20 °C
 * @returns °C, straight between the points of the table
 * @throws OutOfRangeError outside that range, NaN included
 * Source: CRC Handbook, concentrative properties of aqueous solutions, ethanol. memory
 */
export function freezingPoint(massFraction: number): number {
  inRange("massFraction", massFraction, { min: 0, max: FREEZES_AT_LOWEST, unit: "1" });
  return freezingLine(massFraction);
}

function freezingLine(massFraction: number): number {
  for (let i = 1; i < FREEZING.length; i++) {
    const [w0, t0] = FREEZING[i - 1] as readonly [number, number];
    const [w1, t1] = FREEZING[i] as readonly [number, number];
    if (massFraction <= w1) return t0 + ((t1 - t0) * (massFraction - w0)) / (w1 - w0);
  }
  return -Infinity;
}

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + (coefficients[i] as number);
  return sum;
}

function slopeOf(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i > 0; i--) sum = sum * x + i * (coefficients[i] as number);
  return sum;
}

/** The formula itself, unchecked. */
function formula(p: number, t: number): number {
  const d = t - 20;
  let sum = polynomial(A, p);
  if (d === 0) return sum;
  // Horner's rule in d as in p: six powers of B, five of C.
  let b = 0;
  for (let k = 5; k >= 0; k--) b = (b + (B[k] as number)) * d;
  let c = 0;
  for (let i = 4; i >= 0; i--) c = (c + polynomial(C[i] as readonly number[], p)) * d;
  sum += b + p * c;
  return sum;
}

/** Slope of the formula in p, unchecked. */
function formulaSlope(p: number, t: number): number {
  const d = t - 20;
  const sum = slopeOf(A, p);
  if (d === 0) return sum;
  let c = 0;
  for (let i = 4; i >= 0; i--) {
    const row = C[i] as readonly number[];
    c = (c + polynomial(row, p) + p * slopeOf(row, p)) * d;
  }
  return sum + c;
}

/**
 * Density of a mixture of ethanol and water: OIML R 22, general formula.
 *
 * ρ = A₁ + Σ A_k p^(k−1) + Σ B_k (t−20)^k + Σ Σ C_ik p^k (t−20)^i
 *
 * @param massFraction - ethanol, 0 to 1
 * @param temperature - °C, −20 to 40, and not below the mixture's freezing point
 * @returns kg/m³ at 101 325 Pa
 * @throws OutOfRangeError outside those ranges, NaN included; for a frozen mixture its limits start at the
 * freezing point
 * @remarks The table's own uncertainty is below 0.02 kg/m³. The formula's water is a few 1e-3 kg/m³ from
 * Tanaka's: keep to one of them inside a balance.
 * Source: OIML R 22 (1975); Council Directive 76/766/EEC, Annex. seen
 *
 * @example
 * density(0.333, 20); // 948.05 kg/m³, a spirit of 40 % vol
 */
export function density(massFraction: number, temperature: number): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  inRange("temperature", temperature, ETHANOL_WATER_LIMITS.temperature);
  if (temperature < 0) {
    const freezing = freezingLine(massFraction);
    if (temperature < freezing)
      inRange("temperature", temperature, {
        ...ETHANOL_WATER_LIMITS.temperature,
        min: freezing,
      });
  }
  return formula(massFraction, temperature);
}

/**
 * Strength by volume from mass fraction: φ = p ρ(p, t₀) / ρ(1, t₀).
 *
 * @param massFraction - ethanol, 0 to 1
 * @param referenceTemperature - °C at which volumes are counted, 0 to 40; 20 in most countries, 15.56 in
 * the United States
 * @returns volume of pure ethanol over volume of the mixture, both at that temperature, 0 to 1
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: OIML R 22 (1975), section 4. seen
 */
export function strength(massFraction: number, referenceTemperature = 20): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  inRange("referenceTemperature", referenceTemperature, ETHANOL_WATER_LIMITS.referenceTemperature);
  return (
    (massFraction * formula(massFraction, referenceTemperature)) / formula(1, referenceTemperature)
  );
}

/**
 * Mass fraction from strength by volume: the inverse of {@link strength}, by Newton's method to 1e-14.
 *
 * @param strength - by volume at the reference temperature, 0 to 1
 * @param referenceTemperature - °C, 0 to 40
 * @returns kg of ethanol per kg of mixture, 0 to 1
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function massFraction(strength: number, referenceTemperature = 20): number {
  inRange("strength", strength, ETHANOL_WATER_LIMITS.strength);
  inRange("referenceTemperature", referenceTemperature, ETHANOL_WATER_LIMITS.referenceTemperature);
  if (strength === 0 || strength === 1) return strength;
  const t0 = referenceTemperature;
  const wanted = strength * formula(1, t0);
  // p ρ(p) rises smoothly with p, so Newton's steps stay inside after a fair first guess.
  const guess = strength * (0.795 + 0.205 * strength * strength);
  return newtonBracketed(
    (p) => {
      const rho = formula(p, t0);
      return [p * rho - wanted, rho + p * formulaSlope(p, t0)];
    },
    0,
    1,
    1e-14,
    guess,
  );
}

/**
 * Mass fraction from a measured density.
 *
 * @param density - kg/m³, between that of pure ethanol and that of water at the temperature (below 0 °C:
 * of the weakest mixture that is still liquid)
 * @param temperature - °C, −20 to 40
 * @returns kg of ethanol per kg of mixture, 0 to 1
 * @throws OutOfRangeError outside those ranges, NaN included; the density's limits are those at this
 * temperature
 */
export function massFractionFromDensity(density: number, temperature: number): number {
  inRange("temperature", temperature, ETHANOL_WATER_LIMITS.temperature);
  const weakest = temperature < 0 ? weakestLiquid(temperature) : 0;
  const limits = {
    min: formula(1, temperature),
    max: formula(weakest, temperature),
    unit: "kg/m³",
  };
  inRange("density", density, limits);
  return newtonBracketed(
    (p) => [density - formula(p, temperature), -formulaSlope(p, temperature)],
    weakest,
    1,
    1e-14,
  );
}

/** The mass fraction whose freezing point is this temperature. */
function weakestLiquid(temperature: number): number {
  for (let i = 1; i < FREEZING.length; i++) {
    const [w0, t0] = FREEZING[i - 1] as readonly [number, number];
    const [w1, t1] = FREEZING[i] as readonly [number, number];
    if (temperature >= t1) return w0 + ((w1 - w0) * (temperature - t0)) / (t1 - t0);
  }
  return 1;
}

const TENTHS = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];

/** Viscosity by tenths of mass fraction, mPa s, at each temperature. Bingham and Jackson (1917). seen */
const VISCOSITY = (
  [
    [0, [1.792, 3.311, 5.319, 6.94, 7.14, 6.58, 5.75, 4.762, 3.69, 2.732, 1.773]],
    [20, [1.005, 1.538, 2.183, 2.71, 2.91, 2.87, 2.67, 2.37, 2.008, 1.61, 1.2]],
    [40, [0.656, 0.907, 1.16, 1.368, 1.482, 1.499, 1.447, 1.344, 1.203, 1.035, 0.834]],
    [60, [0.469, 0.609, 0.736, 0.834, 0.893, 0.913, 0.902, 0.856, 0.789, 0.704, 0.592]],
  ] as const
).map(([temperature, row]) => ({
  temperature,
  logarithm: monotoneCubic(
    TENTHS,
    row.map((value) => Math.log(value * 1e-3)),
  ),
}));

/**
 * Viscosity of a mixture of ethanol and water.
 *
 * The logarithm of the table is interpolated: by mass fraction along a shape-preserving cubic, by
 * temperature along the cubic through the table's four temperatures.
 *
 * @param massFraction - ethanol, 0 to 1
 * @param temperature - °C, 0 to 60
 * @returns Pa s, good to about 3 %; other tables differ by up to 5 % for pure ethanol
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Bingham and Jackson, US Bureau of Standards (1917), abridged. seen
 */
export function viscosity(massFraction: number, temperature: number): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  inRange("temperature", temperature, ETHANOL_WATER_LIMITS.viscosityTemperature);
  let sum = 0;
  for (const here of VISCOSITY) {
    let weight = 1;
    for (const other of VISCOSITY)
      if (other !== here)
        weight *= (temperature - other.temperature) / (here.temperature - other.temperature);
    sum += weight * here.logarithm(massFraction);
  }
  return Math.exp(sum);
}

/** kJ/(kg K) by mass fraction: water from IAPWS SR6-08, mixtures and ethanol from Perry, in cal/(g K). */
const CALORIE = 4184;
const HEAT_MASS_FRACTIONS = [0, 0.0999, 0.2494, 0.6003, 0.8, 1];
const HEAT_CAPACITY = (
  [
    [3, [1.0082, 1.05, 1.02, 0.805, 0.67, 0.54]],
    [23, [0.9997, 1.02, 1.03, 0.86, 0.727, 0.577]],
    [41, [0.9989, 1.02, 1.03, 0.875, 0.748, 0.621]],
  ] as const
).map(([temperature, row]) => ({
  temperature,
  curve: monotoneCubic(
    HEAT_MASS_FRACTIONS,
    row.map((value) => value * CALORIE),
  ),
}));

/**
 * Specific heat capacity of a mixture of ethanol and water.
 *
 * Interpolated in a measured table: straight in temperature, along a shape-preserving cubic in mass
 * fraction. It is above water's own up to about a third of ethanol. The other way, pure liquids plus the
 * slope of the excess enthalpy with temperature, gives up to 6 % more between 10 and 25 % mass; the
 * measured table is taken because the slope of a fit is less sure than a measurement.
 *
 * @param massFraction - ethanol, 0 to 1
 * @param temperature - °C, 3 to 41
 * @returns J/(kg K), good to about 4 %
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Perry, Chemical Engineers' Handbook, specific heats of aqueous solutions. memory
 */
export function heatCapacity(massFraction: number, temperature: number): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  inRange("temperature", temperature, ETHANOL_WATER_LIMITS.heatCapacityTemperature);
  const [cold, middle, warm] = HEAT_CAPACITY as [
    (typeof HEAT_CAPACITY)[number],
    (typeof HEAT_CAPACITY)[number],
    (typeof HEAT_CAPACITY)[number],
  ];
  const [a, b] = temperature <= middle.temperature ? [cold, middle] : [middle, warm];
  const share = (temperature - a.temperature) / (b.temperature - a.temperature);
  return (1 - share) * a.curve(massFraction) + share * b.curve(massFraction);
}

/** [power of x, constant, T, T²] of Larkin's sum, J/mol. seen (in a stored copy) */
const LARKIN = [
  [0, -363868, 1838.29, -2.32763],
  [0.5, 925982, -4835.86, 6.37228],
  [1.5, -1404894, 7516.61, -10.1128],
  [2.5, 1091318, -5894.98, 7.98868],
  [4.5, -279986, 1505.57, -2.03127],
] as const;

/**
 * Heat taken up when a mole of mixture is made from its pure liquids; negative where heat comes out.
 *
 * @param moleFraction - ethanol, 0 to 1
 * @param temperature - °C, 25 to 110
 * @returns J/mol of mixture; calorimetry by others differs by 10 to 15 %
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Larkin, J. Chem. Thermodyn. 7 (1975) 137–148. seen (coefficients, in a stored copy)
 */
export function excessEnthalpy(moleFraction: number, temperature: number): number {
  inRange("moleFraction", moleFraction, ETHANOL_WATER_LIMITS.moleFraction);
  inRange("temperature", temperature, ETHANOL_WATER_LIMITS.excessEnthalpyTemperature);
  const kelvin = temperature + 273.15;
  let sum = 0;
  for (const [power, constant, linear, square] of LARKIN)
    sum += (constant + linear * kelvin + square * kelvin * kelvin) * moleFraction ** power;
  return moleFraction * (1 - moleFraction) * sum;
}

/**
 * Mole fraction from mass fraction.
 * @param massFraction - ethanol, 0 to 1
 * @throws OutOfRangeError outside 0 to 1, NaN included
 */
export function moleFraction(massFraction: number): number {
  inRange("massFraction", massFraction, ETHANOL_WATER_LIMITS.massFraction);
  const ethanol = massFraction / MOLAR_MASS.ethanol;
  return ethanol / (ethanol + (1 - massFraction) / MOLAR_MASS.water);
}
