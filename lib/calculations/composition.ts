import { ETHANOL_DENSITY } from "../laws/recipe.ts";
import { density, massFraction as massFractionOf } from "../substances/ethanol-water.ts";
import { asResult, defineCalculation, RefusedError } from "./calculation.ts";
import {
  alcoholStrength,
  ascorbicAcidConcentration,
  weighedAscorbicAcid,
  ascorbicAcidSpecificVolume,
  batchVolume,
  lecithinConcentration,
  weighedLecithin,
  lecithinSpecificVolume,
  weighedSpirit,
  weighedWater,
} from "./quantities/batch.ts";
import { referenceTemperature, spiritStrength } from "./quantities/spirit.ts";
import { DENSITY, MASS, MASS_FRACTION, VOLUME } from "./quantities/kinds.ts";

export const composition = defineCalculation({
  id: "composition",
  title: "From masses back to the recipe",
  summary: "What a batch is, from the masses that really went in",
  inputs: {
    waterMass: weighedWater,
    spiritMass: weighedSpirit,
    ascorbicAcidMass: weighedAscorbicAcid,
    lecithinMass: weighedLecithin,
    spiritStrength,
    referenceTemperature,
    ascorbicAcidSpecificVolume,
    lecithinSpecificVolume,
  },
  links: {
    waterMass: "recipe.waterMass",
    spiritMass: "recipe.spiritMass",
    ascorbicAcidMass: "recipe.ascorbicAcidMass",
    lecithinMass: "recipe.lecithinMass",
  },
  decided: ["waterMass", "spiritMass", "ascorbicAcidMass", "lecithinMass"],
  results: {
    batchVolume: asResult(batchVolume, { bounds: { min: 0 } }),
    alcoholStrength: asResult(alcoholStrength, { bounds: { min: 0, max: 1 } }),
    ascorbicAcidConcentration: asResult(ascorbicAcidConcentration, { bounds: { min: 0 } }),
    lecithinConcentration: asResult(lecithinConcentration, { bounds: { min: 0 } }),
    totalMass: {
      label: "All together",
      symbol: "m",
      ...MASS,
    },
    density: {
      label: "Density of the finished liquid",
      symbol: String.raw`\varrho`,
      ...DENSITY,
      digits: 4,
    },
    ethanolMass: {
      label: "Pure alcohol in the batch",
      symbol: String.raw`m_\mathrm{E}`,
      ...MASS,
      bounds: { min: 0 },
    },
    solventMassFraction: {
      label: "Alcohol in water and alcohol, by mass",
      symbol: String.raw`w_\mathrm{m}`,
      ...MASS_FRACTION,
      bounds: { min: 0, max: 1 },
    },
    spiritMassFraction: {
      label: "Spirit, alcohol by mass",
      symbol: String.raw`w_\mathrm{s}`,
      ...MASS_FRACTION,
      minor: true,
    },
    solventDensity: {
      label: "Density of water and alcohol at 20 °C",
      symbol: String.raw`\varrho_\mathrm{r}`,
      ...DENSITY,
      minor: true,
    },
    soluteVolume: {
      label: "Volume that the powders add",
      symbol: String.raw`V_\mathrm{p}`,
      ...VOLUME,
      minor: true,
    },
    ethanolDensity: {
      label: "Density of pure alcohol at 20 °C",
      symbol: String.raw`\varrho_\mathrm{E}`,
      ...DENSITY,
      minor: true,
    },
  },
  blame: { strength: "spiritStrength", temperature: "referenceTemperature" },
  compute: (inputs) => {
    const solvent = inputs.waterMass + inputs.spiritMass;
    if (solvent === 0)
      throw new RefusedError("waterMass", [
        "There is no liquid in it: type the water or the spirit that went in.",
      ]);
    const spiritMassFraction = massFractionOf(inputs.spiritStrength, inputs.referenceTemperature);
    const ethanolMass = inputs.spiritMass * spiritMassFraction;
    const solventMassFraction = ethanolMass / solvent;
    const solventDensity = density(solventMassFraction, 20);
    const soluteVolume =
      inputs.ascorbicAcidMass * inputs.ascorbicAcidSpecificVolume +
      inputs.lecithinMass * inputs.lecithinSpecificVolume;
    const whole = solvent / solventDensity + soluteVolume;
    const totalMass = solvent + inputs.ascorbicAcidMass + inputs.lecithinMass;
    return {
      batchVolume: whole,
      alcoholStrength: ethanolMass / ETHANOL_DENSITY / whole,
      ascorbicAcidConcentration: inputs.ascorbicAcidMass / whole,
      lecithinConcentration: inputs.lecithinMass / whole,
      totalMass,
      density: totalMass / whole,
      ethanolMass,
      solventMassFraction,
      spiritMassFraction,
      solventDensity,
      soluteVolume,
      ethanolDensity: ETHANOL_DENSITY,
    };
  },
  steps: [
    {
      result: "ethanolMass",
      tex: (slot) => String.raw`${slot("spiritMass")}\by ${slot("spiritMassFraction")}`,
    },
    {
      result: "solventMassFraction",
      tex: (slot) =>
        String.raw`\frac{${slot("ethanolMass")}}{${slot("waterMass")} + ${slot("spiritMass")}}`,
    },
    {
      result: "soluteVolume",
      tex: (slot) =>
        String.raw`${slot("ascorbicAcidMass")}\by ${slot("ascorbicAcidSpecificVolume")} + ${slot("lecithinMass")}\by ${slot("lecithinSpecificVolume")}`,
    },
    {
      result: "batchVolume",
      tex: (slot) =>
        String.raw`\frac{${slot("waterMass")} + ${slot("spiritMass")}}{${slot("solventDensity")}} + ${slot("soluteVolume")}`,
    },
    {
      result: "alcoholStrength",
      tex: (slot) =>
        String.raw`\frac{${slot("ethanolMass")}}{${slot("ethanolDensity")}\by ${slot("batchVolume")}}`,
    },
    {
      result: "ascorbicAcidConcentration",
      tex: (slot) => String.raw`\frac{${slot("ascorbicAcidMass")}}{${slot("batchVolume")}}`,
    },
    {
      result: "lecithinConcentration",
      tex: (slot) => String.raw`\frac{${slot("lecithinMass")}}{${slot("batchVolume")}}`,
    },
  ],
  sources: ["oiml-r22-1975", "hpe-ascorbic-acid"],
});
