import { inRange, OutOfRangeError } from "../errors.ts";
import { integrateUntil } from "../numeric/runge-kutta.ts";
import { AIR_MOLAR_MASS, diffusivity } from "../substances/diffusivity.ts";
import {
  activityCoefficients,
  boilingPoint,
  type Pair,
  partialPressures,
  VAPOUR_LIMITS,
} from "../substances/ethanol-water-vapour.ts";
import { MOLAR_MASS, moleFraction } from "../substances/ethanol-water.ts";
import { ethanolSaturationPressure } from "../substances/vapour-pressure.ts";
import { saturationPressure } from "../substances/water.ts";
import { STANDARD_GRAVITY } from "./gravity.ts";
import { GAS_CONSTANT, stagnantAirFactor } from "./stefan-tube.ts";

/** Where the law is used. The form reads the same object, so page and function cannot disagree. */
export const EVAPORATION_LIMITS = {
  mass: { min: 1e-3, max: 20, unit: "kg" },
  massFraction: VAPOUR_LIMITS.massFraction,
  temperature: { min: 0, max: 90, unit: "°C" },
  diameter: { min: 0.01, max: 0.3, unit: "m" },
  freeboard: { min: 0, max: 0.5, unit: "m" },
  duration: { min: 0, max: 30 * 86_400, unit: "s" },
  volume: { min: 0, max: 0.1, unit: "m³" },
  roomTemperature: { min: 0, max: 40, unit: "°C" },
  humidity: { min: 0, max: 1, unit: "1" },
  /** From 4000 m above the sea to a high barometer. */
  pressure: { min: 60e3, max: VAPOUR_LIMITS.pressure.max, unit: "Pa" },
  /** Indoor air is mostly below 0.2 m/s; a fan nearby makes 1. */
  airSpeed: { min: 0, max: 1, unit: "m/s" },
  holes: { min: 1, max: 1000, unit: "1" },
  holeDiameter: { min: 1e-5, max: 0.3, unit: "m" },
  thickness: { min: 0, max: 0.05, unit: "m" },
  spirit: { min: 0.01, max: 1, unit: "1" },
} as const;

/** Nearest that a liquid may come to boiling: its vapours at this share of the air's pressure. */
export const NEAREST_BOILING = 0.95;

/** What stands in the beaker. */
export interface Liquid {
  /** kg of ethanol + water */
  readonly mass: number;
  /** ethanol in ethanol + water, 0 to 1 */
  readonly massFraction: number;
  /** °C, held */
  readonly temperature: number;
}

/** A round vessel with upright walls. */
export interface Vessel {
  /** inside, m */
  readonly diameter: number;
  /** from the liquid to the rim, m */
  readonly freeboard: number;
  readonly cover: Cover;
}

/** `closed` is a lid that lies on, not a seal. */
export type Cover =
  | { readonly kind: "open" }
  | { readonly kind: "closed" }
  | ({ readonly kind: "holes"; readonly count: number } & Hole);

/** A round hole through a film or a lid. */
export interface Hole {
  /** m */
  readonly diameter: number;
  /** of the film, m */
  readonly thickness: number;
}

/** The air around, free of ethanol. */
export interface Room {
  /** °C */
  readonly temperature: number;
  /** relative, 0 to 1 */
  readonly humidity: number;
  /** Pa */
  readonly pressure: number;
  /** over the rim, m/s */
  readonly airSpeed: number;
}

/** What has gone into the air. */
export interface Loss {
  /** kg */
  readonly ethanol: number;
  /** kg; negative where the liquid takes up water from humid air */
  readonly water: number;
  /** kg of ethanol + water left, 0 when it has dried up */
  readonly mass: number;
  /** ethanol in what is left, 0 to 1; what the last drop had when it has dried up */
  readonly massFraction: number;
}

