import { EDGE_CRACK, FLAW_LIMITS, GLASS_TOUGHNESS, REFERENCE_LOAD_TIME } from "../../laws/flaw.ts";
import { THERMAL_STRESS_LIMITS } from "../../laws/thermal-stress.ts";
import { GLASSES, glassValues, PERMISSIBLE_TENSION } from "../../substances/glass.ts";
import { choice, quantity } from "../calculation.ts";
import { COVERAGE } from "../graph.ts";
import { DENSITY, LENGTH, RISE, SPECIFIC_HEAT, STRESS, TEMPERATURE, TIME } from "./kinds.ts";

export const MODULUS = { dimension: "pressure", units: ["GPa"], digits: 3 } as const;
export const EXPANSION = { dimension: "expansion", units: ["ppm/K", "K⁻¹"], digits: 3 } as const;
export const CONDUCTIVITY = {
  dimension: "thermalConductivity",
  units: ["W/(m K)"],
  digits: 3,
} as const;
export const FLAW_DEPTH = { ...LENGTH, units: ["mm", "µm"], digits: 2 } as const;
export const INTENSITY = { dimension: "stressIntensity", units: ["MPa √m"], digits: 2 } as const;

const borosilicate = glassValues(GLASSES["borosilicate-3.3"]);

export const glass = choice("glass", {
  label: "Kind of glass",
  hint: "Laboratory beakers say what they are; jars and bottles are soda-lime",
  options: [
    { value: "borosilicate-3.3", label: "borosilicate 3.3" },
    { value: "soda-lime", label: "soda-lime (jars)" },
    { value: "fused-silica", label: "fused silica" },
    { value: "own", label: "my own values" },
  ],
  default: "borosilicate-3.3",
});

export const cooledFaces = choice("cooledFaces", {
  label: "What the step reaches",
  hint: "Both: dipped so that it fills. Full: contents keep the other face as it was, the safe choice",
  options: [
    { value: "one", label: "one face, empty" },
    { value: "both", label: "both faces" },
    { value: "full", label: "one face, full" },
  ],
  default: "one",
});

export const temperatureStep = quantity("temperatureStep", {
  label: "Sudden step",
  symbol: String.raw`\Delta T`,
  ...RISE,
  digits: 3,
  // As far as the properties are stated for.
  limits: { min: -300, max: 300, unit: "K" },
  default: 30,
  hint: "Glass before, minus its new surroundings: above zero cools, below zero heats",
  uncertainty: {
    absolute: 0.7,
    because: "two readings of a kitchen probe, each good to half a degree",
  },
});

export const heatTransferCoefficient = quantity("heatTransferCoefficient", {
  label: "Heat transfer at the glass",
  symbol: "h",
  dimension: "heatTransferCoefficient",
  units: ["W/(m² K)"],
  digits: 3,
  limits: { min: 2, max: 1e9, unit: "W/(m² K)" },
  endless: true,
  default: 1000,
  hint: "“infinite” for a surface that takes the new temperature at once: the strictest case",
  presets: [
    { value: 10, label: "still air, fridge" },
    { value: 500, label: "standing water" },
    { value: 1000, label: "water, dipped in" },
    { value: 5000, label: "water jet" },
    { value: 1e9, label: "at once" },
  ],
  uncertainty: {
    relative: 0.35,
    because: "tables give 200 to 1000 for standing water and 50 to 20 000 for moving water",
  },
});

export const permissibleStress = quantity("permissibleStress", {
  label: "Tension that you allow",
  symbol: String.raw`\sigma_\mathrm{p}`,
  ...STRESS,
  limits: { min: 1e5, max: 2e8, unit: "Pa" },
  default: PERMISSIBLE_TENSION,
  hint: "7 MPa is the design figure for sound borosilicate; there is none for a chipped one",
});

const OWN = "Only for “my own values”";

export const elasticModulus = quantity("elasticModulus", {
  label: "Own glass: Young’s modulus",
  symbol: "E",
  ...MODULUS,
  limits: THERMAL_STRESS_LIMITS.modulus,
  default: borosilicate.modulus,
  hint: OWN,
});

export const poissonRatio = quantity("poissonRatio", {
  label: "Own glass: Poisson’s ratio",
  symbol: String.raw`\nu`,
  dimension: "count",
  units: ["1"],
  digits: 2,
  limits: THERMAL_STRESS_LIMITS.poissonRatio,
  default: borosilicate.poissonRatio,
  hint: OWN,
});

