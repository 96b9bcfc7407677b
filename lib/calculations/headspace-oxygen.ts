import {
  headspaceOxygen as closedIn,
  OXYGEN_MOLAR_MASS,
  OXYGEN_SHARE,
  oxygenSolubility,
} from "../laws/oxygen.ts";
import { ASCORBIC_ACID_MOLAR_MASS } from "../substances/ascorbic-acid.ts";
import { defineCalculation, type Result } from "./calculation.ts";
import { SHARE, SMALL_MASS } from "./quantities/kinds.ts";
import {
  AMOUNT,
  bottleAscorbicAcid,
  bottledVolume,
  bottleHeadspace,
  bottlingTemperature,
} from "./quantities/storage.ts";
import { airPressure } from "./quantities/vapour.ts";

const moles: Omit<Result, "label" | "symbol"> = { ...AMOUNT, bounds: { min: 0 } };

export const headspaceOxygen = defineCalculation({
  id: "headspace-oxygen",
  title: "The oxygen in a bottle",
  summary: "How much acid the air closed into a bottle can take, if nothing leaks",
  inputs: {
    headspaceVolume: bottleHeadspace,
    liquidVolume: bottledVolume,
    temperature: bottlingTemperature,
    pressure: airPressure,
    ascorbicAcidMass: bottleAscorbicAcid,
  },
  links: {
    headspaceVolume: "bottling.headspaceVolume",
    liquidVolume: "bottling.fillVolume",
    ascorbicAcidMass: "bottle-acid.acidMass",
  },
  results: {
    oxygenMoles: {
      ...moles,
      label: "Oxygen in the air over the liquid",
      symbol: String.raw`n_\mathrm{g}`,
    },
    dissolvedOxygenMoles: {
      ...moles,
      label: "Oxygen dissolved in the liquid",
      symbol: String.raw`n_\ell`,
      hint: "As in water that has stood in air",
    },
    acidOxidised: {
      ...SMALL_MASS,
      units: ["mg", "g"],
      label: "Acid that it can take, once for each closing",
      symbol: String.raw`m_\mathrm{ox}`,
      hint: "Low end: one acid for each oxygen; high end: two",
      bounds: { min: 0 },
    },
    shareOxidised: {
      ...SHARE,
      label: "Share of the acid in the bottle",
      symbol: "s",
      bounds: { min: 0, max: 1 },
    },
    solubility: {
      dimension: "concentration",
      units: ["mg/L", "g/L"],
      digits: 3,
      label: "Oxygen that the liquid holds",
      symbol: "C",
      minor: true,
    },
    gasTemperature: {
      dimension: "temperatureDifference",
      units: ["K"],
      digits: 4,
      label: "That temperature above absolute zero",
      symbol: "T",
      minor: true,
    },
    oxygenMolarMass: {
      dimension: "molarMass",
      units: ["g/mol"],
      digits: 4,
      label: "Molar mass of oxygen",
      symbol: String.raw`M_{\mathrm{O}_2}`,
      minor: true,
    },
    acidMolarMass: {
      dimension: "molarMass",
      units: ["g/mol"],
      digits: 4,
      label: "Molar mass of ascorbic acid",
      symbol: String.raw`M_\mathrm{a}`,
      minor: true,
    },
  },
  compute: ({ headspaceVolume, liquidVolume, temperature, pressure, ascorbicAcidMass }) => ({
    ...closedIn({ headspaceVolume, liquidVolume, temperature, pressure }, ascorbicAcidMass),
    solubility: oxygenSolubility(temperature, pressure),
    gasTemperature: temperature + 273.15,
    oxygenMolarMass: OXYGEN_MOLAR_MASS,
    acidMolarMass: ASCORBIC_ACID_MOLAR_MASS,
  }),
  steps: [
    {
      result: "oxygenMoles",
      tex: (slot) =>
        String.raw`${OXYGEN_SHARE}\by\frac{${slot("pressure")}\by ${slot("headspaceVolume")}}{R\by ${slot("gasTemperature")}}`,
    },
    {
      result: "dissolvedOxygenMoles",
      tex: (slot) =>
        String.raw`\frac{${slot("solubility")}\by ${slot("liquidVolume")}}{${slot("oxygenMolarMass")}}`,
    },
    {
      result: "acidOxidised",
      tex: (slot) =>
        String.raw`(${slot("oxygenMoles")} + ${slot("dissolvedOxygenMoles")})\by ${slot("acidMolarMass")}`,
    },
    {
      result: "shareOxidised",
      tex: (slot) => String.raw`\frac{${slot("acidOxidised")}}{${slot("ascorbicAcidMass")}}`,
    },
  ],
  figures: [
    {
      id: "where-it-is",
      title: "Where the oxygen is",
      caption:
        "Oxygen in the air over the liquid and in the liquid itself, as you close the bottle, and in the air of the same bottle once it is half empty. Drinking lets in far more than filling did.",
      data: ({ headspaceVolume, liquidVolume }, run) => {
        const values = run({});
        const half = run({
          headspaceVolume: Math.min(headspaceVolume + liquidVolume / 2, bottleHeadspace.limits.max),
        });
        return {
          x: { label: "Oxygen", of: AMOUNT },
          bars: [
            { label: "Dissolved", value: values?.["dissolvedOxygenMoles"]?.value ?? 0 },
            { label: "Air, as closed", value: values?.["oxygenMoles"]?.value ?? 0 },
            { label: "Air, half empty", value: half?.["oxygenMoles"]?.value ?? 0 },
          ],
        };
      },
    },
  ],
  sources: ["apha-1985", "iso-2533", "peroxide-note"],
});
