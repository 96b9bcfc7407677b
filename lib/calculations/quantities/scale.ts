import { quantity } from "../calculation.ts";
import { SMALL_MASS } from "./kinds.ts";

const reading = {
  ...SMALL_MASS,
} as const;

export const readability = quantity("readability", {
  ...reading,
  label: "Readability of the scale",
  symbol: "d",
  limits: { min: 0, max: 0.1, unit: "kg" },
  default: 0.1e-3,
  hint: "The smallest step of the display",
});

export const repeatability = quantity("repeatability", {
  ...reading,
  label: "Repeatability of the scale",
  symbol: "s",
  limits: { min: 0, max: 0.1, unit: "kg" },
  default: 0.1e-3,
  hint: "Standard deviation when the same thing is put on ten times; if unknown, take one display step",
});

export const linearity = quantity("linearity", {
  ...reading,
  label: "Linearity of the scale",
  symbol: "L",
  limits: { min: 0, max: 0.1, unit: "kg" },
  default: 0.2e-3,
  hint: "Largest deviation the maker allows, as ± so much; if unknown, take two display steps",
});

export const spoonVolume = quantity("spoonVolume", {
  label: "Spoon, levelled",
  symbol: "V",
  dimension: "volume",
  units: ["tsp", "tbsp", "mL"],
  digits: 3,
  limits: { min: 0.1e-6, max: 1e-3, unit: "m³" },
  default: 5e-6,
  hint: "The space the powder fills, levelled with a knife",
});

export const bulkDensityLow = quantity("bulkDensityLow", {
  label: "Bulk density, loose",
  symbol: String.raw`\varrho_\mathrm{low}`,
  dimension: "density",
  units: ["g/mL", "kg/m³"],
  digits: 2,
  limits: { min: 50, max: 3000, unit: "kg/m³" },
  default: 500,
  hint: "0.5 g/mL for fine ascorbic acid powder, loose",
});

export const bulkDensityHigh = quantity("bulkDensityHigh", {
  ...bulkDensityLow,
  label: "Bulk density, settled or coarse",
  symbol: String.raw`\varrho_\mathrm{high}`,
  default: 900,
  hint: "0.9 g/mL for coarse crystals",
});
