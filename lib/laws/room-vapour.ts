import { inRange, OutOfRangeError } from "../errors.ts";
import { brent } from "../numeric/root.ts";
import { MOLAR_MASS } from "../substances/ethanol-water.ts";
import { VAPOUR_LIMITS } from "../substances/ethanol-water-vapour.ts";
import { ethanolSaturationPressure } from "../substances/vapour-pressure.ts";
import { EXPLOSIVE_LIMITS } from "./flash-point.ts";
import { GAS_CONSTANT } from "./stefan-tube.ts";

/** Where the law is used. The form reads the same object, so page and function cannot disagree. */
export const ROOM_LIMITS = {
  ethanol: { min: 0, max: 20, unit: "kg" },
  duration: { min: 0, max: 30 * 86_400, unit: "s" },
  volume: { min: 1, max: 1000, unit: "m³" },
  /** A hundred an hour is a fume cupboard. */
  airChanges: { min: 0, max: 100 / 3600, unit: "1/s" },
  temperature: { min: 0, max: 40, unit: "°C" },
  pressure: VAPOUR_LIMITS.pressure,
  level: { min: 1e-9, max: 1, unit: "1" },
  volumeFraction: { min: 0, max: 1, unit: "1" },
} as const;

/** Share of the lower explosive limit at which alarms are set. Source: 29 CFR 1910.146(b). seen */
export const ALARM_SHARE = 0.1;

/**
 * Ethanol in the air of a workplace, 8 hours, share of the volume (1000 ppm).
 * Source: NIOSH Pocket Guide, ethyl alcohol: OSHA and NIOSH. seen
 */
export const EXPOSURE_LIMIT = 1000e-6;

/** Room air, mixed throughout. */
export interface MixedRoom {
  /** m³ */
  readonly volume: number;
  /** how often in a second fresh air replaces all of it; 0 when shut */
  readonly airChanges: number;
  /** °C */
  readonly temperature: number;
  /** Pa */
  readonly pressure: number;
}

/** Ethanol that evaporates at a constant rate. */
export interface Source {
  /** kg in all */
  readonly ethanol: number;
  /** s; 0 for a spill that is gone at once */
  readonly duration: number;
}

/** What a source makes of the room's air. */
export interface RoomVapour {
  /** share of the volume when the source ends */
  readonly peak: number;
  readonly shareOfLowerLimit: number;
  readonly shareOfExposureLimit: number;
  /** s from the end of the source until a tenth of the lower limit is reached; null if never */
  readonly clearOfFire: number | null;
  /** s from the end of the source until the exposure limit is reached; null if never */
  readonly clearOfExposure: number | null;
  /** 1/s that keep the peak at a tenth of the lower limit; null if the source is too quick for any */
  readonly airChangesNeeded: number | null;
}

/**
 * Vapour in a room while and after ethanol evaporates into it.
 *
 * C = C₀ (1 − e^(−nt)) / (nt), C₀ = m R T / (M P V) what the room would hold with all windows shut
 *
 * @param source - `ethanol` 0 to 20 kg; `duration` t, 0 to 30 days
 * @param room - `volume` V 1 to 1000 m³; `airChanges` n 0 to 1/36 per second (100 an hour); `temperature` 0
 * to 40 °C; `pressure` 50 000 to 104 000 Pa
 * @param exposureLimit - share of the volume, 1e-9 to 1
 * @returns the peak and what it means
 * @throws OutOfRangeError outside those ranges, NaN included; for more vapour than air takes up (quantity
 * "ethanol") with the most that it does
 * @remarks The mean of a mixed room. At the liquid the air is richer, up to saturation, and burns long
 * before the mean does; in still air heavy vapour lies low. A tenth of the mean limit leaves room for a part
 * of that, not for a flame beside the beaker.
 * Source: mass balance of a mixed box.
 *
 * @example
 * const room = { volume: 25, airChanges: 0.5 / 3600, temperature: 25, pressure: 101325 };
 * roomVapour({ ethanol: 0.0316, duration: 0 }, room).peak; // 670 ppm, 100 mL of spilt spirit
 */
export function roomVapour(
  source: Source,
  room: MixedRoom,
  exposureLimit: number = EXPOSURE_LIMIT,
): RoomVapour {
  inRange("ethanol", source.ethanol, ROOM_LIMITS.ethanol);
  inRange("duration", source.duration, ROOM_LIMITS.duration);
  inRange("volume", room.volume, ROOM_LIMITS.volume);
  inRange("airChanges", room.airChanges, ROOM_LIMITS.airChanges);
  inRange("temperature", room.temperature, ROOM_LIMITS.temperature);
  inRange("pressure", room.pressure, ROOM_LIMITS.pressure);
  inRange("exposureLimit", exposureLimit, ROOM_LIMITS.level);
  const gas = GAS_CONSTANT * (room.temperature + 273.15);
  const shut = (source.ethanol * gas) / (MOLAR_MASS.ethanol * room.pressure * room.volume);
  const peak = shut * kept(room.airChanges * source.duration);
  const saturated = ethanolSaturationPressure(room.temperature) / room.pressure;
  if (peak > saturated)
    throw new OutOfRangeError("ethanol", source.ethanol, {
      ...ROOM_LIMITS.ethanol,
      max: (source.ethanol * saturated) / peak,
    });
  const alarm = ALARM_SHARE * EXPLOSIVE_LIMITS.lower;
  return {
    peak,
    shareOfLowerLimit: peak / EXPLOSIVE_LIMITS.lower,
    shareOfExposureLimit: peak / exposureLimit,
    clearOfFire: timeToClear(peak, alarm, room.airChanges),
    clearOfExposure: timeToClear(peak, exposureLimit, room.airChanges),
    airChangesNeeded: changesNeeded(shut, alarm, source.duration),
  };
}

/**
 * Time in which fresh air brings a room down to a level.
 *
 * t = ln(C/C_level) / n
 *
 * @param volumeFraction - vapour in the air, C, 0 to 1
 * @param level - 1e-9 to 1
 * @param airChanges - n, 0 to 1/36 per second
 * @returns s; 0 if it is there already, null if nothing changes the air
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function timeToClear(
  volumeFraction: number,
  level: number,
  airChanges: number,
): number | null {
  inRange("volumeFraction", volumeFraction, ROOM_LIMITS.volumeFraction);
  inRange("level", level, ROOM_LIMITS.level);
  inRange("airChanges", airChanges, ROOM_LIMITS.airChanges);
  if (volumeFraction <= level) return 0;
  return airChanges === 0 ? null : Math.log(volumeFraction / level) / airChanges;
}

/**
 * Share of a steady source that is still in the room when it ends, from the number of air changes meanwhile.
 */
function kept(changes: number): number {
  return changes === 0 ? 1 : -Math.expm1(-changes) / changes;
}

function changesNeeded(shut: number, level: number, duration: number): number | null {
  if (shut <= level) return 0;
  if (duration === 0) return null;
  // The share kept is under 1/changes, so the root lies below their ratio; for many changes by less than
  // rounding, hence twice that.
  return brent((n) => kept(n) - level / shut, 0, (2 * shut) / level, 1e-12) / duration;
}
