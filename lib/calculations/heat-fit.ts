import type { HeatFit, HeatParameter } from "../laws/heat-fit.ts";
import { choice, defineCalculation, type Banded, type Result } from "./calculation.ts";
import { COVERAGE } from "./graph.ts";
import { fitRows } from "./heat-readings.ts";
import {
  bathHeatCapacity,
  bathLossConductance,
  assumedBathPower,
  exchangeConductance,
  exchangeGuess,
  liquidHeatCapacity,
  liquidLossConductance,
  powerToBath,
  powerToLiquid,
  readingRoom,
} from "./quantities/heat.ts";
import { CONDUCTANCE, COUNT, POWER, RISE, TEMPERATURE, TIME } from "./quantities/kinds.ts";
import { heatReadings } from "./quantities/readings.ts";

const lossesFitted = choice("lossesFitted", {
  label: "Losses to the air",
  hint: "Fitting them too takes readings at rest, and makes all the numbers less sure",
  options: [
    { value: "held", label: "held at the values below" },
    { value: "fitted", label: "fitted too" },
  ],
  default: "held",
});

const watts: Omit<Result, "label" | "symbol"> = { ...POWER, bounds: { min: 0 } };
const perKelvin: Omit<Result, "label" | "symbol"> = { ...CONDUCTANCE, bounds: { min: 0 } };
const tied: Omit<Result, "label" | "symbol"> = { ...COUNT, bounds: { min: -1, max: 1 } };

/** W: where the search for the liquid's power starts. */
const FIRST_POWER = 5;

export const heatFit = defineCalculation({
  id: "heat-fit",
  title: "Your bath from your readings",
  summary: "Both powers and the conductance between liquid and bath, fitted to probe readings",
  inputs: {
    readings: heatReadings,
    lossesFitted,
    readingRoom,
    liquidHeatCapacity,
    bathHeatCapacity,
    liquidLossConductance,
    bathLossConductance,
    assumedBathPower,
    exchangeGuess,
  },
  links: {
    assumedBathPower: "bath-heat.guessToBath",
    liquidHeatCapacity: "heat-capacity.liquidHeatCapacity",
    bathHeatCapacity: "heat-capacity.bathHeatCapacity",
  },
  onlyForward: true,
  results: {
    powerToLiquid: { ...watts, label: powerToLiquid.label, symbol: powerToLiquid.symbol },
    powerToLiquidError: {
      unbanded: true,
      ...watts,
      digits: 2,
      label: "Standard error of the power to the liquid",
      symbol: String.raw`u(P_\ell)`,
    },
    powerToBath: {
      ...watts,
      label: powerToBath.label,
      symbol: powerToBath.symbol,
      hint: "“None” here and below: too few bath readings to tell",
    },
    powerToBathError: {
      unbanded: true,
      ...watts,
      digits: 2,
      label: "Standard error of the power to the bath",
      symbol: String.raw`u(P_\mathrm{b})`,
    },
    exchangeConductance: {
      ...perKelvin,
      digits: 3,
      label: exchangeConductance.label,
      symbol: exchangeConductance.symbol,
    },
    exchangeConductanceError: {
      unbanded: true,
      ...perKelvin,
      label: "Standard error of that conductance",
      symbol: "u(G)",
    },
    fittedLiquidLoss: {
      ...perKelvin,
      label: "Liquid to air, fitted",
      symbol: String.raw`\hat G_\ell`,
      minor: true,
    },
    fittedBathLoss: {
      ...perKelvin,
      label: "Bath to air, fitted",
      symbol: String.raw`\hat G_\mathrm{b}`,
      minor: true,
    },
    residualDeviation: {
      unbanded: true,
      ...RISE,
      label: "Scatter about the curves",
      symbol: "s_r",
      hint: "Of the size of your probe’s display step, if the model fits your bench",
      bounds: { min: 0 },
    },
    degreesOfFreedom: {
      unbanded: true,
      ...COUNT,
      label: "Degrees of freedom",
      symbol: String.raw`\nu`,
      hint: "Readings less fitted numbers",
    },
    correlationPowers: {
      unbanded: true,
      ...tied,
      label: "Correlation of the two powers",
      symbol: String.raw`r(P_\ell, P_\mathrm{b})`,
      minor: true,
    },
    correlationLiquidExchange: {
      unbanded: true,
      ...tied,
      label: "Correlation of liquid power and conductance",
      symbol: String.raw`r(P_\ell, G)`,
      minor: true,
    },
    correlationBathExchange: {
      unbanded: true,
      ...tied,
      label: "Correlation of bath power and conductance",
      symbol: String.raw`r(P_\mathrm{b}, G)`,
      minor: true,
    },
  },
  compute: (given) => {
    const fit = fitOf(given);
    const value = (name: HeatParameter): Banded | null => banded(fit, name);
    const error = (name: HeatParameter): number | null =>
      fit.fitted.find(({ parameter }) => parameter === name)?.standardError ?? null;
    const tie = (a: HeatParameter, b: HeatParameter): number | null => correlation(fit, a, b);
    return {
      powerToLiquid: value("liquidPower"),
      powerToLiquidError: error("liquidPower"),
      powerToBath: value("bathPower"),
      powerToBathError: error("bathPower"),
      exchangeConductance: value("exchangeConductance"),
      exchangeConductanceError: error("exchangeConductance"),
      fittedLiquidLoss: value("liquidLossConductance"),
      fittedBathLoss: value("bathLossConductance"),
      residualDeviation: fit.residualSd,
      degreesOfFreedom: fit.degreesOfFreedom,
      correlationPowers: tie("liquidPower", "bathPower"),
      correlationLiquidExchange: tie("liquidPower", "exchangeConductance"),
      correlationBathExchange: tie("bathPower", "exchangeConductance"),
    };
  },
  steps: [],
  figures: [
    {
      id: "curves",
      title: "Readings and fitted curves",
      caption:
        "The liquid starts colder than the bath and draws near to it, or past it where the curves cross, and both fall when the ultrasound is off. Where points leave a curve all on one side, the model misses something of your bench.",
      data: (given) => {
        const fit = fitOf(given);
        const times = given.readings.map(([time]) => Number(time));
        const line = (node: "liquid" | "bath"): readonly (readonly [number, number])[] =>
          fit.curve.map((at, i) => [times[i] ?? 0, at[node]]);
        const points = given.readings.flatMap(([time, liquid, bath]) =>
          [liquid, bath].flatMap((y) => (y === null ? [] : [{ x: Number(time), y, label: "" }])),
        ) as { x: number; y: number; label: string }[];
        return {
          x: { label: "Time", of: TIME },
          y: { label: "Temperature", of: TEMPERATURE },
          lines: [
            { label: "liquid", points: line("liquid") },
            { label: "bath", points: line("bath"), dashed: true },
          ],
          marks: points,
        };
      },
    },
  ],
  tables: [
    {
      id: "correlations",
      title: "How the errors of the fitted numbers are tied",
      columns: [
        {
          name: "fitted",
          label: "Fitted number",
          dimension: "count",
          units: ["1"],
          digits: 1,
          words: [
            "power to the liquid",
            "power to the bath",
            "liquid to bath",
            "liquid to air",
            "bath to air",
          ],
        },
        ...["with the first", "the second", "the third", "the fourth", "the fifth"].map(
          (label, i) => ({ name: `with${i}`, label, ...COUNT, digits: 2 }),
        ),
      ],
      rows: (given) => {
        const { fitted, correlations } = fitOf(given);
        return fitted.map(({ parameter }, i) => [
          ORDER.indexOf(parameter),
          ...ORDER.map((_, j) => correlations[i]?.[j] ?? null),
        ]);
      },
    },
  ],
  sources: ["nist-strd", "plattes-2017"],
});

