import { inRange } from "../errors.ts";
import { brent } from "../numeric/root.ts";
import {
  conductivity,
  densityWide,
  expansion,
  heatCapacity,
  saturationPressure,
  viscosity,
} from "../substances/water.ts";
import { STANDARD_GRAVITY } from "./gravity.ts";

/** Where the correlations hold. */
export const CONVECTION_LIMITS = {
  rayleigh: { min: 0, max: 1e12, unit: "1" },
  rayleighUp: { min: 1e4, max: 1e11, unit: "1" },
  rayleighDown: { min: 1e5, max: 1e10, unit: "1" },
  prandtl: { min: 0.01, max: 1e5, unit: "1" },
  /** From 8 °C: nearer to water's greatest density, at 4 °C, its expansion is no constant over a film. */
  waterTemperature: { min: 8, max: 95, unit: "°C" },
  /** A wall as warm as the water on both sides of it passes no heat. */
  temperatureDifference: { min: 0.01, max: 87, unit: "K" },
  length: { min: 1e-3, max: 10, unit: "m" },
  thickness: { min: 0, max: 0.1, unit: "m" },
  conductivity: { min: 0.01, max: 1000, unit: "W/(m K)" },
  coefficient: { min: 0.1, max: 1e5, unit: "W/(m² K)" },
  surfaceTemperature: { min: 0, max: 95, unit: "°C" },
  airTemperature: { min: 0, max: 50, unit: "°C" },
  humidity: { min: 0, max: 1, unit: "1" },
  airSpeed: { min: 0, max: 2, unit: "m/s" },
  emissivity: { min: 0, max: 1, unit: "1" },
} as const;

/**
 * Nusselt number of natural convection at a vertical wall of one temperature.
 *
 * Nu = {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}²
 *
 * @param rayleigh - g β ΔT H³/(ν α), properties at the mean of wall and fluid; 0 to 1e12
 * @param prandtl - 0.01 to 1e5
 * @returns h H/k, 1; ±15 % (memory). Serves a cylinder wider than about 35 H/Gr^(1/4)
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1323–1329, eq. 9. seen (in a public library)
 *
 * @example
 * verticalNusselt(1.73e8, 4.6); // 86.6
 */
export function verticalNusselt(rayleigh: number, prandtl: number): number {
  inRange("rayleigh", rayleigh, CONVECTION_LIMITS.rayleigh);
  inRange("prandtl", prandtl, CONVECTION_LIMITS.prandtl);
  const shape = (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27);
  return (0.825 + (0.387 * rayleigh ** (1 / 6)) / shape) ** 2;
}

/**
 * Nusselt number of natural convection at a horizontal plate, on area over perimeter.
 *
 * Unstable (a warm face up, or a cold one down): 0.54 Ra^(1/4) to 1e7, 0.15 Ra^(1/3) above. Stable (a warm
 * face down, or a cold one up): 0.27 Ra^(1/4).
 *
 * @param rayleigh - 1e4 to 1e11 unstable, 1e5 to 1e10 stable
 * @param layering - whether the plate stirs the fluid or lies in a layer it keeps still
 * @returns h L/k, 1; the two unstable forms differ by 6 % where they meet
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: McAdams, Heat Transmission, 3rd ed. (1954). seen (in a public library)
 *
 * @example
 * horizontalNusselt(1.778e9, "unstable"); // 181.7
 */
export function horizontalNusselt(rayleigh: number, layering: "unstable" | "stable"): number {
  if (layering === "stable") {
    inRange("rayleigh", rayleigh, CONVECTION_LIMITS.rayleighDown);
    return 0.27 * rayleigh ** 0.25;
  }
  inRange("rayleigh", rayleigh, CONVECTION_LIMITS.rayleighUp);
  return rayleigh <= 1e7 ? 0.54 * rayleigh ** 0.25 : 0.15 * rayleigh ** (1 / 3);
}

/**
 * Coefficient of natural convection between still water and a vertical wall.
 *
 * @param water - away from the wall, °C; 8 to 95
 * @param wall - its surface, °C; 8 to 95; at the water's own temperature what conduction leaves is given
 * @param height - wetted, m; 0.001 to 10
 * @returns W/(m² K): the least there is, for sound and stirring raise it
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link verticalNusselt}, water from IAPWS SR6-08 (2011) at the mean temperature. seen
 *
 * @example
 * waterCoefficient(40, 35, 0.1); // 541 W/(m² K)
 */
export function waterCoefficient(water: number, wall: number, height: number): number {
  inRange("water", water, CONVECTION_LIMITS.waterTemperature);
  inRange("wall", wall, CONVECTION_LIMITS.waterTemperature);
  inRange("height", height, CONVECTION_LIMITS.length);
  const film = (water + wall) / 2;
  const k = conductivity(film);
  const prandtl = (viscosity(film) * heatCapacity(film)) / k;
  const kinematic = viscosity(film) / densityWide(film);
  const rayleigh =
    (STANDARD_GRAVITY * expansion(film) * Math.abs(water - wall) * height ** 3 * prandtl) /
    kinematic ** 2;
  return (verticalNusselt(rayleigh, prandtl) * k) / height;
}

