import { timeConstant, timeToReach } from "../laws/lumped-cooling.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
  type Rows,
} from "./calculation.ts";
import { beakers } from "./quantities/batch.ts";
import { blendTime, pulseRest, pulses } from "./quantities/blending.ts";
import {
  bottleLiquid,
  bottles,
  bubbleTime,
  chillStart,
  chillTarget,
  coolTime,
  dissolveTime,
  fillTime,
  fridgeFilm,
  fridgeTemperature,
  ingredients,
  lastBottle,
  liftTime,
  setUpTime,
  skimTime,
  weighTime,
} from "./quantities/evening.ts";
import { beakersInBath, restTime, stints, stintTime } from "./quantities/heat.ts";
import { AREA, COUNT, HEAT_CAPACITY, TIME } from "./quantities/kinds.ts";

/** What is done of an evening, in this order: each kind of step with the stage that it belongs to. */
export const EVENING_STEPS = [
  { id: "weigh", stage: "weigh", label: "Weigh in", hands: true },
  { id: "dissolve", stage: "dissolve", label: "Dissolve and stir", hands: true },
  { id: "cool", stage: "cool", label: "Cool", hands: false },
  { id: "blend", stage: "blend", label: "Blend", hands: true },
  { id: "pause", stage: "blend", label: "Pause of the blender", hands: false },
  { id: "set-up", stage: "bath", label: "Set up the bath", hands: true },
  { id: "stint", stage: "bath", label: "Stint", hands: false },
  { id: "rest", stage: "bath", label: "Rest", hands: false },
  { id: "lift-out", stage: "bath", label: "Lift out", hands: true },
  { id: "degas", stage: "degas", label: "Let bubbles rise", hands: false },
  { id: "skim", stage: "skim", label: "Skim", hands: true },
  { id: "bottle", stage: "bottle", label: "Fill bottles", hands: true },
  { id: "chill", stage: "chill", label: "Chill in the fridge", hands: false },
] as const;

export type EveningStep = (typeof EVENING_STEPS)[number]["id"];

/** Stages as the timeline names them. */
const STAGE_LABELS = {
  weigh: "Weigh in",
  dissolve: "Dissolve",
  cool: "Cool",
  blend: "Blend",
  bath: "Bath",
  degas: "Bubbles rise",
  skim: "Skim",
  bottle: "Bottle",
  chill: "Fridge",
} as const;

/** s: a longer line counts in hours. */
const LONG_LINE = 18_000;
/** More than so many beakers are not one evening's work. */
const MOST_BEAKERS = 24;
/** s: food that is to be kept cold should be out of the fridge for no longer, once. Source: UK FSA. memory */
const LONGEST_OUT = 14_400;
/** s of ultrasound in all, from where hearing and patience are worth a word (common practice, no source). */
const LONG_NOISE = 5400;
/** J/(m³ K): of the liquid, near enough water's for a time that is known to a third. */
const LIQUID_HEAT = 4e6;
/** J/(m² K): of bottle glass 3.5 mm thick, 2500 kg/m³ and 830 J/(kg K). computed */
const GLASS_HEAT = 7300;
/** Surface over volume to the power of 2/3, of a bottle 2.5 times as high as wide: 3 π / (2.5 π / 4)^(2/3). computed */
const BOTTLE_SHAPE = 6.01;

const HOURS = { ...TIME, units: ["h", "min"], digits: 2 } as const;
const WORD = { ...COUNT, digits: 1 } as const;
const lasting: Omit<Result, "label" | "symbol"> = { ...TIME, finest: 60, bounds: { min: 0 } };
const counted: Omit<Result, "label" | "symbol"> = { ...COUNT, unbanded: true };

const inputs = {
  ingredients,
  weighTime,
  dissolveTime,
  coolTime,
  blendTime,
  pulses,
  pulseRest,
  setUpTime,
  stintTime,
  restTime,
  stints,
  liftTime,
  bubbleTime,
  skimTime,
  fillTime,
  beakers,
  beakersInBath,
  bottles,
  lastBottle,
  bottleLiquid,
  chillStart,
  chillTarget,
  fridgeTemperature,
  fridgeFilm,
} as const;

type Given = InputValues<typeof inputs>;

