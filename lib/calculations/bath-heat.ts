import type { HeatFit } from "../laws/heat-fit.ts";
import {
  choice,
  defineCalculation,
  quantity,
  type InputValues,
  type Result,
} from "./calculation.ts";
import { fitRows } from "./heat-readings.ts";
import {
  bathHeatCapacity,
  bathLossConductance,
  bathShare,
  exchangeConductance,
  exchangeGuess,
  liquidHeatCapacity,
  liquidLossConductance,
  liquidShare,
  powerToBath,
  powerToLiquid,
  ratedPower,
  readingRoom,
} from "./quantities/heat.ts";
import { CONDUCTANCE, COUNT, POWER } from "./quantities/kinds.ts";
import { heatReadings } from "./quantities/readings.ts";

const knownFrom = choice("knownFrom", {
  label: "What is known of the bath",
  hint: "“My own readings” are those under “Your readings of liquid and bath”",
  options: [
    { value: "rating", label: "its rated power, and guesses" },
    { value: "readings", label: "my own readings" },
  ],
  default: "rating",
});

/** One direction in which the fitted numbers may be off together; its step is one standard deviation. */
const doubt = <const N extends string>(name: N, label: string) =>
  quantity(name, {
    ...COUNT,
    label,
    symbol: "z",
    limits: { min: -5, max: 5, unit: "1" },
    default: 0,
    hint: "In standard deviations",
    hidden: true,
    uncertainty: { absolute: 1, because: "what the readings leave open, correlations included" },
  });

const inputs = {
  knownFrom,
  ratedPower,
  liquidShare,
  bathShare,
  exchangeGuess,
  readings: heatReadings,
  readingRoom,
  liquidHeatCapacity,
  bathHeatCapacity,
  liquidLossConductance,
  bathLossConductance,
  fitDoubt1: doubt("fitDoubt1", "Scatter of the readings, first part"),
  fitDoubt2: doubt("fitDoubt2", "Scatter of the readings, second part"),
  fitDoubt3: doubt("fitDoubt3", "Scatter of the readings, third part"),
} as const;

const watts: Omit<Result, "label" | "symbol"> = { ...POWER, bounds: { min: 0 } };

export const bathHeat = defineCalculation({
  id: "bath-heat",
  title: "How many watts, and where",
  summary:
    "What the ultrasound leaves in liquid and bath, guessed from the rating or from your readings",
  inputs,
  links: {
    liquidHeatCapacity: "heat-capacity.liquidHeatCapacity",
    bathHeatCapacity: "heat-capacity.bathHeatCapacity",
  },
  results: {
    powerToLiquid: { ...watts, label: "Heat into one beaker", symbol: powerToLiquid.symbol },
    powerToBath: { ...watts, label: "Heat into the bath", symbol: powerToBath.symbol },
    exchangeConductance: {
      ...CONDUCTANCE,
      label: "Liquid to bath",
      symbol: exchangeConductance.symbol,
      hint: "Watts for each degree between them",
      bounds: { min: 0 },
    },
    selfHeating: {
      dimension: "warmingRate",
      units: ["K/h", "K/min"],
      digits: 2,
      label: "Warming of the bath by itself",
      symbol: String.raw`\dot T_\mathrm{b}`,
      hint: "No beaker, no loss: small baths do 10 to 15 K an hour",
      bounds: { min: 0 },
    },
    guessToLiquid: {
      ...watts,
      label: "Heat into one beaker, as a share of the rating",
      symbol: String.raw`P_{\ell,0}`,
      minor: true,
    },
    guessToBath: {
      ...watts,
      label: "Heat into the bath, as a share of the rating",
      symbol: String.raw`P_{\mathrm{b},0}`,
      minor: true,
    },
  },
  compute: (given) => {
    const guess = {
      liquid: given.liquidShare * given.ratedPower,
      bath: given.bathShare * given.ratedPower,
      exchange: given.exchangeGuess,
    };
    const known = given.knownFrom === "readings" ? fromReadings(given, guess) : guess;
    return {
      powerToLiquid: known.liquid,
      powerToBath: known.bath,
      exchangeConductance: known.exchange,
      selfHeating: known.bath / given.bathHeatCapacity,
      guessToLiquid: guess.liquid,
      guessToBath: guess.bath,
    };
  },
  steps: [
    {
      result: "guessToLiquid",
      tex: (slot) => String.raw`${slot("liquidShare")}\by ${slot("ratedPower")}`,
    },
    {
      result: "guessToBath",
      tex: (slot) => String.raw`${slot("bathShare")}\by ${slot("ratedPower")}`,
    },
    {
      result: "selfHeating",
      tex: (slot) => String.raw`\frac{${slot("powerToBath")}}{${slot("bathHeatCapacity")}}`,
    },
  ],
  sources: ["bath-self-heating-manuals", "churchill-chu-1975"],
});

interface Watts {
  readonly liquid: number;
  readonly bath: number;
  readonly exchange: number;
}

/** W and W/K: below it nothing is exchanged, and a power is none. */
const LEAST = { power: 0, exchange: exchangeConductance.limits.min } as const;

/** The fitted numbers, moved together along their doubts; what the readings cannot tell stays guessed. */
function fromReadings(given: InputValues<typeof inputs>, guess: Watts): Watts {
  const fit = fitRows(
    given.readings,
    {
      liquidHeatCapacity: given.liquidHeatCapacity,
      bathHeatCapacity: given.bathHeatCapacity,
      exchangeConductance: given.exchangeGuess,
      liquidLossConductance: given.liquidLossConductance,
      bathLossConductance: given.bathLossConductance,
      roomTemperature: given.readingRoom,
    },
    guess,
    false,
  );
  const z = [given.fitDoubt1, given.fitDoubt2, given.fitDoubt3];
  const spread = triangle(fit);
  const [liquid = guess.liquid, bath = guess.bath, exchange = guess.exchange] = fit.fitted.map(
    ({ value }, i) => value + (spread[i] ?? []).reduce((sum, by, j) => sum + by * (z[j] ?? 0), 0),
  );
  return {
    liquid: Math.max(liquid, LEAST.power),
    bath: Math.max(bath, LEAST.power),
    exchange: Math.max(exchange, LEAST.exchange),
  };
}

/**
 * The lower triangle L with L Lᵀ the covariance, so that L z has the errors and ties of the fit for z of
 * independent standard deviations. Source: Cholesky; Golub & Van Loan, Matrix Computations. memory
 */
function triangle({ fitted, correlations }: HeatFit): readonly (readonly number[])[] {
  const rows: number[][] = [];
  fitted.forEach((_, i) => {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      const done = row.reduce((sum, by, k) => sum + by * (rows[j]?.[k] ?? row[k] ?? 0), 0);
      const left = (correlations[i]?.[j] ?? 0) - done;
      // Rounding may leave a hair below nothing where two are tied all but wholly.
      row.push(i === j ? Math.sqrt(Math.max(left, 0)) : left / (rows[j]?.[j] || 1));
    }
    rows.push(row);
  });
  return rows.map((row, i) => row.map((by) => by * (fitted[i]?.standardError ?? 0)));
}