/** A wall with still water on both sides, once heat flows evenly through it. */
export interface WetWall {
  /** W/m², from the inside to the outside. */
  readonly flux: number;
  /** °C */
  readonly innerSurface: number;
  /** °C */
  readonly outerSurface: number;
  /** Heat passed for each kelvin between the two waters, W/(m² K). */
  readonly overall: number;
}

/**
 * Heat through a flat wall between two still waters: the wall's surfaces settle where convection inside,
 * conduction and convection outside carry the same.
 *
 * @param inside - °C; 8 to 95
 * @param outside - °C; 8 to 95, at least 0.01 K from the inside
 * @param height - wetted, m; 0.001 to 10
 * @param thickness - of the wall, m; 0 to 0.1
 * @param wallConductivity - W/(m K); 0.01 to 1000
 * @returns flux, surfaces and overall coefficient
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks The least there is: sound and stirring raise it up to that of the wall alone. It grows with the
 * difference, so a constant conductance is itself a simplification by about a third.
 * Source: as {@link waterCoefficient}
 *
 * @example
 * wetWall(36, 30, 0.09, 0.0015, 1.2).overall; // 164 W/(m² K)
 */
export function wetWall(
  inside: number,
  outside: number,
  height: number,
  thickness: number,
  wallConductivity: number,
): WetWall {
  inRange("inside", inside, CONVECTION_LIMITS.waterTemperature);
  inRange("outside", outside, CONVECTION_LIMITS.waterTemperature);
  inRange(
    "temperatureDifference",
    Math.abs(inside - outside),
    CONVECTION_LIMITS.temperatureDifference,
  );
  inRange("thickness", thickness, CONVECTION_LIMITS.thickness);
  inRange("conductivity", wallConductivity, CONVECTION_LIMITS.conductivity);
  const taken = (innerSurface: number): number =>
    waterCoefficient(inside, innerSurface, height) * (inside - innerSurface);
  const outerSurface = (innerSurface: number): number =>
    innerSurface - (taken(innerSurface) * thickness) / wallConductivity;
  const imbalance = (innerSurface: number): number => {
    const outer = outerSurface(innerSurface);
    // Past the outside's temperature the wall would give nothing away.
    const passed = (outer - outside) * (inside - outside) > 0;
    const given = passed ? waterCoefficient(outside, outer, height) * (outer - outside) : 0;
    return taken(innerSurface) - given;
  };
  const innerSurface = brent(imbalance, inside, outside, 1e-10);
  const flux = taken(innerSurface);
  return {
    flux,
    innerSurface,
    outerSurface: outerSurface(innerSurface),
    overall: flux / (inside - outside),
  };
}

/**
 * Overall coefficient of a flat wall: three resistances in series.
 *
 * 1/U = 1/h₁ + d/k + 1/h₂
 *
 * @param inside - h₁, W/(m² K); 0.1 to 1e5
 * @param outside - h₂, the same
 * @param thickness - d, m; 0 to 0.1
 * @param wallConductivity - k, W/(m K); 0.01 to 1000
 * @returns W/(m² K)
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, section 3.1. memory
 *
 * @example
 * overallCoefficient(400, 600, 0.0015, 1.2); // 184.6 W/(m² K)
 */
export function overallCoefficient(
  inside: number,
  outside: number,
  thickness: number,
  wallConductivity: number,
): number {
  inRange("inside", inside, CONVECTION_LIMITS.coefficient);
  inRange("outside", outside, CONVECTION_LIMITS.coefficient);
  inRange("thickness", thickness, CONVECTION_LIMITS.thickness);
  inRange("conductivity", wallConductivity, CONVECTION_LIMITS.conductivity);
  return 1 / (1 / inside + thickness / wallConductivity + 1 / outside);
}

/** A beaker hung in a bath, lengths in m. */
export interface HungBeaker {
  /** Inside, 0.001 to 10. */
  readonly radius: number;
  /** Of the side wall, 0 to 0.1. */
  readonly wall: number;
  /** Of the bottom, 0 to 0.1. */
  readonly base: number;
  /** Of the side that is wet on both sides, 0.001 to 10. */
  readonly height: number;
  /** Of the glass, W/(m K); 0.01 to 1000. */
  readonly conductivity: number;
}

