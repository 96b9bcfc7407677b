import { quantity } from "../calculation.ts";
import { DENSITY, STRENGTH, TEMPERATURE, VOLUME } from "./kinds.ts";

/** Standard deviation of a value known only to lie within ±a: a/√3 (GUM 4.3.7). memory */
function within(a: number): number {
  return a / Math.sqrt(3);
}

/**
 * Above about this strength spirit gives off vapour that a flame can light at or near room temperature:
 * published flash points of 20 % vol are 36 °C and less. seen (tables disagree; the lower counts)
 */
export const FLAMMABLE_FROM = 0.2;

export const spiritStrength = quantity("spiritStrength", {
  label: "Strength of the spirit",
  symbol: String.raw`\varphi_\mathrm{s}`,
  ...STRENGTH,
  limits: { min: 0, max: 1, unit: "1" },
  default: 0.5,
  hint: "The figure before “% vol” or “alc/vol” on the label",
  uncertainty: {
    absolute: within(0.003),
    because: "a label may be 0.3 % vol off (Regulation (EU) 1169/2011, Annex XII, from memory)",
  },
});

export const referenceTemperature = quantity("referenceTemperature", {
  label: "Temperature the label counts at",
  symbol: String.raw`t_0`,
  ...TEMPERATURE,
  digits: 4,
  limits: { min: 10, max: 30, unit: "°C" },
  default: 20,
  hint: "20 °C in most countries, 60 °F (15.56 °C) in the United States, 15 °C on old scales",
  presets: [
    { value: 20, label: "20 °C, most countries" },
    { value: 140 / 9, label: "60 °F, United States" },
    { value: 15, label: "15 °C, old European scales" },
  ],
});

export const sampleTemperature = quantity("sampleTemperature", {
  label: "Temperature of the liquid",
  symbol: "t",
  ...TEMPERATURE,
  limits: { min: -20, max: 40, unit: "°C" },
  default: 20,
  hint: "What a thermometer in the liquid shows",
  uncertainty: {
    absolute: within(1),
    because: "a kitchen probe is good to about 1 °C (common practice, no source)",
  },
});

export const hydrometerReading = quantity("hydrometerReading", {
  label: "Hydrometer reading",
  symbol: String.raw`\varphi_\mathrm{r}`,
  ...STRENGTH,
  digits: 3,
  limits: { min: 0, max: 1, unit: "1" },
  default: 0.51,
  hint: "Read level with the surface, not at the top of the climb on the stem",
  uncertainty: { absolute: within(0.005), because: "half a division of a stem marked in 1 % vol" },
});

export const stemTemperature = quantity("stemTemperature", {
  ...referenceTemperature,
  label: "Temperature the stem is marked for",
  hint: "Printed on the stem: 20 °C, 60 °F or 15 °C",
});

export const measuredDensity = quantity("measuredDensity", {
  label: "Measured density",
  symbol: String.raw`\varrho`,
  ...DENSITY,
  digits: 4,
  limits: { min: 770, max: 1001, unit: "kg/m³" },
  default: 930,
  hint: "Mass over volume. A plain weighing in air comes out 1 kg/m³ low: add that",
  uncertainty: { absolute: within(1), because: "a 100 mL flask on a 0.1 g scale" },
});

export const targetStrength = quantity("targetStrength", {
  label: "Strength you want",
  symbol: String.raw`\varphi_\mathrm{t}`,
  ...STRENGTH,
  limits: { min: 0.001, max: 1, unit: "1" },
  default: 0.2,
  hint: "Of the mixture of spirit and water, before any powder goes in",
});

export const finalVolume = quantity("finalVolume", {
  label: "Volume you want",
  symbol: String.raw`V_\mathrm{t}`,
  ...VOLUME,
  limits: { min: 1e-6, max: 0.1, unit: "m³" },
  default: 0.5e-3,
  hint: "Of the mixture of spirit and water, at the temperature the label counts at",
});

export const volumeA = quantity("volumeA", {
  label: "Volume of the first spirit",
  symbol: String.raw`V_\mathrm{A}`,
  ...VOLUME,
  limits: { min: 1e-6, max: 0.1, unit: "m³" },
  default: 0.2e-3,
  hint: "At the temperature the label counts at",
  uncertainty: { relative: within(0.01), because: "a kitchen measuring jug, 1 %" },
});

export const strengthA = quantity("strengthA", {
  label: "Strength of the first spirit",
  symbol: String.raw`\varphi_\mathrm{A}`,
  ...STRENGTH,
  limits: { min: 0, max: 1, unit: "1" },
  default: 0.7,
  hint: "0 for water",
  uncertainty: spiritStrength.uncertainty!,
});

export const volumeB = quantity("volumeB", {
  ...volumeA,
  label: "Volume of the second spirit",
  symbol: String.raw`V_\mathrm{B}`,
  default: 0.3e-3,
});

export const strengthB = quantity("strengthB", {
  ...strengthA,
  label: "Strength of the second spirit",
  symbol: String.raw`\varphi_\mathrm{B}`,
  default: 0.375,
});
