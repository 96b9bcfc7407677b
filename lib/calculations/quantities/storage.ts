import { KINETIC_LIMITS } from "../../laws/kinetic-temperature.ts";
import { OXYGEN_LIMITS } from "../../laws/oxygen.ts";
import { ACTIVATION_ENERGY, STORAGE_LIMITS } from "../../laws/storage-loss.ts";
import { quantity, readings } from "../calculation.ts";
import { MASS, RISE, SHARE, TEMPERATURE, TIME, VOLUME } from "./kinds.ts";

const DAY = 86_400;

/**
 * °C: the warmest that a fridge at home should be. Source: UK Food Standards Agency, 5 °C or below; the US
 * agency says 40 °F. seen
 */
export const FRIDGE_LIMIT = 5;
/** °C: the legal limit of UK food businesses, which is no target for a home. seen */
export const CHILL_LIMIT = 8;

/** Times in store. */
export const DAYS = { dimension: "time", units: ["d", "h"], digits: 3 } as const;
export const MOLAR_ENERGY = { dimension: "molarEnergy", units: ["kJ/mol"], digits: 3 } as const;
export const LOSS_RATE = { dimension: "rate", units: ["d⁻¹", "h⁻¹"], digits: 2 } as const;
/** Rates that can be read in a field, well inside STORAGE_LIMITS: a millionth an hour to all of it in minutes. */
const RATES = { min: 24e-6 / DAY, max: 120 / DAY, unit: "1/s" } as const;
export const AMOUNT = { dimension: "amount", units: ["µmol", "mmol"], digits: 3 } as const;

export const bottledVolume = quantity("bottledVolume", {
  label: "Liquid in one bottle",
  symbol: "V",
  ...VOLUME,
  limits: { min: 1e-6, max: OXYGEN_LIMITS.liquidVolume.max, unit: "m³" },
  default: 95e-6,
  hint: "By weight over density, or filled from a measured jug",
});

export const bottleHeadspace = quantity("bottleHeadspace", {
  label: "Air over the liquid in one bottle",
  symbol: String.raw`V_\mathrm{H}`,
  ...VOLUME,
  digits: 3,
  limits: OXYGEN_LIMITS.headspaceVolume,
  default: 5e-6,
  hint: "What the bottle holds to the brim, weighed with water, less the liquid in it",
  uncertainty: {
    absolute: 0.5e-6,
    because: "two weighings of a bottle to a few tenths of a gram (estimate)",
  },
});

export const bottlingTemperature = quantity("bottlingTemperature", {
  label: "Liquid and air when the bottle is closed",
  symbol: String.raw`T_\mathrm{c}`,
  ...TEMPERATURE,
  limits: OXYGEN_LIMITS.temperature,
  default: 20,
  hint: "The colder, the more oxygen both hold",
  uncertainty: {
    absolute: 0.5,
    because: "a kitchen probe is good to half a degree or a degree (common practice, no source)",
  },
});

export const bottleAscorbicAcid = quantity("bottleAscorbicAcid", {
  label: "Ascorbic acid in one bottle",
  symbol: String.raw`m_\mathrm{a}`,
  ...MASS,
  limits: OXYGEN_LIMITS.ascorbicAcidMass,
  default: 9.5e-3,
  hint: "Your recipe’s concentration times the liquid in the bottle",
});

/** °C: what a log of a fridge may hold, kept clear of the law’s ends by what a thermometer may be off. */
const LOGGED = {
  min: KINETIC_LIMITS.temperature.min + 5,
  max: KINETIC_LIMITS.temperature.max - 5,
  unit: "°C",
} as const;

export const fridgeLog = readings("fridgeLog", {
  label: "Log of the fridge",
  hint: "Paste a log, or type one reading a line: hours and minutes of the day run on over midnight; “36 h” or “1.5 d” count from the start",
  columns: [
    {
      name: "time",
      label: "Time",
      ...TIME,
      units: ["h", "d", "min"],
      digits: 4,
      limits: { min: 0, max: 366 * DAY, unit: "s" },
    },
    { name: "temperature", label: "Fridge", ...TEMPERATURE, limits: LOGGED },
  ],
  count: { min: 2, max: 2500 },
  // The invented day: a door opened for cooking at eight, and shopping put away in the evening.
  default: [
    2.3, 2.6, 2.4, 2.1, 2.4, 2.5, 2.2, 2.6, 4.9, 3.8, 2.9, 2.4, 2.5, 3.4, 2.7, 2.3, 2.4, 2.7, 10.2,
    8.6, 6.4, 4.6, 3.4, 2.7, 2.4,
  ].map((temperature, hour) => [hour * 3600, temperature]),
});

