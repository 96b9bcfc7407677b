import { BATH_LEVEL_LIMITS } from "../../laws/bath-level.ts";
import { HANG_LIMITS } from "../../laws/hang.ts";
import { STAND_LIMITS } from "../../laws/stand-balance.ts";
import { quantity } from "../calculation.ts";
import { COUNT, DENSITY, LENGTH, MASS } from "./kinds.ts";

const measured = {
  absolute: 0.001,
  because: "a ruler, read to a millimetre (common practice, no source)",
} as const;
const wavering = {
  absolute: 0.002,
  because: "the water wavers and the eye looks at a slant (common practice, no source)",
} as const;

const tankSide = {
  ...LENGTH,
  limits: BATH_LEVEL_LIMITS.length,
  uncertainty: {
    absolute: 0.002,
    because: "walls slope and corners are round (common practice, no source)",
  },
} as const;

export const bathLength = quantity("bathLength", {
  ...tankSide,
  label: "Tank, inside length",
  symbol: "L",
  default: 0.24,
  hint: "Between the walls, at half height",
});

export const bathWidth = quantity("bathWidth", {
  ...tankSide,
  label: "Tank, inside width",
  symbol: "W",
  default: 0.135,
  hint: "Between the walls, at half height",
});

const depth = { ...LENGTH, limits: BATH_LEVEL_LIMITS.depth } as const;

export const bathHeight = quantity("bathHeight", {
  ...depth,
  label: "Tank, inside height",
  symbol: "H",
  default: 0.1,
  hint: "From the floor to where water would run over",
  uncertainty: measured,
});

export const waterDepth = quantity("waterDepth", {
  ...depth,
  label: "Depth of water before the beaker goes in",
  symbol: "h_0",
  default: 0.068,
  hint: "Above the floor of the tank, nothing hung in it",
  uncertainty: wavering,
});

export const leastDepth = quantity("leastDepth", {
  ...depth,
  label: "Least depth of water for your bath",
  symbol: String.raw`h_\mathrm{min}`,
  default: 0.06,
  hint: "Up to its lower mark; without a mark, what its manual says. Below it heater and transducers are no longer cooled",
});

export const rimClearance = quantity("rimClearance", {
  ...LENGTH,
  label: "Water to end below the rim by",
  symbol: "r",
  limits: { min: 0, max: 0.5, unit: "m" },
  default: 0.02,
  hint: "With the beakers in; a fill mark decides. One laboratory’s procedure asks for 3 cm or less",
});

export const vesselDiameter = quantity("vesselDiameter", {
  ...LENGTH,
  label: "Beaker, outside diameter",
  symbol: "D",
  limits: HANG_LIMITS.vesselDiameter,
  default: 0.105,
  hint: "105 mm for a low beaker of one litre; measure yours below the rim",
  uncertainty: measured,
});

export const vesselHeight = quantity("vesselHeight", {
  ...LENGTH,
  label: "Beaker, height",
  symbol: String.raw`h_\mathrm{v}`,
  limits: HANG_LIMITS.vesselHeight,
  default: 0.145,
  hint: "From the bottom to the rim",
  uncertainty: measured,
});

export const wallThickness = quantity("wallThickness", {
  ...LENGTH,
  digits: 2,
  label: "Beaker, wall",
  symbol: String.raw`s_\mathrm{w}`,
  limits: HANG_LIMITS.thickness,
  default: 0.0013,
  hint: "At least 1.3 mm for one litre by the standard for beakers (from memory)",
  uncertainty: {
    absolute: 0.0003,
    because:
      "glass is blown, and thicker in one place than in another (common practice, no source)",
  },
});

export const baseThickness = quantity("baseThickness", {
  ...LENGTH,
  digits: 2,
  label: "Beaker, base",
  symbol: String.raw`s_\mathrm{b}`,
  limits: HANG_LIMITS.thickness,
  default: 0.002,
  hint: "About 2 mm; look through it from the side",
  uncertainty: {
    absolute: 0.0005,
    because: "seen through curved glass (common practice, no source)",
  },
});

export const immersion = quantity("immersion", {
  ...LENGTH,
  label: "Beaker below the water",
  symbol: "d",
  limits: HANG_LIMITS.immersion,
  default: 0.06,
  hint: "From the surface, once it has risen, down to the beaker’s bottom",
  uncertainty: wavering,
});

const leastClearance = { ...LENGTH, limits: BATH_LEVEL_LIMITS.clearance } as const;

export const wallClearanceLeast = quantity("wallClearanceLeast", {
  ...leastClearance,
  label: "Least gap to walls and neighbours",
  symbol: String.raw`c_\mathrm{w}`,
  default: 0.01,
  hint: "10 mm lets water and sound get round (common practice, no source)",
});

export const floorClearanceLeast = quantity("floorClearanceLeast", {
  ...leastClearance,
  label: "Least gap to the floor",
  symbol: String.raw`c_\mathrm{f}`,
  default: 0.02,
  hint: "20 mm keeps the glass off the transducers (common practice, no source)",
});

