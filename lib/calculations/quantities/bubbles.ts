import { BUBBLE_LIMITS } from "../../laws/bubble.ts";
import { SKIMMING_LIMITS } from "../../laws/skimming.ts";
import { choice, quantity } from "../calculation.ts";
import { DENSITY, LENGTH, SHARE, VOLUME } from "./kinds.ts";

export const BUBBLE_WIDTH = { ...LENGTH, units: ["µm", "mm"] } as const;

export const bubbleDiameter = quantity("bubbleDiameter", {
  label: "Width of the bubble",
  symbol: "d",
  ...BUBBLE_WIDTH,
  limits: BUBBLE_LIMITS.bubbleDiameter,
  default: 1e-4,
  hint: "A tenth of a millimetre is the least that most eyes make out",
  presets: [
    { value: 3e-5, label: "haze" },
    { value: 1e-4, label: "just seen" },
    { value: 3e-4, label: "plainly seen" },
  ],
});

export const dispersionViscosity = quantity("dispersionViscosity", {
  label: "Viscosity of the liquid",
  symbol: String.raw`\mu`,
  dimension: "viscosity",
  units: ["mPa s", "Pa s"],
  digits: 3,
  limits: BUBBLE_LIMITS.viscosity,
  default: 2.5e-3,
  hint: "Water 1.0 mPa s at 20 °C, 1.5 at 5 °C; 12 % vol spirit half as much again; acid and lecithin thicken it",
  presets: [
    { value: 1e-3, label: "water" },
    { value: 2.5e-3, label: "thin as milk" },
    { value: 0.1, label: "runny as cream or oil" },
  ],
  uncertainty: {
    relative: 0.25,
    because: "nobody measures it at home, and lecithin has no one viscosity (estimate, no source)",
  },
});

export const aeratedDensity = quantity("aeratedDensity", {
  label: "Density of the liquid around the bubbles",
  symbol: String.raw`\varrho`,
  ...DENSITY,
  digits: 4,
  limits: BUBBLE_LIMITS.liquidDensity,
  default: 1050,
  hint: "As the recipe gives it",
});

export const bubbleDepth = quantity("bubbleDepth", {
  label: "Depth of the bubble",
  symbol: "h",
  ...LENGTH,
  limits: BUBBLE_LIMITS.depth,
  default: 0.08,
  hint: "From the surface down; the whole depth of liquid for the last bubble to come up",
});

export const surface = choice("bubbleSurface", {
  label: "Surface of the bubble",
  hint: "Lecithin covers it and makes it rigid; only in clean water or spirit is it mobile",
  options: [
    { value: "rigid", label: "rigid, covered with lecithin" },
    { value: "mobile", label: "mobile, clean" },
  ],
  default: "rigid",
});

export const soundFrequency = quantity("soundFrequency", {
  label: "Frequency of the bath",
  symbol: "f",
  dimension: "frequency",
  units: ["kHz", "Hz"],
  digits: 3,
  limits: BUBBLE_LIMITS.frequency,
  default: 40_000,
  hint: "On its plate; cleaning baths mostly have 35 to 45 kHz",
  uncertainty: {
    relative: 0.02,
    because: "baths drift and sweep by a kilohertz (common practice, no source)",
  },
});

export const skimmedVolume = quantity("skimmedVolume", {
  label: "Foam that is skimmed off",
  symbol: String.raw`V_\mathrm{f}`,
  ...VOLUME,
  digits: 3,
  limits: { ...SKIMMING_LIMITS.skimmedVolume, max: 0.02 },
  default: 40e-6,
  hint: "As it lies in the spoon, bubbles and all",
  uncertainty: { relative: 0.1, because: "spoons of foam are not level (common practice)" },
});

export const gasShare = quantity("gasShare", {
  label: "Gas in the foam",
  symbol: "g",
  ...SHARE,
  limits: SKIMMING_LIMITS.gasShare,
  default: 0.7,
  hint: "Half for fresh wet froth, nine tenths for a dry one; a weighed spoonful tells",
  uncertainty: {
    absolute: 0.1,
    because: "judged by eye: wet froth and dry differ more (common practice, no source)",
  },
});
