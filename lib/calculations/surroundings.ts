import { biotNumber, temperatureAfter, timeConstant } from "../laws/lumped-cooling.ts";
import { overallCoefficient } from "../laws/convection.ts";
import { GLASSES } from "../substances/glass.ts";
import { conductivity } from "../substances/water.ts";
import { defineCalculation, type InputValues, type Result } from "./calculation.ts";
import { liquidInVessel } from "./quantities/blending.ts";
import {
  coldWaterTemperature,
  cooledArea,
  cooledWall,
  coolStart,
  filmDoubt,
  stirring,
  surroundings as standsIn,
} from "./quantities/cooling.ts";
import { liquidHeatCapacity, roomTemperature } from "./quantities/heat.ts";
import { CONDUCTANCE, COUNT, LENGTH, TEMPERATURE, TIME } from "./quantities/kinds.ts";

/**
 * Coefficients of the films at the glass, W/(m² K). Air: free convection and radiation together. Water:
 * tables give 10 to 1000 for free convection in liquids and 50 to 20 000 for forced; ours for standing water
 * is what a vertical wall of a beaker's height gives at a few kelvins.
 * Source: Çengel, Heat Transfer: A Practical Approach, table 1–5, seen; Churchill & Chu (1975), computed
 */
const FILM = { air: 10, still: 300, stirred: 1000 } as const;
/** °C: a household fridge. Source: UK Food Standards Agency, 5 °C or below. seen */
const FRIDGE = 5;
const ICE_POINT = 0;
/** kg/m³: near enough for a length that only compares resistances. */
const LIQUID_DENSITY = 1000;
const CONDUCTIVITY = {
  glass: GLASSES["borosilicate-3.3"].conductivity.value,
  /** Of water at 25 °C; alcohol lowers it by a tenth or two. */
  liquid: conductivity(25),
} as const;
const DRAWN = 1800;
const POINTS = 40;

const film: Omit<Result, "label" | "symbol"> = {
  dimension: "heatTransferCoefficient",
  units: ["W/(m² K)"],
  digits: 3,
  bounds: { min: 0 },
};

const inputs = {
  surroundings: standsIn,
  stirring,
  roomTemperature,
  coldWaterTemperature,
  cooledArea,
  cooledWall,
  startTemperature: coolStart,
  liquidMass: liquidInVessel,
  liquidHeatCapacity,
  filmDoubt,
} as const;

type Given = InputValues<typeof inputs>;

