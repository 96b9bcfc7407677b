import { inRange, OutOfRangeError } from "../errors.ts";
import { brent, newtonBracketed } from "../numeric/root.ts";
import { AIR_DENSITY } from "../substances/air.ts";
import { STANDARD_GRAVITY } from "./gravity.ts";
import type { Banded } from "../numeric/banded.ts";

/** Where the laws are used. The form reads the same object, so page and function cannot disagree. */
export const BUBBLE_LIMITS = {
  /** Up to here surface tension keeps a bubble round: gravity's pull on it is below two fifths of the tension's. */
  bubbleDiameter: { min: 1e-7, max: 1e-3, unit: "m" },
  viscosity: { min: 1e-4, max: 100, unit: "Pa s" },
  density: { min: 1, max: 2000, unit: "kg/m³" },
  liquidDensity: { min: 500, max: 2000, unit: "kg/m³" },
  depth: { min: 0, max: 1, unit: "m" },
  reynolds: { min: 0, max: 1, unit: "1" },
  frequency: { min: 1e3, max: 1e7, unit: "Hz" },
  pressure: { min: 1e4, max: 1e6, unit: "Pa" },
  surfaceTension: { min: 0, max: 0.1, unit: "N/m" },
  polytropicExponent: { min: 1, max: 5 / 3, unit: "1" },
} as const;

/**
 * How a bubble's surface meets the liquid: `rigid`, where lecithin or dirt has covered it so that it cannot
 * slide; `mobile`, clean.
 */
export type Surface = "rigid" | "mobile";

/** A round body in a liquid. */
export interface Sphere {
  /** m */
  readonly diameter: number;
  /** kg/m³ */
  readonly density: number;
}

/** The liquid it moves in. */
export interface Liquid {
  /** Pa s */
  readonly viscosity: number;
  /** kg/m³ */
  readonly density: number;
}

/**
 * Creeping rise of a sphere whose surface does not slide.
 *
 * v = g d² (ρ − ρ_s)/(18 μ)
 *
 * @param sphere - diameter 0.1 µm to 1 mm; density 1 to 2000 kg/m³
 * @param liquid - viscosity 0.1 mPa s to 100 Pa s; density 500 to 2000 kg/m³
 * @returns m/s, upwards; negative for what sinks
 * @throws OutOfRangeError outside those ranges, NaN included; and for a Reynolds number above 1 (quantity
 * "bubbleDiameter", with the largest that creeps as limit): {@link bubbleRise} goes on from there
 * @remarks Already 13 % too fast at a Reynolds number of 1.
 * Source: Stokes (1851). memory
 *
 * @example
 * stokesSpeed({ diameter: 1e-4, density: 1.2 }, { viscosity: 1.002e-3, density: 998.2 }); // 5.42e-3 m/s
 */
export function stokesSpeed(sphere: Sphere, liquid: Liquid): number {
  return creepingSpeed(sphere, liquid, 1);
}

/**
 * Creeping rise of a clean round drop or bubble, whose inside turns with the liquid and makes it faster.
 *
 * v = v_Stokes · 3 (1 + κ)/(2 + 3 κ), κ = μ_in/μ
 *
 * @param sphere - as in {@link stokesSpeed}
 * @param liquid - the same
 * @param innerViscosity - Pa s; 0 to 100. Air has 1.8e-5; 0 gives the limit, 1 % more in water
 * @returns m/s, upwards; 1.5 times Stokes for a bubble, as Stokes for a very stiff drop
 * @throws OutOfRangeError as {@link stokesSpeed}
 * Source: Hadamard (1911), Rybczynski (1911). memory
 *
 * @example
 * const bubble = { diameter: 1e-4, density: 1.2 };
 * hadamardRybczynskiSpeed(bubble, { viscosity: 1.002e-3, density: 998.2 }, 1.82e-5); // 8.06e-3 m/s
 */
export function hadamardRybczynskiSpeed(
  sphere: Sphere,
  liquid: Liquid,
  innerViscosity: number,
): number {
  inRange("innerViscosity", innerViscosity, { ...BUBBLE_LIMITS.viscosity, min: 0 });
  const ratio = innerViscosity / liquid.viscosity;
  return creepingSpeed(sphere, liquid, (3 * (1 + ratio)) / (2 + 3 * ratio));
}

function creepingSpeed(sphere: Sphere, liquid: Liquid, factor: number): number {
  refuseOddBodies(sphere, liquid);
  const galilei = galileiNumber(sphere, liquid);
  const reynolds = (factor * Math.abs(galilei)) / 18;
  const { max } = BUBBLE_LIMITS.reynolds;
  if (reynolds > max)
    throw new OutOfRangeError("bubbleDiameter", sphere.diameter, {
      ...BUBBLE_LIMITS.bubbleDiameter,
      max: sphere.diameter * Math.cbrt(max / reynolds),
    });
  return speedAt((factor * galilei) / 18, sphere, liquid);
}

