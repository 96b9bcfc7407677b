import { heatCapacity as mixtureHeat } from "../substances/ethanol-water.ts";
import { densityWide, heatCapacity as waterHeat } from "../substances/water.ts";
import { defineCalculation, RefusedError, type Result } from "./calculation.ts";
import {
  ascorbicAcidMass,
  beakers,
  lecithinMass,
  solventMassFraction,
  spiritMass,
  vesselMass,
  waterMass,
} from "./quantities/batch.ts";
import {
  ascorbicAcidHeat,
  bathWaterVolume,
  beakersInBath,
  glassHeat,
  lecithinHeat,
  meanTemperature,
  mixtureHeatDoubt,
  tankHeatCapacity,
} from "./quantities/heat.ts";
import { HEAT_CAPACITY, MASS, SPECIFIC_HEAT } from "./quantities/kinds.ts";

const capacity: Omit<Result, "label" | "symbol"> = { ...HEAT_CAPACITY, bounds: { min: 0 } };
const part = { ...capacity, digits: 3, minor: true } as const;

export const heatCapacity = defineCalculation({
  id: "heat-capacity",
  title: "What a degree costs",
  summary: "The heat that one beaker with its contents, and the bath, take up for each degree",
  inputs: {
    waterMass,
    spiritMass,
    ascorbicAcidMass,
    lecithinMass,
    beakers,
    solventMassFraction,
    vesselMass,
    bathWaterVolume,
    beakersInBath,
    meanTemperature,
    tankHeatCapacity,
    glassHeat,
    ascorbicAcidHeat,
    lecithinHeat,
    mixtureHeatDoubt,
  },
  links: {
    waterMass: "recipe.waterMass",
    spiritMass: "recipe.spiritMass",
    ascorbicAcidMass: "recipe.ascorbicAcidMass",
    lecithinMass: "recipe.lecithinMass",
    beakers: "recipe.beakers",
    solventMassFraction: "recipe.solventMassFraction",
  },
  // What a label leaves open of the mass fraction moves the specific heat by less than tables differ.
  decided: [
    "waterMass",
    "spiritMass",
    "ascorbicAcidMass",
    "lecithinMass",
    "beakers",
    "solventMassFraction",
  ],
  blame: { massFraction: "solventMassFraction", temperature: "meanTemperature" },
  results: {
    liquidHeatCapacity: {
      ...capacity,
      label: "Liquid with its beaker",
      symbol: String.raw`C_\ell`,
      hint: "One beaker; that many joules warm it by one degree",
    },
    bathHeatCapacity: {
      ...capacity,
      label: "Bath with its tank",
      symbol: String.raw`C_\mathrm{b}`,
      hint: "Other beakers in the bath warm along with it and are counted here",
    },
    solventMass: {
      ...MASS,
      label: "Water and alcohol in one beaker",
      symbol: String.raw`m_\mathrm{r}`,
      bounds: { min: 0 },
    },
    specificHeat: {
      ...SPECIFIC_HEAT,
      label: "Specific heat of water and alcohol",
      symbol: "c_p",
      bounds: { min: 0 },
    },
    solventHeatCapacity: {
      ...part,
      label: "Water and alcohol",
      symbol: String.raw`C_\mathrm{r}`,
    },
    powderHeatCapacity: {
      ...part,
      label: "Powders in one beaker",
      symbol: String.raw`C_\mathrm{pow}`,
    },
    glassHeatCapacity: { ...part, label: "The beaker itself", symbol: String.raw`C_\mathrm{g}` },
    vesselHeatCapacity: {
      ...part,
      label: "Beaker and powders",
      symbol: String.raw`C_\mathrm{v}`,
    },
    bathWaterMass: {
      ...MASS,
      units: ["kg", "g", "lb"],
      label: "Water in the bath, by mass",
      symbol: String.raw`m_\mathrm{b}`,
      minor: true,
    },
    waterSpecificHeat: {
      ...SPECIFIC_HEAT,
      label: "Specific heat of water",
      symbol: String.raw`c_\mathrm{w}`,
      minor: true,
    },
  },
  compute: (inputs) => {
    const solvent = (inputs.waterMass + inputs.spiritMass) / inputs.beakers;
    const tables = tablesAt(inputs.solventMassFraction, inputs.meanTemperature);
    const c = tables.mixtureHeat * (1 + inputs.mixtureHeatDoubt);
    const powders =
      (inputs.ascorbicAcidMass * inputs.ascorbicAcidHeat +
        inputs.lecithinMass * inputs.lecithinHeat) /
      inputs.beakers;
    const glass = inputs.vesselMass * inputs.glassHeat;
    const liquid = solvent * c + powders + glass;
    // A thimble: no probe, and no formula here, is meant for it.
    if (liquid < LEAST)
      throw new RefusedError("waterMass", [
        "There is next to nothing in the beaker: type the masses of a batch.",
      ]);
    const water = inputs.bathWaterVolume * tables.waterDensity;
    const { waterHeat: waterSpecificHeat } = tables;
    return {
      liquidHeatCapacity: liquid,
      bathHeatCapacity:
        water * waterSpecificHeat + inputs.tankHeatCapacity + (inputs.beakersInBath - 1) * liquid,
      solventMass: solvent,
      specificHeat: c,
      solventHeatCapacity: solvent * c,
      powderHeatCapacity: powders,
      glassHeatCapacity: glass,
      vesselHeatCapacity: powders + glass,
      bathWaterMass: water,
      waterSpecificHeat,
    };
  },
  steps: [
    {
      result: "solventMass",
      tex: (slot) =>
        String.raw`\frac{${slot("waterMass")} + ${slot("spiritMass")}}{${slot("beakers")}}`,
    },
    {
      result: "solventHeatCapacity",
      tex: (slot) => String.raw`${slot("solventMass")}\by ${slot("specificHeat")}`,
    },
    {
      result: "powderHeatCapacity",
      tex: (slot) =>
        String.raw`\frac{${slot("ascorbicAcidMass")}\by ${slot("ascorbicAcidHeat")} + ${slot("lecithinMass")}\by ${slot("lecithinHeat")}}{${slot("beakers")}}`,
    },
    {
      result: "glassHeatCapacity",
      tex: (slot) => String.raw`${slot("vesselMass")}\by ${slot("glassHeat")}`,
    },
    {
      result: "liquidHeatCapacity",
      tex: (slot) =>
        String.raw`${slot("solventHeatCapacity")} + ${slot("powderHeatCapacity")} + ${slot("glassHeatCapacity")}`,
    },
    {
      result: "bathHeatCapacity",
      tex: (slot) =>
        String.raw`${slot("bathWaterMass")}\by ${slot("waterSpecificHeat")} + ${slot("tankHeatCapacity")} + \left(${slot("beakersInBath")} - 1\right)\by ${slot("liquidHeatCapacity")}`,
    },
  ],
  figures: [
    {
      id: "parts",
      title: "Where a degree goes",
      caption:
        "Heat for one degree. The bath holds several times as much heat as the beaker, so it sets the pace; the glass is a small part, yet leaving it out makes a power found from a rise some 10 % too low.",
      data: (_, run) => {
        const values = run({});
        const value = (name: string): number => values?.[name]?.value ?? 0;
        return {
          x: { label: "Heat capacity", of: capacity },
          bars: [
            { label: "Water, alcohol", value: value("solventHeatCapacity") },
            { label: "Powders", value: value("powderHeatCapacity") },
            { label: "Glass", value: value("glassHeatCapacity") },
            { label: "Bath and tank", value: value("bathHeatCapacity") },
          ],
        };
      },
    },
  ],
  sources: ["perry", "iapws-sr6-08"],
});

/** J/K */
const LEAST = 1;

interface Tabulated {
  readonly massFraction: number;
  readonly temperature: number;
  readonly mixtureHeat: number;
  readonly waterDensity: number;
  readonly waterHeat: number;
}

/** The last ones read: of a hundred thousand draws all read the same. */
let tabulated: Tabulated | undefined;

function tablesAt(massFraction: number, temperature: number): Tabulated {
  if (tabulated?.massFraction !== massFraction || tabulated.temperature !== temperature)
    tabulated = {
      massFraction,
      temperature,
      mixtureHeat: mixtureHeat(massFraction, temperature),
      waterDensity: densityWide(temperature),
      waterHeat: waterHeat(temperature),
    };
  return tabulated;
}