export const contentsMass = quantity("contentsMass", {
  ...MASS,
  label: "Liquid that hangs in the bath, all beakers",
  symbol: "m",
  limits: HANG_LIMITS.contentsMass,
  default: 0.5,
  hint: "The whole batch by weight; it is shared out over the beakers",
});

export const contentsDensity = quantity("contentsDensity", {
  ...DENSITY,
  label: "Density of the liquid in the beaker",
  symbol: String.raw`\varrho`,
  limits: HANG_LIMITS.density,
  default: 1050,
  hint: "As the recipe gives it",
});

export const bathDensity = quantity("bathDensity", {
  ...DENSITY,
  digits: 4,
  label: "Density of the bath water",
  symbol: String.raw`\varrho_\mathrm{b}`,
  limits: { min: 950, max: 1100, unit: "kg/m³" },
  default: 997,
  hint: "998 kg/m³ at 20 °C, 992 kg/m³ at 40 °C",
});

const reach = {
  ...LENGTH,
  units: ["cm", "mm", "in"],
  uncertainty: {
    absolute: 0.003,
    because: "from the middle of a rod, by ruler (common practice, no source)",
  },
} as const;

export const baseAhead = quantity("baseAhead", {
  ...reach,
  label: "Base, from the rod forward to its edge",
  symbol: "a",
  limits: { min: 0.01, max: 1, unit: "m" },
  default: 0.16,
  hint: "On the side of the bath; with feet, to the line through the two front feet",
});

export const baseBehind = quantity("baseBehind", {
  ...reach,
  label: "Base, from the rod back to its edge",
  symbol: "b",
  limits: { min: 0, max: 1, unit: "m" },
  default: 0.04,
  hint: "On the side away from the bath; 0 where the rod stands on the edge",
});

const weighed = {
  ...MASS,
  units: ["kg", "g", "lb"],
  digits: 3,
  limits: { min: 0, max: 50, unit: "kg" },
} as const;
const guessed = {
  relative: 0.05,
  because: "kitchen scale, or a bathroom scale for the base (common practice, no source)",
} as const;

export const baseMass = quantity("baseMass", {
  ...weighed,
  label: "Base by weight",
  symbol: String.raw`m_\mathrm{b}`,
  limits: { ...weighed.limits, min: 0.01 },
  default: 1.5,
  hint: "The plate alone; its centre is taken as its middle",
  uncertainty: guessed,
});

export const rodMass = quantity("rodMass", {
  ...weighed,
  label: "Rod by weight",
  symbol: String.raw`m_\mathrm{r}`,
  default: 0.3,
  hint: "0 where it was weighed with the base and stands in its middle",
  uncertainty: guessed,
});

export const clampMass = quantity("clampMass", {
  ...weighed,
  label: "Clamp and boss by weight",
  symbol: String.raw`m_\mathrm{c}`,
  default: 0.35,
  hint: "What carries the beaker",
  uncertainty: guessed,
});

export const clampArm = quantity("clampArm", {
  ...reach,
  label: "Clamp, from the rod to its middle",
  symbol: String.raw`x_\mathrm{c}`,
  limits: { min: 0, max: 1, unit: "m" },
  default: 0.1,
  hint: "Where it balances on a finger",
});

export const armLength = quantity("armLength", {
  ...reach,
  label: "Beaker, from the rod to its middle",
  symbol: "x",
  limits: { min: 0.01, max: 1.5, unit: "m" },
  default: 0.25,
  hint: "Level distance, whatever the height",
});

export const load = quantity("load", {
  ...weighed,
  label: "Hanging on the arm",
  symbol: String.raw`m_\ell`,
  limits: { min: 0, max: 60, unit: "kg" },
  default: 0.83,
  hint: "Beaker and liquid in air: the water carries nothing once you lift it out",
  uncertainty: guessed,
});

export const counterweightMass = quantity("counterweightMass", {
  ...weighed,
  label: "Counterweight",
  symbol: String.raw`m_\mathrm{k}`,
  default: 0,
  hint: "Laid or hung on the stand, away from the bath",
  uncertainty: guessed,
});

export const counterweightArm = quantity("counterweightArm", {
  ...reach,
  label: "Counterweight, from the rod back to its middle",
  symbol: "k",
  limits: { min: -1, max: 1, unit: "m" },
  default: 0.02,
  hint: "On the side away from the bath",
});

export const safetyFactor = quantity("safetyFactor", {
  ...COUNT,
  label: "Safety factor you want",
  symbol: "s",
  limits: STAND_LIMITS.safetyFactor,
  default: 2,
  hint: "2 leaves room for a nudge (common practice, no source)",
});

export const pushHeight = quantity("pushHeight", {
  ...reach,
  label: "Height of the clamp above the table",
  symbol: "h",
  limits: STAND_LIMITS.height,
  default: 0.35,
  hint: "Where a sleeve or a lead would catch",
});
