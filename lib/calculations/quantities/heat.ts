import { PROGRAMME_LIMITS } from "../../laws/heat-programme.ts";
import { choice, quantity } from "../calculation.ts";
import {
  CONDUCTANCE,
  COUNT,
  HEAT_CAPACITY,
  POWER,
  SHARE,
  SPECIFIC_HEAT,
  TEMPERATURE,
  TIME,
  VOLUME,
} from "./kinds.ts";

const watery = { min: 3, max: 60, unit: "°C" } as const;
const probe = {
  absolute: 0.5,
  because: "a kitchen probe is good to half a degree or a degree (common practice, no source)",
} as const;

export const roomTemperature = quantity("roomTemperature", {
  label: "Temperature of the room",
  symbol: String.raw`T_\mathrm{a}`,
  ...TEMPERATURE,
  limits: { min: 0, max: 45, unit: "°C" },
  default: 20,
  hint: "Of the air around bath and beaker",
  uncertainty: {
    absolute: 1,
    because: "a room changes by a degree while one works (common practice, no source)",
  },
});

/** A fact of that evening: the batch’s own room may be warmer by now. */
export const readingRoom = quantity("readingRoom", {
  ...roomTemperature,
  label: "Temperature of the room while you read",
  hint: "On the evening of the readings; today’s room may be another",
  uncertainty: {
    absolute: 0.5,
    because: "the mean over an hour, by a kitchen thermometer (common practice, no source)",
  },
});

export const liquidTemperature = quantity("liquidTemperature", {
  label: "Liquid at the start",
  symbol: String.raw`T_{\ell,0}`,
  ...TEMPERATURE,
  limits: watery,
  default: 22,
  hint: "Read by a probe in the beaker, stirred",
  uncertainty: probe,
});

export const bathTemperature = quantity("bathTemperature", {
  label: "Bath at the start",
  symbol: String.raw`T_{\mathrm{b},0}`,
  ...TEMPERATURE,
  limits: watery,
  default: 22,
  hint: "Read by a probe in the bath water, not on its display",
  uncertainty: probe,
});

export const ceiling = quantity("ceiling", {
  label: "Your ceiling",
  symbol: String.raw`T_\mathrm{max}`,
  ...TEMPERATURE,
  limits: { min: 4, max: 60, unit: "°C" },
  default: 32,
  hint: "The highest temperature you allow the liquid: 32 °C in the later stages is common practice, no source",
});

export const stintTime = quantity("stintTime", {
  label: "One stint",
  symbol: String.raw`t_\mathrm{on}`,
  ...TIME,
  limits: { min: 60, max: 21_600, unit: "s" },
  default: 1200,
  hint: "The bath’s ultrasound runs this long without a pause",
});

export const restTime = quantity("restTime", {
  label: "Rest between stints",
  symbol: String.raw`t_\mathrm{off}`,
  ...TIME,
  limits: { min: 0, max: 43_200, unit: "s" },
  default: 1200,
  hint: "Ultrasound off, the beaker left in the bath",
});

export const stints = quantity("stints", {
  label: "Number of stints",
  symbol: String.raw`n_\mathrm{s}`,
  ...COUNT,
  limits: { ...PROGRAMME_LIMITS.stints, max: 20 },
  default: 3,
  hint: "One rest between two",
  whole: true,
});

export const heaterOn = choice("heaterOn", {
  label: "Heater of the bath",
  hint: "Off for the later stages; on to warm up for dissolving",
  options: [
    { value: "off", label: "off" },
    { value: "on", label: "on, with its thermostat" },
  ],
  default: "off",
});

export const heaterPower = quantity("heaterPower", {
  label: "Power of the heater",
  symbol: String.raw`P_\mathrm{h}`,
  ...POWER,
  limits: { min: 0, max: 3000, unit: "W" },
  default: 150,
  hint: "On the bath’s type plate, apart from the ultrasound",
});

export const heaterSetting = quantity("heaterSetting", {
  label: "Setting of the heater",
  symbol: String.raw`T_\mathrm{set}`,
  ...TEMPERATURE,
  limits: { min: 5, max: 80, unit: "°C" },
  default: 30,
  hint: "Bath temperature at which the thermostat holds; it must not lie above your ceiling",
});