const ORDER: readonly HeatParameter[] = [
  "liquidPower",
  "bathPower",
  "exchangeConductance",
  "liquidLossConductance",
  "bathLossConductance",
];

function fitOf(given: {
  readonly readings: Parameters<typeof fitRows>[0];
  readonly lossesFitted: string;
  readonly readingRoom: number;
  readonly liquidHeatCapacity: number;
  readonly bathHeatCapacity: number;
  readonly liquidLossConductance: number;
  readonly bathLossConductance: number;
  readonly assumedBathPower: number;
  readonly exchangeGuess: number;
}): HeatFit {
  return fitRows(
    given.readings,
    {
      liquidHeatCapacity: given.liquidHeatCapacity,
      bathHeatCapacity: given.bathHeatCapacity,
      exchangeConductance: given.exchangeGuess,
      liquidLossConductance: given.liquidLossConductance,
      bathLossConductance: given.bathLossConductance,
      roomTemperature: given.readingRoom,
    },
    { liquid: FIRST_POWER, bath: given.assumedBathPower },
    given.lossesFitted === "fitted",
  );
}

function banded({ fitted }: HeatFit, name: HeatParameter): Banded | null {
  const found = fitted.find(({ parameter }) => parameter === name);
  if (!found) return null;
  const half = COVERAGE * found.standardError;
  return { value: found.value, low: found.value - half, high: found.value + half };
}

function correlation(fit: HeatFit, a: HeatParameter, b: HeatParameter): number | null {
  const at = (name: HeatParameter): number =>
    fit.fitted.findIndex(({ parameter }) => parameter === name);
  return fit.correlations[at(a)]?.[at(b)] ?? null;
}
