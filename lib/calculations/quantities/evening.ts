import { quantity } from "../calculation.ts";
import { COUNT, TEMPERATURE, TIME, VOLUME } from "./kinds.ts";

/** s: nobody does one thing for longer of an evening. */
const DAY = 86_400;

const byHand = {
  ...TIME,
  units: ["min", "s"],
  digits: 2,
  limits: { min: 0, max: 7200, unit: "s" },
  uncertainty: {
    relative: 0.3,
    because: "hands differ, and so do evenings; time yours once (common practice, no source)",
  },
} as const;

const waited = {
  ...TIME,
  limits: { min: 0, max: DAY, unit: "s" },
  uncertainty: { relative: 0.2, because: "typed in: taken as known to a fifth" },
} as const;

export const ingredients = quantity("ingredients", {
  label: "Ingredients weighed into each beaker",
  symbol: String.raw`n_\mathrm{i}`,
  ...COUNT,
  limits: { min: 1, max: 8, unit: "1" },
  whole: true,
  default: 4,
  hint: "Water, spirit, acid and lecithin are four",
});

export const weighTime = quantity("weighTime", {
  ...byHand,
  label: "Weighing in one ingredient",
  symbol: String.raw`t_\mathrm{w}`,
  default: 120,
  hint: "With writing down what the scale showed (common practice, no source)",
});

export const dissolveTime = quantity("dissolveTime", {
  ...byHand,
  label: "Dissolving and stirring, one beaker",
  symbol: String.raw`t_\mathrm{d}`,
  default: 900,
  hint: "Until no grain of acid is left and the lecithin is wet through (common practice, no source)",
});

export const coolTime = quantity("coolTime", {
  ...waited,
  label: "Cooling before blending",
  symbol: String.raw`t_\mathrm{c}`,
  default: 240,
  hint: "All beakers at once, in the same cold water",
});

export const setUpTime = quantity("setUpTime", {
  ...byHand,
  label: "Setting up the bath for one load",
  symbol: String.raw`t_\mathrm{s}`,
  default: 480,
  hint: "Cold water in, beakers hung, probe in the liquid (common practice, no source)",
});

export const liftTime = quantity("liftTime", {
  ...byHand,
  label: "Lifting one load out",
  symbol: String.raw`t_\mathrm{l}`,
  default: 180,
  hint: "Switched off and unplugged first, then dried off (common practice, no source)",
});

export const bubbleTime = quantity("bubbleTime", {
  ...waited,
  label: "Letting bubbles come up",
  symbol: String.raw`t_\mathrm{b}`,
  default: 40,
  hint: "All beakers at once, standing still; the finest haze takes an hour and more",
});

export const skimTime = quantity("skimTime", {
  ...byHand,
  label: "Skimming one beaker",
  symbol: String.raw`t_\mathrm{k}`,
  default: 240,
  hint: "With a spoon, foam and film (common practice, no source)",
});

export const fillTime = quantity("fillTime", {
  ...byHand,
  label: "Filling one bottle",
  symbol: String.raw`t_\mathrm{f}`,
  default: 120,
  hint: "Filled, closed, wiped and labelled (common practice, no source)",
});

export const bottles = quantity("bottles", {
  label: "Full bottles",
  symbol: String.raw`n_\mathrm{B}`,
  ...COUNT,
  limits: { min: 0, max: 10_000, unit: "1" },
  whole: true,
  default: 4,
  hint: "A last one that is not full is counted below",
});

export const lastBottle = quantity("lastBottle", {
  label: "Left for a last bottle that is not full",
  symbol: String.raw`V_\mathrm{z}`,
  ...VOLUME,
  digits: 2,
  limits: { min: 0, max: 0.02, unit: "m³" },
  default: 80e-6,
  hint: "It takes as long to fill and close as a full one; 0 for none",
});

export const bottleLiquid = quantity("bottleLiquid", {
  label: "Liquid in one bottle that is chilled",
  symbol: String.raw`V_\mathrm{F}`,
  ...VOLUME,
  digits: 3,
  limits: { min: 1e-6, max: 0.02, unit: "m³" },
  default: 0.1e-3,
  hint: "A small bottle is cold sooner",
  uncertainty: { relative: 0.02, because: "filled by eye (common practice, no source)" },
});

const probe = {
  absolute: 1,
  because: "read while pouring, with a kitchen probe (common practice, no source)",
} as const;

export const chillStart = quantity("chillStart", {
  label: "Liquid when it goes into the fridge",
  symbol: "T_0",
  ...TEMPERATURE,
  limits: { min: 0, max: 60, unit: "°C" },
  default: 25,
  hint: "Read by a probe while you bottle",
  uncertainty: probe,
});

export const chillTarget = quantity("chillTarget", {
  label: "Cold enough at",
  symbol: "T_1",
  ...TEMPERATURE,
  limits: { min: 0, max: 25, unit: "°C" },
  default: 8,
  hint: "8 °C is where UK law on chilled food begins (memory)",
});

export const fridgeTemperature = quantity("fridgeTemperature", {
  label: "Air in the fridge",
  symbol: String.raw`T_\mathrm{f}`,
  ...TEMPERATURE,
  limits: { min: -5, max: 20, unit: "°C" },
  default: 5,
  hint: "5 °C or below: a thermometer in a glass of water tells",
  uncertainty: { absolute: 1, because: "fridges swing by a degree or two (common practice)" },
});

export const fridgeFilm = quantity("fridgeFilm", {
  label: "Heat transfer from a bottle to that air",
  symbol: "h",
  dimension: "heatTransferCoefficient",
  units: ["W/(m² K)"],
  digits: 2,
  limits: { min: 1, max: 1000, unit: "W/(m² K)" },
  default: 10,
  hint: "10 W/(m² K) for a bottle with air all around it; less in a crowd, 300 in iced water",
  uncertainty: {
    relative: 0.4,
    because: "free convection and radiation together, and neighbours in the way (estimate)",
  },
});