export const ratedPower = quantity("ratedPower", {
  label: "Rated ultrasonic power",
  symbol: String.raw`P_\mathrm{rated}`,
  ...POWER,
  limits: { min: 1, max: 2000, unit: "W" },
  default: 80,
  hint: "On the type plate; the heater is not counted",
});

export const liquidShare = quantity("liquidShare", {
  label: "Share of it that ends as heat in the liquid",
  symbol: String.raw`\eta_\ell`,
  ...SHARE,
  limits: { min: 0, max: 1, unit: "1" },
  default: 0.05,
  hint: "Through the glass into the beaker; unknown until you have readings of your own",
  uncertainty: {
    absolute: 0.025,
    because: "differs from bath to bath and with the place in it (common practice, no source)",
  },
});

export const bathShare = quantity("bathShare", {
  label: "Share of it that ends as heat in the bath water",
  symbol: String.raw`\eta_\mathrm{b}`,
  ...SHARE,
  limits: { min: 0, max: 1, unit: "1" },
  default: 0.4,
  hint: "The rest warms the electronics and the air",
  uncertainty: {
    absolute: 0.1,
    because:
      "makers’ manuals give 10 to 15 K an hour, 12 to 17 W for each litre, where labels say 30 to 100",
  },
});

const conductance = {
  ...CONDUCTANCE,
  limits: { min: 0.01, max: 100, unit: "W/K" },
} as const;

export const exchangeGuess = quantity("exchangeGuess", {
  ...conductance,
  label: "Guess of the conductance between liquid and bath",
  symbol: String.raw`G_0`,
  default: 6,
  hint: "3 to 15 for half a litre: 3 for still liquids, 15 for streaming ones",
  uncertainty: {
    relative: 0.33,
    because:
      "free convection alone gives 3, streaming water up to 15, and it is not constant: 109 to 185 W/(m² K) between 1 and 20 K",
  },
});

export const exchangeConductance = quantity("exchangeConductance", {
  ...conductance,
  label: "Conductance between liquid and bath",
  symbol: "G",
  default: 6,
  hint: "Watts that cross the glass for each degree between the two",
  uncertainty: { relative: 0.1, because: "typed in: taken as known to a tenth" },
});

const typedPower = {
  ...POWER,
  limits: { min: 0, max: 2000, unit: "W" },
  uncertainty: { relative: 0.1, because: "typed in: taken as known to a tenth" },
} as const;

export const powerToLiquid = quantity("powerToLiquid", {
  ...typedPower,
  label: "Power to the liquid",
  symbol: String.raw`P_\ell`,
  default: 4,
  hint: "Heat that the ultrasound leaves in one beaker",
});

export const powerToBath = quantity("powerToBath", {
  ...typedPower,
  label: "Power to the bath",
  symbol: String.raw`P_\mathrm{b}`,
  default: 32,
  hint: "Heat that the ultrasound leaves in the bath water",
});

/** What readings of a bath are fitted for, each with the result of `heat-fit` that says how sure it is. */
export const FITTED = [
  { of: powerToLiquid, error: "powerToLiquidError" },
  { of: powerToBath, error: "powerToBathError" },
  { of: exchangeConductance, error: "exchangeConductanceError" },
] as const;

export const assumedBathPower = quantity("assumedBathPower", {
  ...typedPower,
  label: "Power to the bath, where it was not read",
  symbol: String.raw`P_{\mathrm{b},0}`,
  default: 32,
  hint: "Used only where readings of the bath are missing; the search starts from it too",
});

const typedCapacity = {
  ...HEAT_CAPACITY,
  limits: { min: 10, max: 500_000, unit: "J/K" },
  uncertainty: { relative: 0.02, because: "typed in: taken as known to 2 %" },
} as const;

export const liquidHeatCapacity = quantity("liquidHeatCapacity", {
  ...typedCapacity,
  label: "Heat capacity of liquid and beaker",
  symbol: String.raw`C_\ell`,
  default: 2230,
  hint: "Joules that warm one filled beaker by one degree",
});

export const bathHeatCapacity = quantity("bathHeatCapacity", {
  ...typedCapacity,
  label: "Heat capacity of bath and tank",
  symbol: String.raw`C_\mathrm{b}`,
  default: 9600,
  hint: "Joules that warm the bath by one degree",
});