export const evening = defineCalculation({
  id: "evening",
  title: "The evening, stage by stage",
  summary: "How long one batch takes from the scale to the fridge, at work and waiting",
  inputs,
  links: {
    coolTime: "cooling.time",
    bubbleTime: "bubble-rise.time",
    beakers: "recipe.beakers",
    bottles: "bottling.bottles",
    lastBottle: "bottling.lastVolume",
    bottleLiquid: "bottling.fillVolume",
  },
  decided: ["beakers", "bottles", "lastBottle"],
  results: {
    eveningTime: {
      ...lasting,
      units: ["h", "min"],
      label: "Until the bottles are in the fridge",
      symbol: String.raw`t_\mathrm{all}`,
      hint: "The whole evening: work and waiting, one thing after another",
    },
    handsTime: {
      ...lasting,
      label: "Your hands are at work",
      symbol: String.raw`t_\mathrm{hands}`,
    },
    waitingTime: {
      ...lasting,
      label: "You wait, within call",
      symbol: String.raw`t_\mathrm{wait}`,
      hint: "Cooling, pauses, stints, rests and bubbles; a running bath is never left alone",
    },
    runningTime: {
      ...lasting,
      label: "The ultrasound runs",
      symbol: String.raw`t_\mathrm{run}`,
      hint: "All stints of all loads",
    },
    loads: {
      ...counted,
      label: "Loads of the bath",
      symbol: String.raw`n_\mathrm{L}`,
      hint: "One after another, where not all beakers hang at once",
    },
    chillTime: {
      ...lasting,
      byFactor: true,
      label: "Then cold in the fridge after",
      symbol: String.raw`t_\mathrm{cold}`,
      hint: "By itself, while you sleep",
    },
    outTime: {
      ...lasting,
      label: "The liquid stands out of the fridge",
      symbol: String.raw`t_\mathrm{out}`,
      hint: "From the first grain in the water until the bottles are in the fridge",
      minor: true,
    },
    bottleArea: {
      ...AREA,
      label: "Surface of one bottle",
      symbol: String.raw`A`,
      hint: "Taken as 2.5 times as high as wide",
      bounds: { min: 0 },
      minor: true,
    },
    bottleHeatCapacity: {
      ...HEAT_CAPACITY,
      digits: 2,
      label: "Heat capacity of one bottle",
      symbol: "C",
      bounds: { min: 0 },
      minor: true,
    },
    chillConstant: {
      ...lasting,
      byFactor: true,
      label: "Time constant in the fridge",
      symbol: String.raw`\tau`,
      minor: true,
    },
    bottlesFilled: {
      ...counted,
      label: "Bottles to fill, a last one counted",
      symbol: String.raw`n_\mathrm{f}`,
      minor: true,
    },
  },
  compute: (given) => {
    const steps = stepsOf(given);
    const lengthOf = (wanted: (step: EveningStep) => boolean): number =>
      steps.reduce((sum, { step, lasts }) => (wanted(step) ? sum + lasts : sum), 0);
    const hands = lengthOf(isByHand);
    const waiting = lengthOf((step) => !isByHand(step) && step !== "chill");
    const bottle = bottleOf(given);
    return {
      eveningTime: hands + waiting,
      handsTime: hands,
      waitingTime: waiting,
      runningTime: lengthOf((step) => step === "stint"),
      loads: loadsOf(given),
      chillTime: bottle.time,
      outTime: hands + waiting - lengthOf((step) => step === "weigh"),
      bottleArea: bottle.area,
      bottleHeatCapacity: bottle.heatCapacity,
      chillConstant: bottle.constant,
      bottlesFilled: bottlesOf(given),
    };
  },
  steps: [
    {
      result: "loads",
      tex: (slot) =>
        String.raw`\left\lceil \frac{${slot("beakers")}}{${slot("beakersInBath")}} \right\rceil`,
    },
    {
      result: "handsTime",
      tex: (slot) =>
        String.raw`${slot("beakers")}\by\left(${slot("ingredients")}\by ${slot("weighTime")} + ${slot("dissolveTime")} + ${slot("blendTime")} + ${slot("skimTime")}\right) + ${slot("loads")}\by\left(${slot("setUpTime")} + ${slot("liftTime")}\right) + ${slot("bottlesFilled")}\by ${slot("fillTime")}`,
    },
    {
      result: "runningTime",
      tex: (slot) => String.raw`${slot("loads")}\by ${slot("stints")}\by ${slot("stintTime")}`,
    },
    {
      result: "waitingTime",
      tex: (slot) =>
        String.raw`${slot("coolTime")} + ${slot("beakers")}\by\left(${slot("pulses")} - 1\right)\by ${slot("pulseRest")} + ${slot("runningTime")} + ${slot("loads")}\by\left(${slot("stints")} - 1\right)\by ${slot("restTime")} + ${slot("bubbleTime")}`,
    },
    {
      result: "eveningTime",
      tex: (slot) => String.raw`${slot("handsTime")} + ${slot("waitingTime")}`,
    },
    {
      result: "outTime",
      tex: (slot) =>
        String.raw`${slot("eveningTime")} - ${slot("beakers")}\by ${slot("ingredients")}\by ${slot("weighTime")}`,
    },
    {
      result: "bottleArea",
      tex: (slot) => String.raw`${BOTTLE_SHAPE}\by \wrap{${slot("bottleLiquid")}}^{2/3}`,
    },
    {
      result: "bottleHeatCapacity",
      tex: (slot) =>
        String.raw`4\,\mathrm{MJ/(m^3\,K)}\by ${slot("bottleLiquid")} + 7.3\,\mathrm{kJ/(m^2\,K)}\by ${slot("bottleArea")}`,
    },
    {
      result: "chillConstant",
      tex: (slot) =>
        String.raw`\frac{${slot("bottleHeatCapacity")}}{${slot("fridgeFilm")}\by ${slot("bottleArea")}}`,
    },
    {
      result: "chillTime",
      tex: (slot) =>
        String.raw`${slot("chillConstant")}\by\ln\frac{${slot("chillStart")} - ${slot("fridgeTemperature")}}{${slot("chillTarget")} - ${slot("fridgeTemperature")}}`,
    },
  ],
  figures: [
    {
      id: "timeline",
      title: "The evening on a line",
      caption:
        "Each stage in its turn. Filled is work of your hands, tinted is the ultrasound running, an outline is waiting. Most of an evening is waiting, and all of it but the last within call.",
      data: (given) => {
        const steps = stepsOf(given);
        const end = Math.max(...steps.map(({ begins, lasts }) => begins + lasts), 60);
        const units = end > LONG_LINE ? ["h", "min"] : ["min", "h"];
        const spans = steps.map((step) => ({ ...step, ...kindOf(step.step) }));
        const labels = [...new Set(spans.map(({ stage }) => STAGE_LABELS[stage]))];
        return {
          x: { label: "Since the start", of: { ...TIME, units }, domain: [0, end] },
          looks: { solid: "work", tinted: "bath on", open: "waiting" },
          rows: labels.map((label) => ({
            label,
            spans: spans
              .filter(({ stage }) => STAGE_LABELS[stage] === label)
              .map(({ step, hands, begins, lasts }) => ({
                from: begins,
                to: begins + lasts,
                look: hands ? "solid" : step === "stint" ? "tinted" : "open",
              })),
          })),
        };
      },
    },
  ],
  tables: [
    {
      id: "stages",
      title: "The evening, step by step",
      columns: [
        { name: "step", label: "Step", ...WORD, words: EVENING_STEPS.map(({ label }) => label) },
        { name: "number", label: "Number", ...COUNT },
        { name: "begins", label: "Begins after", ...TIME },
        { name: "lasts", label: "Lasts", ...TIME },
        { name: "hands", label: "You", ...WORD, words: ["wait", "hands on"] },
        { name: "running", label: "Ultrasound", ...WORD, words: ["off", "on"] },
      ],
      rows: (given): Rows => {
        const steps = stepsOf(given);
        return steps.map(({ step, number, begins, lasts }) => [
          EVENING_STEPS.findIndex(({ id }) => id === step),
          steps.filter((other) => other.step === step).length > 1 ? number : null,
          begins,
          lasts,
          isByHand(step) ? 1 : 0,
          step === "stint" ? 1 : 0,
        ]);
      },
    },
  ],
  cautions: [
    {
      caution: "spoilage",
      when: (_, { outTime }) => (outTime?.value ?? 0) > LONGEST_OUT,
      say: (_, { outTime }) =>
        phrase`From the first stir until it is in the fridge the liquid stands warm for ${amount(outTime?.value ?? 0, HOURS)}; food agencies allow four hours to what must be kept cold. Make less at a time, hang more beakers at once, or put finished beakers in the fridge, covered, while the others wait.`,
    },
    {
      caution: "running-bath",
      when: (_, { runningTime }) => (runningTime?.value ?? 0) > LONG_NOISE,
      say: (_, { runningTime }) =>
        phrase`The ultrasound runs for ${amount(runningTime?.value ?? 0, HOURS)} in all. Stay within call, read the probe every few minutes, and mind your ears: wear ear muffs, or wait next door.`,
    },
  ],
  sources: ["common-practice", "cengel-2003", "fsa-fridge"],
});