export const loggerOffset = quantity("loggerOffset", {
  label: "Thermometer in the fridge, off by",
  symbol: String.raw`\delta_T`,
  ...RISE,
  limits: { min: -5, max: 5, unit: "K" },
  default: 0,
  hint: "What it shows too little",
  hidden: true,
  uncertainty: {
    absolute: 0.5,
    because: "a household thermometer is good to about a degree (common practice, no source)",
  },
});

export const meanActivationEnergy = quantity("meanActivationEnergy", {
  label: "Activation energy for the mean",
  symbol: "E",
  ...MOLAR_ENERGY,
  limits: KINETIC_LIMITS.activationEnergy,
  // USUAL_ACTIVATION_ENERGY, rounded as a field shows it.
  default: 83_100,
  hint: "83.1 kJ/mol by custom; the larger, the more a warm hour counts",
  uncertainty: {
    // Anywhere between the published ends: a rectangle's width over √12 (GUM 4.3.7). memory
    absolute:
      (ACTIVATION_ENERGY.ethanolWater.high - ACTIVATION_ENERGY.ethanolWater.low) / Math.sqrt(12),
    because: "published energies for vitamin C in water and alcohol run from 43 to 97 kJ/mol",
  },
});

export const storeTemperature = quantity("storeTemperature", {
  label: "Temperature of the store",
  symbol: "T",
  ...TEMPERATURE,
  limits: STORAGE_LIMITS.temperature,
  default: 5,
  hint: "For one that changes, its mean kinetic temperature",
});

export const storeTime = quantity("storeTime", {
  label: "Time in store",
  symbol: "t",
  ...DAYS,
  limits: STORAGE_LIMITS.time,
  default: 14 * DAY,
  hint: "From the making",
});

export const activationEnergyLow = quantity("activationEnergyLow", {
  label: "Activation energy, lowest published",
  symbol: "E^-",
  ...MOLAR_ENERGY,
  limits: STORAGE_LIMITS.activationEnergy,
  default: ACTIVATION_ENERGY.ethanolWater.low,
  hint: "43.3 kJ/mol in water and alcohol, pH 3.2, in air",
});

export const activationEnergyHigh = quantity("activationEnergyHigh", {
  label: "Activation energy, highest published",
  symbol: "E^+",
  ...MOLAR_ENERGY,
  limits: STORAGE_LIMITS.activationEnergy,
  default: ACTIVATION_ENERGY.ethanolWater.high,
  hint: "96.7 kJ/mol in water and alcohol, pH 3.2, in air",
});

export const rateAtReferenceLow = quantity("rateAtReferenceLow", {
  label: "Share lost in a day, slowest published",
  symbol: "k_0^-",
  ...LOSS_RATE,
  limits: RATES,
  // The injection at 4 °C and orange juice at 5 °C of STORAGE_STUDIES, rounded as a field shows them.
  default: 0.0016 / DAY,
  hint: "0.0016 a day in a strong sterile solution, in the dark",
});

export const rateAtReferenceHigh = quantity("rateAtReferenceHigh", {
  label: "Share lost in a day, fastest published",
  symbol: "k_0^+",
  ...LOSS_RATE,
  limits: RATES,
  default: 0.046 / DAY,
  hint: "0.046 a day in orange juice",
});

export const studyTemperature = quantity("studyTemperature", {
  label: "Temperature those rates were measured at",
  symbol: String.raw`T_0`,
  ...TEMPERATURE,
  limits: STORAGE_LIMITS.temperature,
  default: 5,
  hint: "Near your store’s, so that little has to be carried over",
});

export const shareThatMustRemain = quantity("shareThatMustRemain", {
  label: "Share of the acid that must be left",
  symbol: String.raw`\ell`,
  ...SHARE,
  limits: STORAGE_LIMITS.share,
  default: 0.5,
  hint: "90 % is the custom for medicines, which are assayed; this is a date to be rid of it by",
});

export const timeOfLoss = quantity("timeOfLoss", {
  label: "Time until too much acid may be lost",
  symbol: String.raw`t_\mathrm{a}`,
  ...DAYS,
  // As long as the slowest rate within the limits may take.
  limits: { min: 0, max: 1e21, unit: "s" },
  default: 14 * DAY,
  endless: true,
  hint: "The cautious end",
});

export const fridgeCap = quantity("fridgeCap", {
  label: "Longest in a good fridge, whatever the acid does",
  symbol: String.raw`t_\mathrm{f}`,
  ...DAYS,
  // It can be made shorter only: a longer one would be a claim that nobody tested.
  limits: { min: 0, max: 14 * DAY, unit: "s" },
  default: 14 * DAY,
  hint: "Two weeks, for a thing without preservative that nobody tests (common practice, no source)",
});
