import { iceNeeded } from "../laws/ice-cooling.ts";
import { temperatureAfter, timeConstant, timeToReach } from "../laws/lumped-cooling.ts";
import { densityWide, heatCapacity as waterHeat } from "../substances/water.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import { curveBand } from "./curve-band.ts";
import { liquidInVessel, vesselWithPowders } from "./quantities/blending.ts";
import {
  aroundTemperature,
  coldWaterTemperature,
  coolConductance,
  coolingWater,
  coolStart,
  coolTarget,
  iceTemperature,
  mixtureHeat,
} from "./quantities/cooling.ts";
import { HEAT_CAPACITY, MASS, RISE, TEMPERATURE, TIME } from "./quantities/kinds.ts";
import { SCALDS_FROM } from "./thresholds.ts";

const lasting: Omit<Result, "label" | "symbol"> = { ...TIME, byFactor: true, bounds: { min: 0 } };
const ice: Omit<Result, "label" | "symbol"> = { ...MASS, digits: 3, bounds: { min: 0 } };

/**
 * K: the sudden step that soda-lime glass is commonly said to bear (common practice, no source), whatever glass it
 * is: `thermal-stress` has the sum, and there a whole beaker of borosilicate bears it even at worst.
 */
const LARGE_STEP = 40;
/** W/K: air takes less than this from any beaker of ours, water more. */
const IN_WATER = 1;
/** How many time constants are drawn: at the last one under 2 % of the gap is left. */
const DRAWN = 4;
const POINTS = 60;

const inputs = {
  startTemperature: coolStart,
  targetTemperature: coolTarget,
  surroundTemperature: aroundTemperature,
  conductance: coolConductance,
  coldWaterTemperature,
  coolingWater,
  iceTemperature,
  liquidMass: liquidInVessel,
  heatCapacity: mixtureHeat,
  vesselHeatCapacity: vesselWithPowders,
} as const;

type Given = InputValues<typeof inputs>;