/**
 * What evaporates from a beaker in a time: a range, because the air's movement is not known.
 *
 * Each vapour leaves at g A P/p_lm (p − p_room) / (R T), p_lm the mean pressure of the air between, and
 * g is a speed:
 * - `low`: nothing moves. g = D / (freeboard + π d/8), the last term the still air over the rim.
 * - `high`: as if filled to the brim. g = Sh D / length, the largest of three: a still disc; free convection,
 *   Sh = 0.54 Ra^¼ where the air at the surface is lighter than the room's and 0.27 Ra^¼ where it is heavier
 *   and spills over the rim (length d/4); a draught along the surface, Sh = 0.664 Re^½ Sc^⅓ (length d).
 *
 * With holes, `low` passes the freeboard and the holes one after the other; `high` has the vapour of the
 * surface right under the film and moving air right over it. As one vapour leaves faster the composition
 * drifts, and the pressures with it.
 *
 * @param liquid - `mass` 0.001 to 20 kg; `massFraction` 0 to 1; `temperature` 0 to 90 °C, and so that the
 * vapours stay under 95 % of the air's pressure
 * @param vessel - `diameter` 0.01 to 0.3 m; `freeboard` 0 to 0.5 m; `cover`: `holes` with a `count` of 1 to
 * 1000, a `diameter` of 10 µm to the vessel's and a `thickness` of 0 to 0.05 m
 * @param room - `temperature` 0 to 40 °C, `humidity` 0 to 1, `pressure` 60 000 to 104 000 Pa, `airSpeed` 0
 * to 1 m/s
 * @param duration - s; 0 to 30 days
 * @returns both ends of the range, each one run of the whole: where water is taken up, `high` takes up more.
 * The properties bring ±10 % more (diffusivity ±8 %, pressures ±5 %)
 * @throws OutOfRangeError outside those ranges, NaN included; near boiling (quantity "temperature") with the
 * warmest that is allowed; for holes wider together than the vessel (quantity "diameter") with the widest
 * hole
 * @remarks Leaves out: cooling by evaporation and crusting at the surface (both slow it), stirring, foam and
 * spray, the level's fall (it adds to the freeboard), and breathing through a cover while the liquid warms:
 * each litre of air pushed out carries what {@link headspaceEthanol} says. Holes of several millimetres let
 * air through as well as vapour. A closed cover loses nothing here; it is not a seal.
 * Sources: Sh = 0.54 Ra^¼ (10⁴ to 10⁷), 0.27 Ra^¼ and 0.664 Re^½ Sc^⅓: Incropera & DeWitt, Fundamentals of
 * Heat and Mass Transfer, ch. 7 and 9. memory; the powers are used down to still air, where the disc's own
 * value takes over. Still disc and holes: Brown & Escombe, Phil. Trans. R. Soc. B 193 (1900) 223; Monteith &
 * Unsworth, Principles of Environmental Physics. seen (single end), memory (both ends)
 *
 * @example
 * const liquid = { mass: 0.45, massFraction: 0.2, temperature: 40 };
 * const vessel = { diameter: 0.0874, freeboard: 0.03, cover: { kind: "open" } } as const;
 * const room = { temperature: 25, humidity: 0.5, pressure: 101325, airSpeed: 0 };
 * evaporate(liquid, vessel, room, 1800); // 0.2 to 3.9 g of ethanol
 */
export function evaporate(
  liquid: Liquid,
  vessel: Vessel,
  room: Room,
  duration: number,
): { readonly low: Loss; readonly high: Loss } {
  check(liquid, room);
  inRange("mass", liquid.mass, EVAPORATION_LIMITS.mass);
  inRange("diameter", vessel.diameter, EVAPORATION_LIMITS.diameter);
  inRange("freeboard", vessel.freeboard, EVAPORATION_LIMITS.freeboard);
  inRange("airSpeed", room.airSpeed, EVAPORATION_LIMITS.airSpeed);
  inRange("duration", duration, EVAPORATION_LIMITS.duration);
  checkCover(vessel);
  const air = airBetween(liquid.temperature, room);
  const area = disc(vessel.diameter);
  const still = stillAir(vessel, air);
  return {
    low: lose(liquid, room, air, area, duration, () => still),
    high: lose(liquid, room, air, area, duration, (pressures) =>
      movingAir(vessel, air, room, pressures),
    ),
  };
}

