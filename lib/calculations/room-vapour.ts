import { OutOfRangeError } from "../errors.ts";
import { EXPLOSIVE_LIMITS } from "../laws/flash-point.ts";
import { ALARM_SHARE, EXPOSURE_LIMIT, roomVapour as roomVapourOf } from "../laws/room-vapour.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import { solventMassFraction } from "./quantities/batch.ts";
import { roomTemperature } from "./quantities/heat.ts";
import { COUNT, MASS, RATE, SHARE, TIME } from "./quantities/kinds.ts";
import {
  airChanges,
  airPressure,
  evaporationTime,
  roomVolume,
  spilledMass,
} from "./quantities/vapour.ts";

const inputs = {
  spilledMass,
  solventMassFraction,
  roomVolume,
  airChanges,
  evaporationTime,
  temperature: roomTemperature,
  pressure: airPressure,
} as const;

type Given = InputValues<typeof inputs>;

const share: Omit<Result, "label" | "symbol"> = { ...SHARE, bounds: { min: 0 } };
const PARTS = { dimension: "parts", units: ["ppm"], digits: 3 } as const;
const MILLION = 1e6;

export const roomVapour = defineCalculation({
  id: "room-vapour",
  title: "Vapour in the room",
  summary:
    "What a spill or a drying beaker makes of the room’s air, and how long until it is clear",
  inputs,
  links: { solventMassFraction: "recipe.solventMassFraction" },
  results: {
    peakConcentration: {
      ...share,
      units: ["%", "ppm"],
      label: "Vapour in the mixed room, at most",
      symbol: "C",
      hint: "Ethanol’s share of the air, by volume, when the last of it has evaporated",
    },
    peakParts: {
      ...PARTS,
      label: "The same in parts per million",
      symbol: String.raw`C_\mathrm{ppm}`,
      bounds: { min: 0 },
    },
    lowerLimitShare: {
      ...share,
      label: "As a share of what burns",
      symbol: "s",
      hint: "At 10 % work stops; near the liquid and near the floor it is richer than this mean",
    },
    exposureShare: {
      ...share,
      label: "As a share of the exposure limit",
      symbol: "e",
      hint: "The limit is meant for the mean of a working day of eight hours",
    },
    timeToClear: {
      ...TIME,
      label: "Until a tenth of the lower limit is left",
      symbol: String.raw`t_\mathrm{c}`,
      none: "never",
      hint: "After the last has evaporated. 0: not above it at all. “Never”: with no fresh air it stays",
      byFactor: true,
      bounds: { min: 0 },
    },
    airChangesNeeded: {
      ...RATE,
      label: "Fresh air that keeps it below that tenth",
      symbol: String.raw`n_\mathrm{c}`,
      hint: "“None”: no draught is quick enough for so sudden a spill",
      byFactor: true,
      bounds: { min: 0 },
    },
    ethanolMass: {
      ...MASS,
      digits: 3,
      label: "Pure alcohol in it",
      symbol: String.raw`m_\mathrm{E}`,
      bounds: { min: 0 },
      minor: true,
    },
    shutConcentration: {
      ...share,
      units: ["%", "ppm"],
      digits: 3,
      label: "Vapour, if no air came in",
      symbol: "C_0",
      minor: true,
    },
    changesMeanwhile: {
      ...COUNT,
      label: "Room volumes of fresh air meanwhile",
      symbol: "N",
      bounds: { min: 0 },
      minor: true,
    },
    keptShare: {
      ...share,
      digits: 3,
      label: "Share of it still in the room",
      symbol: "k",
      minor: true,
    },
  },
  compute: (given) => {
    const ethanolMass = given.spilledMass * given.solventMassFraction;
    const room = inRoom(given, ethanolMass, given.evaporationTime);
    const shut = inRoom({ ...given, airChanges: 0 }, ethanolMass, 0).peak;
    return {
      peakConcentration: room.peak,
      peakParts: room.peak * MILLION,
      lowerLimitShare: room.shareOfLowerLimit,
      exposureShare: room.shareOfExposureLimit,
      timeToClear: room.clearOfFire,
      airChangesNeeded: room.airChangesNeeded,
      ethanolMass,
      shutConcentration: shut,
      changesMeanwhile: given.airChanges * given.evaporationTime,
      keptShare: shut === 0 ? 1 : room.peak / shut,
    };
  },
  steps: [
    {
      result: "ethanolMass",
      tex: (slot) => String.raw`${slot("solventMassFraction")}\by ${slot("spilledMass")}`,
    },
    {
      result: "changesMeanwhile",
      tex: (slot) => String.raw`${slot("airChanges")}\by ${slot("evaporationTime")}`,
    },
    {
      result: "peakConcentration",
      tex: (slot) => String.raw`${slot("keptShare")}\by ${slot("shutConcentration")}`,
    },
  ],
  figures: [
    {
      id: "over-time",
      title: "The mixed room, hour by hour",
      caption:
        "Ethanol in the room’s air: it climbs while the liquid evaporates and falls as fresh air comes in. A tenth of the lower limit is where work stops. At the puddle the air is far richer than this mean.",
      data: (given) => {
        const { evaporationTime: ends, airChanges: n } = given;
        const ethanol = given.spilledMass * given.solventMassFraction;
        const { peak } = inRoom(given, ethanol, ends);
        const rising = Array.from({ length: 16 }, (_, i) => (ends * i) / 15).map(
          (t): [number, number] => [t, t === 0 ? 0 : inRoom(given, (ethanol * t) / ends, t).peak],
        );
        const span = Math.max(2 * ends, DRAWN);
        const falling = Array.from({ length: 31 }, (_, i) => (span * i) / 30).map(
          (t): [number, number] => [ends + t, peak * Math.exp(-n * t)],
        );
        return {
          x: { label: "Time since the spill", of: TIME },
          y: { label: "Ethanol in the air", of: { ...SHARE, units: ["ppm"], digits: 3 } },
          lines: [{ label: "mixed room", points: [...(ends === 0 ? [] : rising), ...falling] }],
          rules: [
            { y: EXPOSURE_LIMIT, label: "exposure limit" },
            { y: ALARM_SHARE * EXPLOSIVE_LIMITS.lower, label: "a tenth of the lower limit" },
          ],
          marks: [{ x: ends, y: peak, label: "at most" }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "flammable",
      when: (_, { lowerLimitShare: of }) => (of?.high ?? 0) > ALARM_SHARE,
      say: (_, { lowerLimitShare: of }) =>
        phrase`The whole room ${(of?.value ?? 0) > ALARM_SHARE ? "would" : "may"} hold more than a tenth of what burns: ${amount(of?.value ?? 0, share)} of it on the mean, up to ${amount(of?.high ?? 0, share)}, and near the liquid it burns now. Stop, no flame, touch no switch, open doors and windows on your way out, and come back when it has cleared.`,
    },
    {
      caution: "ventilation",
      when: (_, { lowerLimitShare: of, exposureShare: exposure }) =>
        (of?.high ?? 0) <= ALARM_SHARE && (exposure?.value ?? 0) > 1,
      say: (_, { peakParts: parts }) =>
        phrase`The air would hold ${amount(parts?.value ?? 0, PARTS)}, more than the ${amount(EXPOSURE_LIMIT * MILLION, PARTS)} that workplaces allow on the mean of a day. Open the windows and stay out until it has cleared; the puddle itself can burn.`,
    },
  ],
  sources: [
    "niosh-ethanol",
    "nfpa-497",
    "ecfr-29-1910-146",
    "air-change-studies",
    "common-practice",
  ],
});

/** s: shown at least, after all has evaporated. */
const DRAWN = 4 * 3600;

/** The law, with its refusal in the reader's own words. */
function inRoom(given: Given, ethanol: number, duration: number): ReturnType<typeof roomVapourOf> {
  const room = {
    volume: given.roomVolume,
    airChanges: given.airChanges,
    temperature: given.temperature,
    pressure: given.pressure,
  };
  try {
    return roomVapourOf({ ethanol, duration }, room);
  } catch (error) {
    if (error instanceof OutOfRangeError && error.quantity === "ethanol")
      throw new RefusedError(
        "spilledMass",
        phrase`All the air of this room takes up no more than ${amount(error.limits.max / given.solventMassFraction, spilledMass)} of it, and air so full of vapour burns at a spark. Get out and stay out; to compute on, type less, or a larger room.`,
      );
    throw error;
  }
}