export const surroundings = defineCalculation({
  id: "surroundings",
  title: "Air, fridge, cold water or ice",
  summary: "How readily a beaker gives its heat to what it stands in",
  inputs,
  links: {
    liquidMass: "heat-capacity.solventMass",
    liquidHeatCapacity: "heat-capacity.liquidHeatCapacity",
  },
  blame: { length: "cooledArea" },
  results: {
    temperature: {
      ...TEMPERATURE,
      label: "Around the beaker",
      symbol: String.raw`T_\mathrm{s}`,
    },
    conductance: {
      ...CONDUCTANCE,
      label: "Conductance",
      symbol: "G",
      hint: "Watts for each degree between liquid and surroundings",
      bounds: { min: 0 },
    },
    coefficient: {
      ...film,
      label: "The same for each square metre",
      symbol: "U",
    },
    filmInside: { ...film, label: "Film inside", symbol: String.raw`h_\mathrm{i}`, minor: true },
    filmOutside: { ...film, label: "Film outside", symbol: String.raw`h_\mathrm{o}`, minor: true },
    films: { ...film, label: "Both films in a row", symbol: "h", minor: true },
    glassConductivity: {
      dimension: "thermalConductivity",
      units: ["W/(m K)"],
      digits: 2,
      label: "Conductivity of the glass",
      symbol: "k",
      minor: true,
    },
    liquidConductivity: {
      dimension: "thermalConductivity",
      units: ["W/(m K)"],
      digits: 2,
      label: "Conductivity of the liquid",
      symbol: String.raw`k_\ell`,
      minor: true,
    },
    depth: {
      ...LENGTH,
      digits: 2,
      label: "Volume of the liquid over its wet glass",
      symbol: "L",
      bounds: { min: 0 },
      minor: true,
    },
    biot: {
      ...COUNT,
      digits: 2,
      label: "Biot number, if the liquid stood still",
      symbol: String.raw`\mathrm{Bi}`,
      hint: "Below 0.1 one temperature describes the liquid without any stirring",
      bounds: { min: 0 },
    },
  },
  compute: (given) => {
    const { temperature, inside, outside, coefficient, conductance } = placeOf(given);
    const depth = given.liquidMass / LIQUID_DENSITY / given.cooledArea;
    return {
      temperature,
      conductance,
      coefficient,
      filmInside: inside,
      filmOutside: outside,
      films: (inside * outside) / (inside + outside),
      glassConductivity: CONDUCTIVITY.glass,
      liquidConductivity: CONDUCTIVITY.liquid,
      depth,
      biot: biotNumber(coefficient, depth, CONDUCTIVITY.liquid),
    };
  },
  steps: [
    {
      result: "films",
      tex: (slot) =>
        String.raw`\frac{${slot("filmInside")}\by ${slot("filmOutside")}}{${slot("filmInside")} + ${slot("filmOutside")}}`,
    },
    {
      result: "coefficient",
      tex: (slot) =>
        String.raw`\frac{${slot("films")}}{1 + ${slot("films")}\by ${slot("cooledWall")}/\wrap{${slot("glassConductivity")}}}`,
    },
    {
      result: "conductance",
      tex: (slot) => String.raw`${slot("coefficient")}\by ${slot("cooledArea")}`,
    },
    {
      result: "biot",
      tex: (slot) =>
        String.raw`\frac{${slot("coefficient")}\by ${slot("depth")}}{${slot("liquidConductivity")}}`,
    },
  ],
  figures: [
    {
      id: "compared",
      title: "Half an hour in four places",
      caption:
        "The same beaker in the air of the room, in a fridge, in cold water and in iced water. Each bends towards what is around it. Water is faster than air by its coefficient, ice only by its colder end.",
      data: (given) => ({
        x: { label: "Time", of: { ...TIME }, domain: [0, DRAWN] },
        // Room under the coldest curve, for its name.
        y: {
          label: "Liquid",
          of: { ...TEMPERATURE },
          domain: [ICE_POINT - 5, Math.max(given.startTemperature, given.roomTemperature) + 2],
        },
        lines: standsIn.options.map(({ value, label }, i) => {
          const { temperature, conductance } = placeOf({ ...given, surroundings: value });
          const constant = timeConstant(given.liquidHeatCapacity, conductance);
          const from = given.startTemperature;
          return {
            label,
            dashed: i % 2 === 1,
            points: Array.from({ length: POINTS + 1 }, (_, j): [number, number] => {
              const time = (DRAWN * j) / POINTS;
              return [time, temperatureAfter(from, temperature, constant, time)];
            }),
          };
        }),
      }),
    },
  ],
  sources: ["cengel-2003", "churchill-chu-1975", "fsa-fridge"],
});

/** What is around the beaker, and how readily heat goes there. */
function placeOf(given: Given): {
  temperature: number;
  inside: number;
  outside: number;
  coefficient: number;
  conductance: number;
} {
  const water = given.stirring === "stirred" ? FILM.stirred : FILM.still;
  const dry = given.surroundings === "air" || given.surroundings === "fridge";
  const [inside, outside] = [water, dry ? FILM.air : water];
  const coefficient =
    overallCoefficient(inside, outside, given.cooledWall, CONDUCTIVITY.glass) *
    (1 + given.filmDoubt);
  const temperature = {
    air: given.roomTemperature,
    fridge: FRIDGE,
    "cold-water": given.coldWaterTemperature,
    "iced-water": ICE_POINT,
  }[given.surroundings];
  return { temperature, inside, outside, coefficient, conductance: coefficient * given.cooledArea };
}