/**
 * Conductance of a round hole to a vapour that diffuses through it.
 *
 * D π r² / (L + π r/2), π r/4 for one end only: at each mouth the vapour has to spread into still air, as if
 * the hole were 0.4 diameters longer
 *
 * @param hole - `diameter` 10 µm to 0.3 m, `thickness` L 0 to 0.05 m
 * @param diffusivity - D, m²/s; above 0
 * @param mouths - how many ends lie in still air, 1 or 2
 * @returns m³/s; times the difference in concentration, mol/m³, it is a flow
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Brown & Escombe (1900); Monteith & Unsworth. seen (one end), memory (both)
 */
export function holeConductance(hole: Hole, diffusivity: number, mouths: 1 | 2 = 2): number {
  inRange("diameter", hole.diameter, EVAPORATION_LIMITS.holeDiameter);
  inRange("thickness", hole.thickness, EVAPORATION_LIMITS.thickness);
  inRange("diffusivity", diffusivity, { min: Number.MIN_VALUE, max: 1, unit: "m²/s" });
  const length = hole.thickness + mouths * mouth(hole.diameter);
  return (diffusivity * disc(hole.diameter)) / length;
}

/**
 * Density of the air at the surface over that of the room's: below 1 it rises, above 1 it lies in the beaker
 * and spills over the rim. Vapour of ethanol is heavy, but warm and moist air is light.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @param temperature - of the liquid, °C; 0 to 90, as in {@link evaporate}
 * @param room - as in {@link evaporate}
 * @returns ratio
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function surfaceAirRatio(
  massFraction: number,
  temperature: number,
  room: Omit<Room, "airSpeed">,
): number {
  check({ massFraction, temperature }, room);
  const pressures = partialPressures(moleFraction(massFraction), temperature);
  return (
    gasDensity(temperature, room.pressure, pressures) /
    gasDensity(room.temperature, room.pressure, outside(room))
  );
}

/**
 * Ethanol in the air of a closed vessel that has come to balance with the liquid: what one opening can cost.
 *
 * m = p V M / (R T)
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 0 to 90
 * @param volume - of the headspace, m³; 0 to 0.1
 * @returns kg
 * @throws OutOfRangeError outside those ranges, NaN included
 *
 * @example
 * headspaceEthanol(0.2, 20, 250e-6); // 7.65e-6 kg
 */
export function headspaceEthanol(
  massFraction: number,
  temperature: number,
  volume: number,
): number {
  inRange("temperature", temperature, EVAPORATION_LIMITS.temperature);
  inRange("volume", volume, EVAPORATION_LIMITS.volume);
  const { ethanol } = partialPressures(moleFraction(massFraction), temperature);
  return (ethanol * volume * MOLAR_MASS.ethanol) / (GAS_CONSTANT * (temperature + 273.15));
}

/**
 * Spirit that brings the lost alcohol back. Its water comes with it: where little water was lost the batch
 * ends up larger than it was.
 *
 * @param ethanol - lost, kg; 0 to 20
 * @param spiritMassFraction - of the spirit, 0.01 to 1
 * @returns kg of spirit
 * @throws OutOfRangeError outside those ranges, NaN included
 *
 * @example
 * topUp(0.004, 0.333); // 0.012 kg of a spirit of 40 % vol
 */
export function topUp(ethanol: number, spiritMassFraction: number): number {
  inRange("ethanol", ethanol, { ...EVAPORATION_LIMITS.mass, min: 0 });
  inRange("spiritMassFraction", spiritMassFraction, EVAPORATION_LIMITS.spirit);
  return ethanol / spiritMassFraction;
}

