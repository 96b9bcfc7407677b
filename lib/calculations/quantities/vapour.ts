import { EVAPORATION_LIMITS } from "../../laws/evaporation.ts";
import { ROOM_LIMITS } from "../../laws/room-vapour.ts";
import { STEFAN_LIMITS } from "../../laws/stefan-tube.ts";
import { DIFFUSIVITY_SPREAD } from "../../substances/diffusivity.ts";
import { ATMOSPHERE } from "../../substances/ethanol-water-vapour.ts";
import { MOLAR_MASS } from "../../substances/ethanol-water.ts";
import { choice, quantity } from "../calculation.ts";
import { COVERAGE } from "../graph.ts";
import {
  AREA,
  COUNT,
  DIFFUSIVITY,
  LENGTH,
  MASS,
  PRESSURE,
  RATE,
  ROOM_VOLUME,
  SHARE,
  SPEED,
  TEMPERATURE,
  TIME,
} from "./kinds.ts";

const probe = {
  absolute: 0.5,
  because: "a kitchen probe is good to half a degree or a degree (common practice, no source)",
} as const;

export const stageTemperature = quantity("stageTemperature", {
  label: "Temperature of the liquid at this stage",
  symbol: "T",
  ...TEMPERATURE,
  limits: EVAPORATION_LIMITS.temperature,
  default: 32,
  hint: "Held while it stands; read by a probe in the liquid",
  uncertainty: probe,
});

export const airPressure = quantity("airPressure", {
  label: "Pressure of the air",
  symbol: "P",
  ...PRESSURE,
  units: ["kPa", "hPa"],
  digits: 4,
  limits: EVAPORATION_LIMITS.pressure,
  default: ATMOSPHERE,
  hint: "As it is where you stand: 101.3 kPa (1013 hPa) at sea level, 1.2 kPa less for each 100 m of height",
  uncertainty: { absolute: 1000, because: "weather moves it by 1 % (common practice, no source)" },
});

export const liquidMass = quantity("liquidMass", {
  label: "Water and alcohol in the beaker",
  symbol: "m",
  ...MASS,
  limits: EVAPORATION_LIMITS.mass,
  default: 0.43,
  hint: "Powders not counted",
});

export const openArea = quantity("openArea", {
  label: "Open surface of the liquid",
  symbol: "A",
  ...AREA,
  limits: { min: 1e-4, max: 0.07, unit: "m²" },
  default: 85e-4,
  hint: "0.785 times the inside width squared",
  presets: [
    { value: 38.5e-4, label: "70 mm wide" },
    { value: 60e-4, label: "87 mm wide" },
    { value: 85e-4, label: "104 mm wide" },
  ],
  uncertainty: { relative: 0.02, because: "a width measured to 1 mm" },
});

export const freeboard = quantity("freeboard", {
  label: "From the liquid up to the rim",
  symbol: "h",
  ...LENGTH,
  limits: EVAPORATION_LIMITS.freeboard,
  default: 0.08,
  hint: "The freeboard: still air stands in it",
  uncertainty: { absolute: 2e-3, because: "a ruler held against the glass" },
});

export const cover = choice("cover", {
  label: "Cover",
  hint: "What lies on the rim while it stands",
  options: [
    { value: "open", label: "none" },
    { value: "film", label: "film or lid with a hole" },
    { value: "closed", label: "closed" },
  ],
  default: "open",
});

export const holeDiameter = quantity("holeDiameter", {
  label: "Width of the hole",
  symbol: "d",
  ...LENGTH,
  limits: { min: 1e-4, max: 0.02, unit: "m" },
  default: 4e-3,
  hint: "As if nothing were in it: a probe fills most of its hole",
  uncertainty: { relative: 0.1, because: "a hole pricked by hand is not quite round" },
});

export const holes = quantity("holes", {
  label: "Number of such holes",
  symbol: "n",
  ...COUNT,
  limits: { ...EVAPORATION_LIMITS.holes, max: 100 },
  default: 1,
  hint: "Gaps at the rim count too",
});

export const standingTime = quantity("standingTime", {
  label: "How long it stands",
  symbol: "t",
  ...TIME,
  units: ["min", "h", "d"],
  limits: { min: 0, max: 7 * 86_400, unit: "s" },
  default: 7200,
  hint: "Stints and rests together",
});

export const relativeHumidity = quantity("relativeHumidity", {
  label: "Relative humidity of the room",
  symbol: String.raw`\phi`,
  ...SHARE,
  limits: EVAPORATION_LIMITS.humidity,
  default: 0.5,
  hint: "Only the water’s loss depends on it",
  uncertainty: { absolute: 0.05, because: "a household hygrometer (common practice, no source)" },
});