/**
 * Conductance of a beaker between what it holds and the bath around it: the side as a cylinder, the base
 * flat.
 *
 * @param beaker - sizes and conductivity
 * @param inside - coefficient, W/(m² K); 0.1 to 1e5
 * @param outside - the same
 * @returns of side, base and both, W/K
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: series resistances, ln(r₂/r₁)/(2πkH) for the wall; Incropera & DeWitt, section 3.3. memory
 *
 * @example
 * beakerConductance({ radius: 0.04, wall: 0.0015, base: 0.0015, height: 0.09, conductivity: 1.2 }, 400, 600);
 * // side 4.24, base 0.93, total 5.17 W/K
 */
export function beakerConductance(
  beaker: HungBeaker,
  inside: number,
  outside: number,
): { readonly side: number; readonly base: number; readonly total: number } {
  inRange("radius", beaker.radius, CONVECTION_LIMITS.length);
  inRange("wall", beaker.wall, CONVECTION_LIMITS.thickness);
  inRange("height", beaker.height, CONVECTION_LIMITS.length);
  const base =
    Math.PI *
    beaker.radius ** 2 *
    overallCoefficient(inside, outside, beaker.base, beaker.conductivity);
  const outer = beaker.radius + beaker.wall;
  const resistance =
    1 / (inside * beaker.radius) +
    Math.log1p(beaker.wall / beaker.radius) / beaker.conductivity +
    1 / (outside * outer);
  const side = (2 * Math.PI * beaker.height) / resistance;
  return { side, base, total: side + base };
}

/** W/(m² Pa) and W s/(m³ Pa), from 95 and 0.425 in Btu, feet, inches of mercury, hours and minutes. */
const BTU_PER_HOUR_FOOT_INCH = 1055.056 / 3600 / 0.3048 ** 2 / 3386.389;
const CARRIER = {
  still: 95 * BTU_PER_HOUR_FOOT_INCH,
  moving: (0.425 * BTU_PER_HOUR_FOOT_INCH) / (0.3048 / 60),
} as const;
/** Share of Carrier's figure that quiet water was measured to lose, and that pools in use lose. */
const CARRIER_SPREAD = { quiet: 0.74, stirred: 1.26 } as const;

/**
 * Heat that open water loses by evaporating.
 *
 * q = (a + b v)(p_water − p_air), a = 0.0885 W/(m² Pa), b = 0.0779 W s/(m³ Pa)
 *
 * @param water - surface, °C; 0 to 95
 * @param air - °C; 0 to 50
 * @param humidity - relative, of the air, 0 to 1
 * @param airSpeed - over the surface, m/s; 0 to 2
 * @returns W/m²: from 74 % for quiet water to 126 % for water in use. Negative where the room's moisture
 * settles on cold water
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Water, not spirit, which loses more. A lid stops nearly all of it.
 * Source: Carrier's equation and its correction: Smith, Löf & Jones, ASHRAE Transactions 104 (1998). seen
 * (abstract); vapour pressure as in `water.ts`
 *
 * @example
 * evaporativeFlux(40, 20, 0.5, 0); // 550 W/m²
 */
export function evaporativeFlux(
  water: number,
  air: number,
  humidity: number,
  airSpeed: number,
): { readonly value: number; readonly low: number; readonly high: number } {
  inRange("water", water, CONVECTION_LIMITS.surfaceTemperature);
  inRange("air", air, CONVECTION_LIMITS.airTemperature);
  inRange("humidity", humidity, CONVECTION_LIMITS.humidity);
  inRange("airSpeed", airSpeed, CONVECTION_LIMITS.airSpeed);
  const value =
    (CARRIER.still + CARRIER.moving * airSpeed) *
    (saturationPressure(water) - humidity * saturationPressure(air));
  const [quiet, stirred] = [value * CARRIER_SPREAD.quiet, value * CARRIER_SPREAD.stirred];
  return { value, low: Math.min(quiet, stirred), high: Math.max(quiet, stirred) };
}

/** W/(m² K⁴). Source: CODATA 2018. memory */
const STEFAN_BOLTZMANN = 5.670374419e-8;

/**
 * Heat that a surface and a room exchange by radiation, for each kelvin between them.
 *
 * h = ε σ (T₁ + T₂)(T₁² + T₂²)
 *
 * @param surface - °C; 0 to 95
 * @param room - °C; 0 to 50
 * @param emissivity - of the surface, 0 to 1; water and glass have about 0.95
 * @returns W/(m² K): as large as natural convection in air
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Stefan and Boltzmann's law. memory
 *
 * @example
 * radiationCoefficient(40, 20, 0.95); // 6.01 W/(m² K)
 */
export function radiationCoefficient(surface: number, room: number, emissivity: number): number {
  inRange("surface", surface, CONVECTION_LIMITS.surfaceTemperature);
  inRange("room", room, CONVECTION_LIMITS.airTemperature);
  inRange("emissivity", emissivity, CONVECTION_LIMITS.emissivity);
  const [warm, cool] = [surface + 273.15, room + 273.15];
  return emissivity * STEFAN_BOLTZMANN * (warm + cool) * (warm ** 2 + cool ** 2);
}