/** The air between surface and room, at the mean of their temperatures. */
interface Film {
  /** °C */
  readonly temperature: number;
  /** m²/s */
  readonly diffusivity: Pair;
  /** Pa s */
  readonly viscosity: number;
  /** of the air at the surface, °C */
  readonly surfaceTemperature: number;
}

function check(liquid: Omit<Liquid, "mass">, room: Omit<Room, "airSpeed">): void {
  inRange("massFraction", liquid.massFraction, EVAPORATION_LIMITS.massFraction);
  inRange("temperature", liquid.temperature, EVAPORATION_LIMITS.temperature);
  inRange("roomTemperature", room.temperature, EVAPORATION_LIMITS.roomTemperature);
  inRange("humidity", room.humidity, EVAPORATION_LIMITS.humidity);
  inRange("pressure", room.pressure, EVAPORATION_LIMITS.pressure);
  const x = moleFraction(liquid.massFraction);
  const { ethanol, water } = partialPressures(x, liquid.temperature);
  if (ethanol + water > NEAREST_BOILING * room.pressure)
    throw new OutOfRangeError("temperature", liquid.temperature, {
      ...EVAPORATION_LIMITS.temperature,
      max: boilingPoint(x, NEAREST_BOILING * room.pressure),
    });
}

function checkCover({ cover, diameter }: Vessel): void {
  if (cover.kind !== "holes") return;
  inRange("count", cover.count, EVAPORATION_LIMITS.holes);
  inRange("diameter", cover.diameter, {
    ...EVAPORATION_LIMITS.holeDiameter,
    max: diameter / Math.sqrt(cover.count),
  });
  inRange("thickness", cover.thickness, EVAPORATION_LIMITS.thickness);
}

function airBetween(surfaceTemperature: number, room: Room): Film {
  const temperature = (surfaceTemperature + room.temperature) / 2;
  return {
    temperature,
    diffusivity: {
      ethanol: diffusivity("ethanol", temperature, room.pressure),
      water: diffusivity("water", temperature, room.pressure),
    },
    viscosity: airViscosity(temperature),
    surfaceTemperature,
  };
}

/** Speeds of the two vapours when nothing moves, m/s. */
function stillAir({ diameter, freeboard, cover }: Vessel, air: Film): Pair {
  const length = freeboard + mouth(diameter);
  return each((vapour) => {
    const open = air.diffusivity[vapour] / length;
    if (cover.kind === "open") return open;
    if (cover.kind === "closed") return 0;
    const holes = (cover.count * holeConductance(cover, air.diffusivity[vapour])) / disc(diameter);
    return 1 / (1 / open + 1 / holes);
  });
}

/** Speeds of the two vapours over a vessel filled to the brim in moving air, m/s. */
function movingAir({ diameter, cover }: Vessel, air: Film, room: Room, pressures: Pair): Pair {
  if (cover.kind === "closed") return { ethanol: 0, water: 0 };
  const atSurface = gasDensity(air.surfaceTemperature, room.pressure, pressures);
  const around = gasDensity(room.temperature, room.pressure, outside(room));
  const viscosity = (2 * air.viscosity) / (atSurface + around);
  const rises = atSurface < around;
  // Area over perimeter.
  const length = diameter / 4;
  const grashof =
    (2 * STANDARD_GRAVITY * (Math.abs(around - atSurface) / (around + atSurface)) * length ** 3) /
    viscosity ** 2;
  const reynolds = (room.airSpeed * diameter) / viscosity;
  return each((vapour) => {
    const d = air.diffusivity[vapour];
    const schmidt = viscosity / d;
    const free = ((rises ? 0.54 : 0.27) * (grashof * schmidt) ** 0.25 * d) / length;
    const draught = (0.664 * Math.sqrt(reynolds) * Math.cbrt(schmidt) * d) / diameter;
    const open = Math.max(d / mouth(diameter), free, draught);
    if (cover.kind === "open") return open;
    return Math.min(open, (cover.count * holeConductance(cover, d, 1)) / disc(diameter));
  });
}