export const liquidLossConductance = quantity("liquidLossConductance", {
  label: "Conductance from liquid to air",
  symbol: String.raw`G_\ell`,
  ...CONDUCTANCE,
  limits: { min: 0, max: 20, unit: "W/K" },
  default: 0.3,
  hint: "Through the open top and the glass above the water; less with a cover",
  uncertainty: { relative: 0.5, because: "draughts and covers differ (estimate, no source)" },
});

export const bathLossConductance = quantity("bathLossConductance", {
  label: "Conductance from bath to air",
  symbol: String.raw`G_\mathrm{b}`,
  ...CONDUCTANCE,
  limits: { min: 0, max: 50, unit: "W/K" },
  default: 2,
  hint: "Mostly evaporation from the open water; half of it with a lid",
  uncertainty: {
    relative: 0.3,
    because:
      "evaporation, the larger part, grows with warmth and draught; a constant stands for it here",
  },
});

export const bathWaterVolume = quantity("bathWaterVolume", {
  label: "Water in the bath",
  symbol: String.raw`V_\mathrm{b}`,
  ...VOLUME,
  units: ["L", "mL", "fl oz"],
  limits: { min: 0.1e-3, max: 0.05, unit: "m³" },
  default: 2.2e-3,
  hint: "With the beaker in place",
  uncertainty: {
    relative: 0.05,
    because: "filled to a mark that is not sharp (common practice, no source)",
  },
});

export const tankHeatCapacity = quantity("tankHeatCapacity", {
  label: "Heat capacity of the tank itself",
  symbol: String.raw`C_\mathrm{tank}`,
  ...HEAT_CAPACITY,
  digits: 2,
  limits: { min: 0, max: 10_000, unit: "J/K" },
  default: 400,
  hint: "0.8 kg of thin steel at 500 J/(kg K)",
  uncertainty: { relative: 0.5, because: "how much of the metal warms along is a guess" },
});

export const beakersInBath = quantity("beakersInBath", {
  label: "Beakers in the bath at once",
  symbol: String.raw`n_\mathrm{b}`,
  ...COUNT,
  limits: { min: 1, max: 8, unit: "1" },
  whole: true,
  default: 1,
  hint: "They share the bath; each holds its part of the batch",
});

const powderHeat = {
  ...SPECIFIC_HEAT,
  digits: 3,
  limits: { min: 500, max: 4200, unit: "J/(kg K)" },
} as const;

export const ascorbicAcidHeat = quantity("ascorbicAcidHeat", {
  ...powderHeat,
  label: "Specific heat of dissolved ascorbic acid",
  symbol: String.raw`c_\mathrm{a}`,
  default: 1450,
  hint: "Leave it unless you have measured it",
  uncertainty: {
    absolute: 125,
    because: "crystals have about 1.2 kJ/(kg K), a dissolved sugar up to 1.7 (memory)",
  },
});

export const lecithinHeat = quantity("lecithinHeat", {
  ...powderHeat,
  label: "Specific heat of lecithin",
  symbol: String.raw`c_\mathrm{l}`,
  default: 2000,
  hint: "Leave it unless you have measured it",
  uncertainty: {
    absolute: 120,
    because: "vegetable oils have 1.9 to 2.1 kJ/(kg K), a de-oiled powder less (memory)",
  },
});

export const glassHeat = quantity("glassHeat", {
  ...powderHeat,
  label: "Specific heat of the beaker’s glass",
  symbol: String.raw`c_\mathrm{g}`,
  digits: 3,
  default: 830,
  hint: "830 J/(kg K) for borosilicate",
  uncertainty: { absolute: 30, because: "tables give 800 to 900 by the range they average over" },
});

export const meanTemperature = quantity("meanTemperature", {
  label: "Temperature the heat capacities are taken at",
  symbol: String.raw`\bar T`,
  ...TEMPERATURE,
  limits: watery,
  default: 25,
  hint: "Somewhere between the start and your ceiling: 10 degrees change them by less than 1 %",
});

export const mixtureHeatDoubt = quantity("mixtureHeatDoubt", {
  label: "Table of the mixture’s specific heat, off by",
  symbol: String.raw`\delta_c`,
  ...SHARE,
  limits: { min: -0.2, max: 0.2, unit: "1" },
  default: 0,
  hint: "Share of the tabulated value",
  hidden: true,
  uncertainty: {
    absolute: 0.02,
    because: "tables of alcohol and water differ from one another by up to 4 %",
  },
});
