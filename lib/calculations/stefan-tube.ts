import {
  GAS_CONSTANT,
  stagnantAirFactor,
  stefanFlux,
  stefanMassRate,
} from "../laws/stefan-tube.ts";
import { amount, defineCalculation, phrase, RefusedError, type Result } from "./calculation.ts";
import { COUNT } from "./quantities/kinds.ts";
import {
  airPressure,
  openArea,
  surfacePressure,
  tubeDiffusivity,
  tubeLength,
  tubeTemperature,
  vapourMolarMass,
} from "./quantities/vapour.ts";

const flux: Omit<Result, "label" | "symbol"> = {
  dimension: "molarFlux",
  units: ["mmol/(m² s)", "mol/(m² s)"],
  digits: 3,
  bounds: { min: 0 },
};

/** Nearer than this to the air's own pressure the liquid boils. */
const NEAREST = 0.999;

export const stefanTube = defineCalculation({
  id: "stefan-tube",
  title: "Through still air",
  summary: "How much vapour a column of air that stands still lets through",
  inputs: {
    diffusivity: tubeDiffusivity,
    pressure: airPressure,
    temperature: tubeTemperature,
    surfacePressure,
    length: tubeLength,
    area: openArea,
    molarMass: vapourMolarMass,
  },
  links: {
    diffusivity: "vapour-pressure.ethanolDiffusivity",
    surfacePressure: "vapour-pressure.ethanolPressure",
  },
  results: {
    massRate: {
      dimension: "massRate",
      units: ["g/h", "mg/h"],
      digits: 3,
      label: "Evaporates in an hour",
      symbol: String.raw`\dot m`,
      bounds: { min: 0 },
    },
    flux: { ...flux, label: "Through each square metre", symbol: "N" },
    plainFlux: {
      ...flux,
      label: "By diffusion alone",
      symbol: "N_0",
      minor: true,
    },
    driftFactor: {
      ...COUNT,
      digits: 4,
      label: "The vapour’s own draught makes it larger by a factor of",
      symbol: "f",
      minor: true,
      bounds: { min: 1 },
    },
    gasTemperature: {
      dimension: "temperatureDifference",
      units: ["K"],
      digits: 4,
      label: "Temperature of the air above absolute zero",
      symbol: "T",
      minor: true,
    },
  },
  compute: ({
    diffusivity,
    pressure,
    temperature,
    surfacePressure: at,
    length,
    area,
    molarMass,
  }) => {
    const most = NEAREST * pressure;
    if (at > most)
      throw new RefusedError(
        "surfacePressure",
        phrase`At the pressure of the air the liquid boils and this law ends: type less than ${amount(most, surfacePressure)}.`,
      );
    const tube = { diffusivity, length, temperature, pressure };
    const through = stefanFlux(tube, at, 0);
    const gasTemperature = temperature + 273.15;
    return {
      massRate: stefanMassRate(tube, at, 0, area, molarMass),
      flux: through,
      plainFlux: (diffusivity * at) / (GAS_CONSTANT * gasTemperature * length),
      driftFactor: stagnantAirFactor(pressure, at, 0),
      gasTemperature,
    };
  },
  steps: [
    {
      result: "plainFlux",
      tex: (slot) =>
        String.raw`\frac{${slot("diffusivity")}\by ${slot("surfacePressure")}}{R\by ${slot("gasTemperature")}\by ${slot("length")}}`,
    },
    {
      result: "flux",
      tex: (slot) =>
        String.raw`\frac{${slot("diffusivity")}\by ${slot("pressure")}}{R\by ${slot("gasTemperature")}\by ${slot("length")}}\by\ln\frac{${slot("pressure")}}{${slot("pressure")} - ${slot("surfacePressure")}}`,
    },
    {
      result: "massRate",
      tex: (slot) => String.raw`${slot("flux")}\by ${slot("area")}\by ${slot("molarMass")}`,
    },
  ],
  figures: [
    {
      id: "by-length",
      title: "A deeper beaker keeps more",
      caption:
        "Mass that still air lets through in an hour, against the height from liquid to rim. Twice the height, half the loss; but only while nothing stirs the air.",
      data: ({ length }, run) => {
        const span = Math.max(0.25, 1.2 * length);
        const points = Array.from({ length: 40 }, (_, i) => (span * (i + 4)) / 43).flatMap(
          (at): [number, number][] => {
            const y = run({ length: at })?.["massRate"]?.value;
            return y === undefined ? [] : [[at, y]];
          },
        );
        const here = run({})?.["massRate"]?.value;
        return {
          x: { label: "Length of the tube", of: tubeLength },
          y: {
            label: "Loss",
            of: { dimension: "massRate", units: ["g/h", "mg/h"], digits: 3 },
          },
          lines: [{ label: "still air", points }],
          marks:
            here === undefined || length < span / 12
              ? []
              : [{ x: length, y: here, label: "yours" }],
        };
      },
    },
  ],
  sources: ["bird-2002", "geankoplis-2003"],
});