/** Follows the liquid while it loses both vapours at the speeds that its composition gives. */
function lose(
  { mass, massFraction, temperature }: Liquid,
  room: Room,
  air: Film,
  area: number,
  duration: number,
  speeds: (pressures: Pair) => Pair,
): Loss {
  const pure = {
    ethanol: ethanolSaturationPressure(temperature),
    water: saturationPressure(temperature),
  };
  const around = outside(room);
  const perPascal = 1 / (GAS_CONSTANT * (air.temperature + 273.15));
  /** kg/(m² s) */
  const rates = (p: number): Pair => {
    const x = moleFraction(p);
    const activity = activityCoefficients(x, temperature);
    const pressures = {
      ethanol: x * activity.ethanol * pure.ethanol,
      water: (1 - x) * activity.water * pure.water,
    };
    const factor = stagnantAirFactor(
      room.pressure,
      pressures.ethanol + pressures.water,
      around.ethanol + around.water,
    );
    const speed = speeds(pressures);
    return each(
      (vapour) =>
        speed[vapour] *
        factor *
        perPascal *
        (pressures[vapour] - around[vapour]) *
        MOLAR_MASS[vapour],
    );
  };
  // Steps of mass rather than of time (dt = m ds): composition and ln m then run smoothly to the last drop,
  // and nothing can fall below zero. The values are p, ln of the mass left, and the time as a share of the
  // duration.
  const pace = (duration * area) / mass;
  const [p = 0, log = 0] = integrateUntil(
    ([p = 0, log = 0]) => {
      const rate = rates(asFraction(p));
      const total = rate.ethanol + rate.water;
      return [pace * (p * total - rate.ethanol), -pace * total, Math.exp(log)];
    },
    [massFraction, 0, 0],
    ([, log = 0, time = 0]) => Math.max(time - 1, DRY - log),
    INTEGRATED_TO,
  );
  const left = log > DRY + 1e-9 ? mass * Math.exp(log) : 0;
  const fraction = asFraction(p);
  return {
    ethanol: Math.max(mass * massFraction - left * fraction, 0),
    water: mass * (1 - massFraction) - left * (1 - fraction),
    mass: left,
    massFraction: fraction,
  };
}

/** Relative error of the integration: a thousandth of what the rates themselves are unsure of. */
const INTEGRATED_TO = 1e-6;

/** Logarithm of the share of the mass below which nothing is left. */
const DRY = Math.log(1e-6);

/** Vapours of the room's air, Pa. */
function outside({ temperature, humidity }: Pick<Room, "temperature" | "humidity">): Pair {
  return { ethanol: 0, water: humidity * saturationPressure(temperature) };
}

/** kg/m³ of air that holds these vapours. */
function gasDensity(temperature: number, pressure: number, { ethanol, water }: Pair): number {
  const mass =
    ethanol * MOLAR_MASS.ethanol +
    water * MOLAR_MASS.water +
    (pressure - ethanol - water) * AIR_MOLAR_MASS;
  return mass / (GAS_CONSTANT * (temperature + 273.15));
}

/** Pa s, of dry air. Source: Sutherland's law, White, Viscous Fluid Flow. memory */
function airViscosity(temperature: number): number {
  const kelvin = temperature + 273.15;
  return (1.716e-5 * (kelvin / 273.15) ** 1.5 * (273.15 + 110.4)) / (kelvin + 110.4);
}

/** What one mouth in still air adds to the length of a hole, m. */
function mouth(diameter: number): number {
  return (Math.PI / 8) * diameter;
}

/** m² */
function disc(diameter: number): number {
  return (Math.PI / 4) * diameter ** 2;
}

/** Rounding may carry it past an end. */
function asFraction(p: number): number {
  return Math.min(Math.max(p, 0), 1);
}

function each(of: (vapour: keyof Pair) => number): Pair {
  return { ethanol: of("ethanol"), water: of("water") };
}
