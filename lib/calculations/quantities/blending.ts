import { choice, quantity } from "../calculation.ts";
import {
  CONDUCTANCE,
  COUNT,
  HEAT_CAPACITY,
  MASS,
  POWER,
  SHARE,
  TEMPERATURE,
  TIME,
} from "./kinds.ts";

export const shaftPower = quantity("shaftPower", {
  label: "Power that the blades put into the liquid",
  symbol: "P",
  ...POWER,
  limits: { min: 0, max: 2000, unit: "W" },
  default: 150,
  hint: "Less than the rating on the motor; measure it in a minute of blending",
});

export const powerKnown = choice("powerKnown", {
  label: "That power is",
  hint: "Measured: from a rise of 5 K or more. It makes the band narrow",
  options: [
    { value: "guessed", label: "a guess" },
    { value: "measured", label: "measured" },
  ],
  default: "guessed",
});

const doubt = {
  ...SHARE,
  symbol: String.raw`\delta_P`,
  limits: { min: -0.9, max: 2, unit: "1" },
  default: 0,
  hint: "Share of the power",
  hidden: true,
} as const;

export const guessedPowerDoubt = quantity("guessedPowerDoubt", {
  ...doubt,
  label: "Power of the blades as a guess, off by",
  uncertainty: {
    absolute: 0.4,
    because:
      "motors rated 300 to 1000 W draw what the liquid asks of them, and not all of it arrives (estimate, no source)",
  },
});

export const measuredPowerDoubt = quantity("measuredPowerDoubt", {
  ...doubt,
  label: "Power of the blades as measured, off by",
  uncertainty: {
    absolute: 0.12,
    because:
      "two readings of a kitchen probe, 0.4 K off each, over a rise of 5 K (estimate); level and speed differ a little from run to run",
  },
});

export const blendTime = quantity("blendTime", {
  label: "Blending time",
  symbol: "t",
  ...TIME,
  units: ["s", "min"],
  limits: { min: 0, max: 1800, unit: "s" },
  default: 90,
  hint: "With the motor running, all pulses together",
});

export const pulses = quantity("pulses", {
  label: "Pulses it is split into",
  symbol: String.raw`n_\mathrm{p}`,
  ...COUNT,
  limits: { min: 1, max: 20, unit: "1" },
  default: 1,
  hint: "1 is a single run",
  whole: true,
});

export const pulseRest = quantity("pulseRest", {
  label: "Rest between two pulses",
  symbol: String.raw`t_\mathrm{p}`,
  ...TIME,
  limits: { min: 0, max: 7200, unit: "s" },
  default: 300,
  hint: "Motor off, the vessel left where it stands; with one pulse there is none",
});

export const liquidInVessel = quantity("liquidInVessel", {
  label: "Water and alcohol in the vessel",
  symbol: "m",
  ...MASS,
  limits: { min: 0.01, max: 20, unit: "kg" },
  default: 0.43,
  hint: "Powders not counted: they are with the vessel",
});

export const vesselWithPowders = quantity("vesselWithPowders", {
  label: "Heat capacity of vessel and powders",
  symbol: String.raw`C_\mathrm{v}`,
  ...HEAT_CAPACITY,
  digits: 3,
  limits: { min: 0, max: 50_000, unit: "J/K" },
  default: 380,
  hint: "Starts as your beaker; for another jug type its mass in kg times 830, and 130 or so for the powders of half a litre",
  uncertainty: { relative: 0.1, because: "typed in: taken as known to a tenth" },
});

export const blendStart = quantity("blendStart", {
  label: "Liquid when blending starts",
  symbol: "T_0",
  ...TEMPERATURE,
  limits: { min: 3, max: 60, unit: "°C" },
  default: 18,
  hint: "Read by a probe, stirred",
  uncertainty: {
    absolute: 0.5,
    because: "a kitchen probe is good to half a degree or a degree (common practice, no source)",
  },
});

export const blendLoss = quantity("blendLoss", {
  label: "Conductance from the vessel to the air",
  symbol: "G",
  ...CONDUCTANCE,
  limits: { min: 0, max: 20, unit: "W/K" },
  default: 0.4,
  hint: "0 if nothing is lost; in a minute or two it hardly matters",
  uncertainty: {
    relative: 0.5,
    because: "10 W/(m² K) over some 400 cm² of glass and lid; draughts differ (estimate)",
  },
});