/** g d³ ρ (ρ − ρ_s)/μ²: weight against stickiness. Negative for what sinks. */
function galileiNumber({ diameter, density }: Sphere, liquid: Liquid): number {
  return (
    (STANDARD_GRAVITY * diameter ** 3 * liquid.density * (liquid.density - density)) /
    liquid.viscosity ** 2
  );
}

function speedAt(reynolds: number, { diameter }: Sphere, liquid: Liquid): number {
  return (reynolds * liquid.viscosity) / (liquid.density * diameter);
}

function refuseOddBodies(sphere: Sphere, liquid: Liquid): void {
  inRange("bubbleDiameter", sphere.diameter, BUBBLE_LIMITS.bubbleDiameter);
  inRange("density", sphere.density, BUBBLE_LIMITS.density);
  inRange("viscosity", liquid.viscosity, BUBBLE_LIMITS.viscosity);
  inRange("liquidDensity", liquid.density, BUBBLE_LIMITS.liquidDensity);
}

interface DragLaw {
  /** C_d Re, which is finite at rest, and its product with Re rises for ever */
  readonly drag: (reynolds: number) => number;
  readonly maxReynolds: number;
}

const DRAG: Readonly<Record<Surface, DragLaw>> = {
  rigid: { drag: (re) => 24 * (1 + 0.15 * re ** 0.687), maxReynolds: 800 },
  // Written without dividing by Re, so that it holds at rest. Past 100 a clean bubble is no longer quite round.
  mobile: {
    drag: (re) => 16 * (1 + (2 * re) / (16 + re + 3.315 * Math.sqrt(re))),
    maxReynolds: 100,
  },
};

/** How a bubble goes up. */
export interface BubbleRise {
  /** m/s */
  readonly speed: number;
  /** to come up from that depth, s */
  readonly time: number;
  /** ρ v d/μ: below 1 the liquid creeps round the bubble */
  readonly reynolds: number;
}

/**
 * Steady rise of an air bubble on its own in still liquid.
 *
 * Buoyancy against drag: C_d Re² = 4/3 · g d³ ρ (ρ − ρ_g)/μ². Drag of a rigid surface: C_d = 24/Re (1 + 0.15
 * Re^0.687), to Re 800. Of a mobile one: C_d = 16/Re (1 + 1/(8/Re + ½ (1 + 3.315/√Re))), used to Re 100. Both
 * become the creeping laws ({@link stokesSpeed}, {@link hadamardRybczynskiSpeed}) for small bubbles.
 *
 * @param bubbleDiameter - m; 0.1 µm to 1 mm
 * @param liquid - viscosity 0.1 mPa s to 100 Pa s; density 500 to 2000 kg/m³
 * @param depth - below the surface, m; 0 to 1
 * @param surface - a bubble in a lecithin dispersion is nearly rigid, and never faster than a mobile one
 * @returns m/s, s and the Reynolds number; ±5 %, the scatter of the measurements behind the drag laws
 * @throws OutOfRangeError outside those ranges, NaN included; and for a bubble too large for its drag law
 * (quantity "bubbleDiameter", with the largest that it holds for as limit)
 * @remarks In real liquids: stirring carries bubbles about, a crowd of them rises more slowly, and a lecithin
 * sol above some 2 % has no one viscosity (J. Pharm. Pharmacol. 18 (1966) 271. seen): at rest it may hold small
 * bubbles for long. The gas inside is taken to be without viscosity (1 % fast in water where mobile); growth on
 * the way up, 1 % from 0.1 m, is left out.
 * Source: rigid: Schiller & Naumann (1933). memory; mobile: Mei, Klausner & Lawrence, Phys. Fluids 6 (1994)
 * 418. memory; checked by its ends, 16/Re + 2 and 48/Re (1 − 2.21/√Re)
 *
 * @example
 * bubbleRise(2e-4, { viscosity: 1.002e-3, density: 998.2 }, 0.1, "rigid").speed; // 0.0162 m/s
 */