export const cooling = defineCalculation({
  id: "cooling",
  title: "Time to cool",
  summary: "How long the liquid takes to cool down, in air, water or ice, and the ice it needs",
  inputs,
  links: {
    surroundTemperature: "surroundings.temperature",
    conductance: "surroundings.conductance",
    liquidMass: "heat-capacity.solventMass",
    heatCapacity: "heat-capacity.specificHeat",
    vesselHeatCapacity: "heat-capacity.vesselHeatCapacity",
  },
  results: {
    time: {
      ...lasting,
      label: "Time to cool",
      symbol: "t",
      hint: "With the surroundings kept as cold as they are",
    },
    timeConstant: {
      ...lasting,
      label: "Time constant",
      symbol: String.raw`\tau`,
      hint: "After one, 37 % of the gap is left",
    },
    halfTime: {
      ...lasting,
      label: "The gap halves every",
      symbol: String.raw`t_{1/2}`,
    },
    heat: {
      dimension: "energy",
      units: ["kJ", "J"],
      digits: 3,
      label: "Heat to take out",
      symbol: "Q",
      hint: "Of liquid, powders and vessel",
    },
    waterRise: {
      ...RISE,
      label: "The water around warms by",
      symbol: String.raw`\Delta T_\mathrm{w}`,
      hint: "If it takes all of that and is not changed",
      bounds: { min: 0 },
    },
    iceMass: {
      ...ice,
      label: "Ice that the beaker melts",
      symbol: String.raw`m_\mathrm{i}`,
      hint: "For liquid, powders and vessel, in water that is iced already",
    },
    waterIceMass: {
      ...ice,
      label: "Ice that the water melts first",
      symbol: String.raw`m_\mathrm{w,i}`,
      hint: "To bring the water around from the tap to 0 °C",
    },
    wholeHeatCapacity: {
      ...HEAT_CAPACITY,
      label: "Liquid, powders and vessel together",
      symbol: "C",
      bounds: { min: 0 },
      minor: true,
    },
    gapAtStart: {
      ...RISE,
      digits: 3,
      label: "Gap at the start",
      symbol: String.raw`\Delta_0`,
      minor: true,
    },
    gapAtTarget: {
      ...RISE,
      digits: 3,
      label: "Gap left",
      symbol: String.raw`\Delta_1`,
      minor: true,
    },
    waterHeatCapacity: {
      ...HEAT_CAPACITY,
      label: "Water around the beaker",
      symbol: String.raw`C_\mathrm{w}`,
      bounds: { min: 0 },
      minor: true,
    },
  },
  compute: (given) => {
    const { startTemperature: start, targetTemperature: target } = given;
    const whole = wholeOf(given);
    const constant = timeConstant(whole, given.conductance);
    const time = timeToReach(start, given.surroundTemperature, constant, target);
    if (time === null) throw neverReached(given);
    const water =
      given.coolingWater *
      densityWide(given.coldWaterTemperature) *
      waterHeat(given.coldWaterTemperature);
    const cools = target <= start;
    return {
      time,
      timeConstant: constant,
      halfTime: constant * Math.LN2,
      heat: whole * (start - target),
      waterRise: cools ? (whole * (start - target)) / water : null,
      // The meltwater stays at 0 °C beside the ice, so only the difference counts.
      iceMass: cools ? iceNeeded(whole, start - target, 0, given.iceTemperature) : null,
      waterIceMass: iceNeeded(water, given.coldWaterTemperature, 0, given.iceTemperature),
      wholeHeatCapacity: whole,
      gapAtStart: start - given.surroundTemperature,
      gapAtTarget: target - given.surroundTemperature,
      waterHeatCapacity: water,
    };
  },
  steps: [
    {
      result: "wholeHeatCapacity",
      tex: (slot) =>
        String.raw`${slot("liquidMass")}\by ${slot("heatCapacity")} + ${slot("vesselHeatCapacity")}`,
    },
    {
      result: "timeConstant",
      tex: (slot) => String.raw`\frac{${slot("wholeHeatCapacity")}}{${slot("conductance")}}`,
    },
    {
      result: "gapAtStart",
      tex: (slot) => String.raw`${slot("startTemperature")} - ${slot("surroundTemperature")}`,
    },
    {
      result: "gapAtTarget",
      tex: (slot) => String.raw`${slot("targetTemperature")} - ${slot("surroundTemperature")}`,
    },
    {
      result: "time",
      tex: (slot) =>
        String.raw`${slot("timeConstant")}\by\ln\frac{${slot("gapAtStart")}}{${slot("gapAtTarget")}}`,
    },
    { result: "halfTime", tex: (slot) => String.raw`${slot("timeConstant")}\by\ln 2` },
    {
      result: "heat",
      tex: (slot) =>
        String.raw`${slot("wholeHeatCapacity")}\by\left(${slot("startTemperature")} - ${slot("targetTemperature")}\right)`,
    },
    {
      result: "waterRise",
      tex: (slot) => String.raw`\frac{${slot("heat")}}{${slot("waterHeatCapacity")}}`,
    },
  ],
  figures: [
    {
      id: "curve",
      title: "The gap halves, and halves again",
      caption:
        "Liquid against time, with its band (19 times in 20). Between two marks the same time passes, and each leaves half of the gap before: that is why the last degrees are slow.",
      data: (given, _, spread) => {
        const constant = timeConstant(wholeOf(given), given.conductance);
        const times = Array.from({ length: POINTS + 1 }, (_, i) => (DRAWN * constant * i) / POINTS);
        const at = curveOf(given);
        return {
          x: { label: "Time", of: { ...TIME }, domain: [0, DRAWN * constant] },
          y: { label: "Temperature", of: { ...TEMPERATURE } },
          lines: [{ label: "liquid", points: times.map((time) => [time, at(time)]) }],
          bands: [{ points: curveBand(times, curveOf, given, spread()) }],
          rules: [
            { y: given.targetTemperature, label: "target" },
            { y: given.surroundTemperature, label: "surroundings" },
          ],
          marks: ["half left", "a quarter", "an eighth"].map((label, i) => {
            const x = constant * Math.LN2 * (i + 1);
            return { x, y: at(x), label };
          }),
        };
      },
    },
  ],
  cautions: [
    {
      caution: "glass",
      when: ({ startTemperature: from, surroundTemperature: to, conductance }) =>
        conductance > IN_WATER && Math.abs(from - to) > LARGE_STEP,
      say: ({ startTemperature: from, surroundTemperature: to }) =>
        phrase`A sudden step of ${amount(Math.abs(from - to), RISE)} from liquid to water can break kitchen glass. Let it stand in air first, then in lukewarm water, then in cold.`,
    },
    {
      caution: "scald-and-burns",
      when: ({ startTemperature: from }) => from > SCALDS_FROM,
      say: ({ startTemperature: from }) =>
        phrase`At ${amount(from, coolStart)} liquid and glass can scald: lift the beaker with a dry cloth.`,
    },
  ],
  sources: ["cengel-2003", "incropera-dewitt", "crc-ice"],
});

function wholeOf({ liquidMass, heatCapacity, vesselHeatCapacity }: Given): number {
  return liquidMass * heatCapacity + vesselHeatCapacity;
}

function curveOf(given: Given): (time: number) => number {
  const constant = timeConstant(wholeOf(given), given.conductance);
  return (time) =>
    temperatureAfter(given.startTemperature, given.surroundTemperature, constant, time);
}

/** Why the target never comes, and what would help. */
function neverReached(given: Given): RefusedError {
  const { startTemperature: start, targetTemperature: target, surroundTemperature: around } = given;
  const between = amount(around, aroundTemperature);
  if ((target - start) * (around - start) <= 0)
    return new RefusedError(
      "targetTemperature",
      phrase`Left in surroundings of ${between}, a liquid of ${amount(start, coolStart)} goes the other way. Choose a target between the two.`,
    );
  return new RefusedError(
    "targetTemperature",
    phrase`Surroundings of ${between} never bring it to ${amount(target, coolTarget)}: it comes near them and no further. Choose a target a degree or more from them, or other surroundings.`,
  );
}