interface Step {
  readonly step: EveningStep;
  /** Of its kind, from 1. */
  readonly number: number;
  /** s since the evening began */
  readonly begins: number;
  readonly lasts: number;
}

function kindOf(step: EveningStep): (typeof EVENING_STEPS)[number] {
  return EVENING_STEPS.find(({ id }) => id === step) as (typeof EVENING_STEPS)[number];
}

function isByHand(step: EveningStep): boolean {
  return kindOf(step).hands;
}

function loadsOf(given: Given): number {
  return Math.ceil(given.beakers / given.beakersInBath);
}

function bottlesOf(given: Given): number {
  return given.bottles + (given.lastBottle > 0 ? 1 : 0);
}

/** One thing after another; what takes no time is no step. */
function stepsOf(given: Given): readonly Step[] {
  if (given.beakers > MOST_BEAKERS)
    throw new RefusedError(
      "beakers",
      phrase`${amount(given.beakers, beakers)} beakers are more than an evening holds: make a smaller batch, or take larger beakers. Up to ${amount(MOST_BEAKERS, beakers)} are planned here.`,
    );
  const steps: Step[] = [];
  const numbers = new Map<EveningStep, number>();
  let begins = 0;
  const add = (step: EveningStep, lasts: number): void => {
    if (lasts === 0) return;
    const number = (numbers.get(step) ?? 0) + 1;
    numbers.set(step, number);
    steps.push({ step, number, begins, lasts });
    begins += lasts;
  };
  add("weigh", given.beakers * given.ingredients * given.weighTime);
  add("dissolve", given.beakers * given.dissolveTime);
  add("cool", given.coolTime);
  for (let beaker = 0; beaker < given.beakers; beaker++)
    for (let pulse = 0; pulse < given.pulses; pulse++) {
      if (pulse > 0) add("pause", given.pulseRest);
      add("blend", given.blendTime / given.pulses);
    }
  for (let load = 0; load < loadsOf(given); load++) {
    add("set-up", given.setUpTime);
    for (let stint = 0; stint < given.stints; stint++) {
      if (stint > 0) add("rest", given.restTime);
      add("stint", given.stintTime);
    }
    add("lift-out", given.liftTime);
  }
  add("degas", given.bubbleTime);
  add("skim", given.beakers * given.skimTime);
  add("bottle", bottlesOf(given) * given.fillTime);
  add("chill", bottleOf(given).time);
  return steps;
}

/** One bottle in the fridge's air, all of it at one temperature. */
function bottleOf(given: Given): {
  area: number;
  heatCapacity: number;
  constant: number;
  time: number;
} {
  const { bottleLiquid: volume, chillStart: start, chillTarget: target } = given;
  const area = BOTTLE_SHAPE * volume ** (2 / 3);
  const heatCapacity = LIQUID_HEAT * volume + GLASS_HEAT * area;
  const constant = timeConstant(heatCapacity, given.fridgeFilm * area);
  const time = start <= target ? 0 : timeToReach(start, given.fridgeTemperature, constant, target);
  if (time === null)
    throw new RefusedError(
      "chillTarget",
      phrase`A fridge of ${amount(given.fridgeTemperature, fridgeTemperature)} never brings it to ${amount(target, chillTarget)}: it comes near and no further. Type a degree or more above, or set the fridge colder.`,
    );
  return { area, heatCapacity, constant, time };
}