export const airSpeed = quantity("airSpeed", {
  label: "Draught over the rim",
  symbol: "u",
  ...SPEED,
  limits: EVAPORATION_LIMITS.airSpeed,
  default: 0.1,
  hint: "Indoors mostly below 0.2 m/s; 1 m/s beside a fan. Only the upper end depends on it",
  uncertainty: { relative: 0.25, because: "nobody measures it (estimate, no source)" },
});

export const tubeDiffusivity = quantity("tubeDiffusivity", {
  label: "Diffusion coefficient of the vapour in air",
  symbol: "D",
  ...DIFFUSIVITY,
  limits: STEFAN_LIMITS.diffusivity,
  default: 1.3e-5,
  hint: "Ethanol 0.12 cm²/s at 20 °C, water vapour twice that",
  uncertainty: {
    relative: DIFFUSIVITY_SPREAD / COVERAGE,
    because: "measurements differ by 8 % either way",
  },
});

export const tubeTemperature = quantity("tubeTemperature", {
  label: "Temperature of the air in the tube",
  symbol: String.raw`T_\mathrm{g}`,
  ...TEMPERATURE,
  limits: STEFAN_LIMITS.temperature,
  default: 26,
  hint: "Half way between liquid and room",
  uncertainty: probe,
});

export const surfacePressure = quantity("surfacePressure", {
  label: "Pressure of the vapour at the liquid",
  symbol: "p_1",
  ...PRESSURE,
  limits: { min: 0, max: EVAPORATION_LIMITS.pressure.max, unit: "Pa" },
  default: 2500,
  hint: "What the liquid gives off at its temperature; below the air’s own pressure",
});

export const tubeLength = quantity("tubeLength", {
  label: "Length of the tube above the liquid",
  symbol: "L",
  ...LENGTH,
  limits: { min: 1e-3, max: 1, unit: "m" },
  default: 0.12,
  hint: "Still air from the liquid to the open end, where the vapour is swept away",
  uncertainty: { absolute: 1e-3, because: "a ruler held against the glass" },
});

export const vapourMolarMass = quantity("vapourMolarMass", {
  label: "Molar mass of the vapour",
  symbol: "M",
  dimension: "molarMass",
  units: ["g/mol"],
  digits: 4,
  limits: { min: 1e-3, max: 1, unit: "kg/mol" },
  default: MOLAR_MASS.ethanol,
  hint: "46.07 g/mol for ethanol, 18.02 g/mol for water",
});

export const warmestTemperature = quantity("warmestTemperature", {
  label: "Liquid at its warmest",
  symbol: String.raw`T_\ell`,
  ...TEMPERATURE,
  limits: { min: 0, max: 90, unit: "°C" },
  default: 32,
  hint: "The warmest part counts: a hot spot gives off vapour as its own temperature does",
  uncertainty: probe,
});

export const spilledMass = quantity("spilledMass", {
  label: "Liquid that is spilled or dries up",
  symbol: "m",
  ...MASS,
  digits: 3,
  limits: ROOM_LIMITS.ethanol,
  default: 0.25,
  hint: "Water and alcohol together, without the powders",
  uncertainty: { relative: 0.1, because: "nobody weighs a puddle (estimate, no source)" },
});

export const roomVolume = quantity("roomVolume", {
  label: "Room, with the door shut",
  symbol: "V",
  ...ROOM_VOLUME,
  limits: ROOM_LIMITS.volume,
  default: 30,
  hint: "Length times width times height",
  uncertainty: { relative: 0.05, because: "paced out, furniture not taken off" },
});

export const airChanges = quantity("airChanges", {
  label: "Fresh air: room volumes in an hour",
  symbol: "n",
  ...RATE,
  limits: ROOM_LIMITS.airChanges,
  default: 0.5 / 3600,
  hint: "Shut windows 0.2 to 0.9; an open window several, and nobody knows how many",
  uncertainty: {
    relative: 0.4,
    because: "medians of dwellings lie from 0.3 to 0.9 an hour",
  },
});

export const evaporationTime = quantity("evaporationTime", {
  label: "Time in which it evaporates",
  symbol: "t",
  ...TIME,
  limits: { min: 0, max: 86_400, unit: "s" },
  default: 1800,
  hint: "0 is the worst case: all at once",
  uncertainty: {
    relative: 0.3,
    because: "it hangs on the size of the puddle (estimate, no source)",
  },
});