export function bubbleRise(
  bubbleDiameter: number,
  liquid: Liquid,
  depth: number,
  surface: Surface,
): BubbleRise {
  const bubble = { diameter: bubbleDiameter, density: AIR_DENSITY };
  refuseOddBodies(bubble, liquid);
  inRange("depth", depth, BUBBLE_LIMITS.depth);
  const { drag, maxReynolds } = DRAG[surface];
  const wanted = (4 / 3) * galileiNumber(bubble, liquid);
  const most = drag(maxReynolds) * maxReynolds;
  if (wanted > most)
    throw new OutOfRangeError("bubbleDiameter", bubbleDiameter, {
      ...BUBBLE_LIMITS.bubbleDiameter,
      max: bubbleDiameter * Math.cbrt(most / wanted),
    });
  // Creeping would be the fastest, for drag only grows from there; twice that is clear of rounding.
  const fastest = Math.min((2 * wanted) / drag(0), maxReynolds);
  const reynolds = brent((re) => drag(re) * re - wanted, 0, fastest, 0);
  const speed = speedAt(reynolds, bubble, liquid);
  return { speed, time: depth / speed, reynolds };
}

/**
 * Ratio of heat capacities of air: a bubble's polytropic exponent where it swings too fast for heat to follow.
 * At the other end, where it keeps the liquid's temperature, it is 1.
 * Source: two-atomic gas, 7/5. memory
 */
export const ADIABATIC_EXPONENT = 1.4;

/** Surface tension of clean water, 20 °C, N/m: the most there is here, for lecithin and alcohol lower it. memory */
export const WATER_TENSION = 0.0728;

/** Sound in a liquid. */
export interface Sound {
  /** Hz */
  readonly frequency: number;
  /** of the air above the liquid, Pa */
  readonly pressure: number;
  /** kg/m³ */
  readonly liquidDensity: number;
  /** of the bubble below the surface, m */
  readonly depth: number;
}

/**
 * Radius at which a bubble swings in time with the sound.
 *
 * ρ (2π f R)² = 3 κ (p + 2σ/R) − 2σ/R, with p the pressure at its depth, p₀ + ρ g h
 *
 * @param sound - frequency f, 1 kHz to 10 MHz; pressure p₀, 10 kPa to 1 MPa; density ρ, 500 to 2000 kg/m³;
 * depth h, 0 to 1 m
 * @param polytropicExponent - κ; 1 to 5/3
 * @param surfaceTension - σ, N/m; 0 to 0.1
 * @returns m
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Small swings of one bubble far from walls. Vapour inside and viscosity are left out.
 * Source: Minnaert, Phil. Mag. 16 (1933) 235; with surface tension, Leighton, The Acoustic Bubble. memory
 *
 * @example
 * const bath = { frequency: 40e3, pressure: 101325, liquidDensity: 998.2, depth: 0 };
 * resonanceRadius(bath, 1.4, 0); // 82.2e-6 m
 */
export function resonanceRadius(
  { frequency, pressure, liquidDensity, depth }: Sound,
  polytropicExponent: number,
  surfaceTension: number,
): number {
  inRange("frequency", frequency, BUBBLE_LIMITS.frequency);
  inRange("pressure", pressure, BUBBLE_LIMITS.pressure);
  inRange("liquidDensity", liquidDensity, BUBBLE_LIMITS.liquidDensity);
  inRange("depth", depth, BUBBLE_LIMITS.depth);
  inRange("polytropicExponent", polytropicExponent, BUBBLE_LIMITS.polytropicExponent);
  inRange("surfaceTension", surfaceTension, BUBBLE_LIMITS.surfaceTension);
  const local = pressure + liquidDensity * STANDARD_GRAVITY * depth;
  const spring = 3 * polytropicExponent * local;
  const plain = Math.sqrt(spring / liquidDensity) / (2 * Math.PI * frequency);
  // In units of that radius: x³ − x = s, with one root from 1 up, where the slope is 2 or more.
  const tension = (2 * surfaceTension * (3 * polytropicExponent - 1)) / (spring * plain);
  const swollen = newtonBracketed(
    (x) => [x ** 3 - x - tension, 3 * x ** 2 - 1],
    1,
    2 + Math.cbrt(tension),
    1e-14,
    1,
  );
  return plain * swollen;
}

/**
 * Radius of the bubbles that swing with a bath's sound, with all that is not known about their surface.
 *
 * @param sound - as in {@link resonanceRadius}
 * @returns m: `low` keeps its temperature and has no surface tension, `high` keeps its heat and has clean
 * water's; `value` keeps its heat without tension, the usual rule (f R = 3.29 m/s in water)
 * @throws OutOfRangeError as there
 * @remarks The bubbles that do the work in a bath are smaller than this and burst; larger ones float away.
 * Source: as {@link resonanceRadius}
 */
export function resonance(sound: Sound): Banded {
  return {
    value: resonanceRadius(sound, ADIABATIC_EXPONENT, 0),
    low: resonanceRadius(sound, 1, 0),
    high: resonanceRadius(sound, ADIABATIC_EXPONENT, WATER_TENSION),
  };
}
