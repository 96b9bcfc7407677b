import { quantity } from "../calculation.ts";
import {
  CONCENTRATION,
  COUNT,
  MASS,
  MASS_FRACTION,
  SPECIFIC_VOLUME,
  STRENGTH,
  VOLUME,
} from "./kinds.ts";

export const batchVolume = quantity("batchVolume", {
  label: "Finished batch",
  symbol: "V",
  ...VOLUME,
  limits: { min: 10e-6, max: 0.02, unit: "m³" },
  default: 0.5e-3,
  hint: "Finished liquid at 20 °C, before anything is skimmed or spilled",
});

export const alcoholStrength = quantity("alcoholStrength", {
  label: "Alcohol in the finished liquid",
  symbol: String.raw`\varphi_\mathrm{f}`,
  ...STRENGTH,
  limits: { min: 0, max: 0.6, unit: "1" },
  default: 0.12,
  hint: "Volume of pure alcohol for each volume of finished liquid, both at 20 °C",
});

export const ascorbicAcidConcentration = quantity("ascorbicAcidConcentration", {
  label: "Ascorbic acid in the finished liquid",
  symbol: String.raw`c_\mathrm{a}`,
  ...CONCENTRATION,
  limits: { min: 0, max: 400, unit: "kg/m³" },
  default: 100,
  hint: "Grams in each litre of finished liquid",
});

export const lecithinConcentration = quantity("lecithinConcentration", {
  label: "Lecithin in the finished liquid",
  symbol: String.raw`c_\mathrm{l}`,
  ...CONCENTRATION,
  limits: { min: 0, max: 400, unit: "kg/m³" },
  default: 60,
  hint: "Grams in each litre of finished liquid",
});

export const ascorbicAcidSpecificVolume = quantity("ascorbicAcidSpecificVolume", {
  label: "Apparent specific volume of ascorbic acid",
  symbol: "v_\\mathrm{a}",
  ...SPECIFIC_VOLUME,
  limits: { min: 0.4e-3, max: 0.8e-3, unit: "m³/kg" },
  default: 0.6e-3,
  hint: "How much the liquid swells for each gram dissolved; leave it unless you have measured it",
  uncertainty: {
    absolute: 0.02e-3,
    because:
      "crystal density 1650 to 1688 kg/m³ (Handbook of Pharmaceutical Excipients) gives 0.59 to 0.61 mL/g; dissolved acid differs by a few per cent more",
  },
});

export const lecithinSpecificVolume = quantity("lecithinSpecificVolume", {
  label: "Apparent specific volume of lecithin",
  symbol: "v_\\mathrm{l}",
  ...SPECIFIC_VOLUME,
  limits: { min: 0.8e-3, max: 1.2e-3, unit: "m³/kg" },
  default: 0.98e-3,
  hint: "How much the liquid swells for each gram dispersed; leave it unless you have measured it",
  uncertainty: {
    absolute: 0.02e-3,
    because:
      "hydrated phosphatidylcholine is 0.98 mL/g (from memory); commercial lecithin varies by a few per cent",
  },
});

export const beakerVolume = quantity("beakerVolume", {
  label: "Your beaker holds",
  symbol: String.raw`V_\mathrm{b}`,
  ...VOLUME,
  digits: 3,
  limits: { min: 50e-6, max: 0.02, unit: "m³" },
  default: 1e-3,
  hint: "Nominal size; we plan to fill two thirds of it",
});

export const scaleCapacity = quantity("scaleCapacity", {
  label: "Your scale weighs up to",
  symbol: String.raw`m_\mathrm{max}`,
  dimension: "mass",
  units: ["g", "kg", "lb"],
  digits: 3,
  limits: { min: 0.01, max: 50, unit: "kg" },
  default: 3,
  hint: "Marked as “Max” on the scale",
});

export const vesselMass = quantity("vesselMass", {
  label: "Empty vessel on the scale",
  symbol: String.raw`m_\mathrm{v}`,
  ...MASS,
  digits: 3,
  limits: { min: 0, max: 10, unit: "kg" },
  default: 0.3,
  hint: "Counts against the scale’s limit even after the tare key",
});

const portion = {
  ...MASS,
  limits: { min: 0, max: 20, unit: "kg" },
} as const;

export const waterMass = quantity("waterMass", {
  ...portion,
  label: "Water",
  symbol: String.raw`m_\mathrm{w}`,
  default: 0.25,
  hint: "Mass of water to weigh in",
});

export const spiritMass = quantity("spiritMass", {
  ...portion,
  label: "Spirit",
  symbol: String.raw`m_\mathrm{s}`,
  default: 0.12,
  hint: "Mass of spirit to weigh in",
});

export const ascorbicAcidMass = quantity("ascorbicAcidMass", {
  ...portion,
  label: "Ascorbic acid",
  symbol: String.raw`m_\mathrm{a}`,
  default: 0.05,
  hint: "Mass of ascorbic acid powder to weigh in",
});

export const lecithinMass = quantity("lecithinMass", {
  ...portion,
  label: "Lecithin",
  symbol: String.raw`m_\mathrm{l}`,
  default: 0.03,
  hint: "Mass of lecithin to weigh in",
});

const weighed = {
  absolute: 0.25e-3,
  because: "two readings of a kitchen scale that shows 0.1 g; see the weighing chapter for yours",
} as const;

export const weighedWater = quantity("weighedWater", {
  ...waterMass,
  label: "Water that went in",
  hint: "What you really weighed",
  uncertainty: weighed,
});

export const weighedSpirit = quantity("weighedSpirit", {
  ...spiritMass,
  label: "Spirit that went in",
  hint: "What you really weighed",
  uncertainty: weighed,
});

export const weighedAscorbicAcid = quantity("weighedAscorbicAcid", {
  ...ascorbicAcidMass,
  label: "Ascorbic acid that went in",
  hint: "What you really weighed",
  uncertainty: weighed,
});

export const weighedLecithin = quantity("weighedLecithin", {
  ...lecithinMass,
  label: "Lecithin that went in",
  hint: "What you really weighed",
  uncertainty: weighed,
});

export const spiritInStock = quantity("spiritInStock", {
  ...portion,
  label: "Spirit you have",
  symbol: String.raw`M_\mathrm{s}`,
  default: 0.7,
  hint: "By weight; a 700 mL bottle at 40 % vol holds 664 g",
});

export const ascorbicAcidInStock = quantity("ascorbicAcidInStock", {
  ...portion,
  label: "Ascorbic acid you have",
  symbol: String.raw`M_\mathrm{a}`,
  default: 0.25,
  hint: "By weight",
});

export const lecithinInStock = quantity("lecithinInStock", {
  ...portion,
  label: "Lecithin you have",
  symbol: String.raw`M_\mathrm{l}`,
  default: 0.2,
  hint: "By weight",
});

export const solventMassFraction = quantity("solventMassFraction", {
  label: "Alcohol in the water and alcohol, by mass",
  symbol: String.raw`w`,
  ...MASS_FRACTION,
  limits: { min: 0, max: 1, unit: "1" },
  default: 0.15,
  hint: "Pure alcohol’s share of water and alcohol together, powders not counted",
});

export const beakers = quantity("beakers", {
  label: "Beakers the batch is parted into",
  symbol: "n",
  ...COUNT,
  limits: { min: 1, max: 1000, unit: "1" },
  whole: true,
  default: 1,
  hint: "Equal parts; what follows is for one of them",
});
