import { OutOfRangeError } from "../errors.ts";
import { rimFactor, stagedCooling as plan, type CoolingStep } from "../laws/thermal-stress.ts";
import { asResult, defineCalculation, phrase, amount, RefusedError } from "./calculation.ts";
import type { InputValues } from "./calculation.ts";
import { wallThickness } from "./quantities/bath.ts";
import {
  coldTemperature,
  conductivity,
  contentsTimeConstant,
  elasticModulus,
  expansion,
  glass,
  glassDensity,
  glassSpecificHeat,
  heatTransferCoefficient,
  hotTemperature,
  permissibleStress,
  poissonRatio,
} from "./quantities/glass.ts";
import { COUNT, RISE, STRESS, TEMPERATURE, TIME } from "./quantities/kinds.ts";
import { filmOf, glassRange } from "./thermal-stress.ts";

const inputs = {
  hotTemperature,
  coldTemperature,
  contentsTimeConstant,
  glass,
  wallThickness,
  heatTransferCoefficient,
  permissibleStress,
  elasticModulus,
  poissonRatio,
  expansion,
  conductivity,
  glassDensity,
  glassSpecificHeat,
} as const;

type Given = InputValues<typeof inputs>;

export const stagedCooling = defineCalculation({
  id: "staged-cooling",
  title: "Cooling in stages",
  summary: "Steps and waits that bring a full hot beaker down without pulling too hard at its rim",
  inputs,
  results: {
    steps: {
      ...COUNT,
      label: "Steps",
      symbol: "n",
      hint: "1: it may go in at once",
      unbanded: true,
    },
    stepSize: {
      ...RISE,
      digits: 3,
      label: "Each step",
      symbol: String.raw`\Delta T_1`,
      unbanded: true,
    },
    hold: {
      ...TIME,
      digits: 2,
      label: "Wait after each",
      symbol: String.raw`t_1`,
      hint: "Stir: what is left of the step by then is a twentieth",
      byFactor: true,
      bounds: { min: 0 },
    },
    totalTime: {
      ...TIME,
      digits: 2,
      label: "Altogether",
      symbol: String.raw`t_n`,
      byFactor: true,
      bounds: { min: 0 },
    },
    rimStress: {
      ...STRESS,
      label: "Tension at the rim, at most",
      symbol: String.raw`\sigma_\mathrm{rim}`,
      unbanded: true,
    },
    drop: asResult(hotTemperature, {
      ...RISE,
      label: "From hot to cold",
      symbol: String.raw`\Delta T`,
      minor: true,
    }),
  },
  // A plan in whole steps jumps with its inputs: a result belongs to many of them, or to none.
  onlyForward: true,
  blame: { biot: "heatTransferCoefficient" },
  compute: (given) => {
    const steps = stepsOf(given);
    const { hold } = steps[0] as CoolingStep;
    const drop = given.hotTemperature - given.coldTemperature;
    return {
      steps: steps.length,
      stepSize: drop / steps.length,
      hold,
      totalTime: steps.length * hold,
      rimStress: Math.max(...steps.map(({ stress }) => stress)) * rimFactorOf(given),
      drop,
    };
  },
  steps: [
    {
      result: "drop",
      tex: (slot) => String.raw`${slot("hotTemperature")} - ${slot("coldTemperature")}`,
    },
    {
      result: "stepSize",
      tex: (slot) => String.raw`\frac{${slot("drop")}}{${slot("steps")}}`,
    },
    {
      result: "totalTime",
      tex: (slot) => String.raw`${slot("steps")}\by ${slot("hold")}`,
    },
  ],
  tables: [
    {
      id: "stages",
      title: "Cooling plan",
      columns: [
        { name: "number", label: "Step", ...COUNT },
        { name: "from", label: "From", ...TEMPERATURE, digits: 2 },
        { name: "to", label: "Into surroundings of", ...TEMPERATURE, digits: 2 },
        { name: "hold", label: "Then wait", ...TIME, digits: 2 },
        { name: "tension", label: "Tension at the rim, at most", ...STRESS, digits: 2 },
      ],
      rows: (given) =>
        stepsOf(given).map(({ from, to, hold, stress }, i) => [
          i + 1,
          from,
          to,
          hold,
          stress * rimFactorOf(given),
        ]),
    },
  ],
  sources: ["timoshenko-goodier-1951", "carslaw-jaeger-1959", "borosilicate-33-sheets", "en-1595"],
});

function rimFactorOf(given: Given): number {
  return rimFactor(glassRange(given).middle.poissonRatio);
}

/** At least one step. */
function stepsOf(given: Given): readonly CoolingStep[] {
  const { hotTemperature: hot, coldTemperature: cold, permissibleStress: most } = given;
  if (cold >= hot)
    throw new RefusedError(
      "coldTemperature",
      phrase`Nothing is cooled: type less than the ${amount(hot, hotTemperature)} of the beaker.`,
    );
  try {
    return plan(
      {
        glass: glassRange(given).middle,
        thickness: given.wallThickness,
        film: filmOf(given.heatTransferCoefficient),
        inside: { timeConstant: given.contentsTimeConstant },
      },
      hot,
      cold,
      most / rimFactorOf(given),
    );
  } catch (error) {
    if (error instanceof OutOfRangeError && error.quantity === "steps")
      throw new RefusedError("heatTransferCoefficient", [
        `More than ${error.limits.max} steps would be needed. Let it cool in air instead, where heat transfer is about 10 W/(m² K).`,
      ]);
    throw error;
  }
}