export const expansion = quantity("expansion", {
  label: "Own glass: expansion",
  symbol: String.raw`\alpha`,
  ...EXPANSION,
  limits: THERMAL_STRESS_LIMITS.expansion,
  default: borosilicate.expansion,
  hint: OWN,
});

export const conductivity = quantity("conductivity", {
  label: "Own glass: thermal conductivity",
  symbol: "k",
  ...CONDUCTIVITY,
  limits: THERMAL_STRESS_LIMITS.conductivity,
  default: borosilicate.conductivity,
  hint: OWN,
});

export const glassDensity = quantity("glassDensity", {
  label: "Own glass: density",
  symbol: String.raw`\varrho`,
  ...DENSITY,
  digits: 4,
  limits: THERMAL_STRESS_LIMITS.density,
  default: borosilicate.density,
  hint: OWN,
});

export const glassSpecificHeat = quantity("glassSpecificHeat", {
  label: "Own glass: specific heat",
  symbol: "c",
  ...SPECIFIC_HEAT,
  digits: 3,
  limits: THERMAL_STRESS_LIMITS.specificHeat,
  default: borosilicate.specificHeat,
  hint: OWN,
});

export const hotTemperature = quantity("hotTemperature", {
  label: "Beaker and contents, hot",
  symbol: String.raw`T_\mathrm{hot}`,
  ...TEMPERATURE,
  limits: THERMAL_STRESS_LIMITS.temperature,
  default: 95,
  hint: "At the start, read in the liquid",
});

export const coldTemperature = quantity("coldTemperature", {
  label: "Surroundings at the end",
  symbol: String.raw`T_\mathrm{cold}`,
  ...TEMPERATURE,
  limits: THERMAL_STRESS_LIMITS.temperature,
  default: 10,
  hint: "Of the water or air in which it ends up",
});

export const contentsTimeConstant = quantity("contentsTimeConstant", {
  label: "Time constant of the contents",
  symbol: String.raw`\tau`,
  ...TIME,
  limits: THERMAL_STRESS_LIMITS.timeConstant,
  default: 600,
  hint: "In which the difference to the surroundings falls to 37 %, stirred",
  uncertainty: {
    relative: 0.25,
    because: "half a litre in water: 4 to 10 minutes by how well both are stirred (estimate)",
  },
});

export const tension = quantity("tension", {
  label: "Tension across the flaw",
  symbol: String.raw`\sigma`,
  ...STRESS,
  limits: FLAW_LIMITS.stress,
  default: 2.6e6,
  hint: "As if the flaw were not there: starts from the rim in the chapter before",
  uncertainty: { relative: 0.1, because: "typed in: taken as known to a tenth" },
});

export const flawDepth = quantity("flawDepth", {
  label: "Depth of the flaw",
  symbol: "a",
  ...FLAW_DEPTH,
  limits: FLAW_LIMITS.depth,
  default: 1e-4,
  hint: "What cannot be seen is up to some 0.05 mm, a chip 1 mm or more",
  presets: [
    { value: 1e-5, label: "from handling" },
    { value: 1e-4, label: "a scratch" },
    { value: 1e-3, label: "a chip" },
  ],
  uncertainty: {
    relative: 0.3,
    because: "nobody can see how deep a crack goes (common practice, no source)",
  },
});

export const geometryFactor = quantity("geometryFactor", {
  label: "Shape of the flaw",
  symbol: "Y",
  dimension: "count",
  units: ["1"],
  digits: 3,
  limits: FLAW_LIMITS.shape,
  default: EDGE_CRACK,
  hint: "1.12 for a crack in from an edge, the worst; about 0.7 for a half-round nick",
});

export const toughness = quantity("toughness", {
  label: "Toughness of the glass",
  symbol: String.raw`K_\mathrm{c}`,
  ...INTENSITY,
  limits: FLAW_LIMITS.toughness,
  default: GLASS_TOUGHNESS.value,
  hint: "0.7 to 0.8 MPa √m for all common glass",
  uncertainty: {
    absolute: (GLASS_TOUGHNESS.high - GLASS_TOUGHNESS.low) / 2 / COVERAGE,
    because: "measurements and tables lie between 0.7 and 0.8 MPa √m",
  },
});

export const loadTime = quantity("loadTime", {
  label: "How long the tension lasts",
  symbol: "t",
  ...TIME,
  units: ["s", "min", "h", "d"],
  limits: FLAW_LIMITS.loadTime,
  default: REFERENCE_LOAD_TIME,
  hint: "About a second for a sudden step; as long as it is clamped or hot on one side otherwise",
});
