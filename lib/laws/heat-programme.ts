import { inRange } from "../errors.ts";
import { brent } from "../numeric/root.ts";
import {
  type HeatNode,
  type HeatNodes,
  type HeatPhase,
  heatPhase,
  type HeatPowers,
  heldBathPhase,
  type NodeTemperatures,
  TWO_NODE_LIMITS,
} from "./two-node-heat.ts";

/** Where a programme is followed. The form reads the same object, so page and function cannot disagree. */
export const PROGRAMME_LIMITS = {
  temperature: { min: -40, max: 150, unit: "°C" },
  power: { min: 0, max: 5e4, unit: "W" },
  stintTime: { min: 1, max: 1e6, unit: "s" },
  restTime: { min: 0, max: 1e6, unit: "s" },
  stints: { min: 1, max: 1000, unit: "stints" },
} as const;

/** Two temperatures nearer than this, K, are the same: far above rounding, far below any thermometer. */
const SAME = 1e-9;

/** s, 30 000 years: what is not reached by then is never reached. */
const FOR_EVER = TWO_NODE_LIMITS.time.max;

/**
 * Steps between two switchings of the ultrasound, at most.
 *
 * Warming one node never cools the other, and the thermostat never gives more power to a warmer bath. In
 * such a pair, once both temperatures rise they rise for good, and once both fall they fall for good; while
 * one rises and the other falls neither turns. So the bath turns at most once and comes to the setting at most
 * twice, each time with at most one stretch of holding: full, holding, off, holding, full at the longest.
 * Source: Hirsch, SIAM J. Math. Anal. 13 (1982) 167, on cooperative systems. memory
 */
const MOST_STEPS = 5;

/** A heater in the bath with an ideal thermostat. */
export interface BathHeater {
  /** that it gives at most, W */
  readonly power: number;
  /** bath temperature at which it holds, °C */
  readonly setting: number;
  readonly on: boolean;
}

/** What is heated, and by what. */
export interface HeatBench {
  readonly nodes: HeatNodes;
  readonly start: NodeTemperatures;
  /** that the ultrasound gives while a stint runs, W */
  readonly sonication: HeatPowers;
  readonly heater: BathHeater;
}

export interface HeatProgramme extends HeatBench {
  /** s */
  readonly stintTime: number;
  /** between two stints, s */
  readonly restTime: number;
  readonly stints: number;
  /** time followed after the last stint, s */
  readonly coolDown: number;
  /** time before the first stint, s; left out, it is 0 */
  readonly warmUp?: number;
}

/** "holding" gives just what keeps the bath at the setting. */
export type HeaterState = "off" | "full" | "holding";

/** A part of a programme in which nothing is switched. */
export interface HeatStep {
  /** since the programme began, s */
  readonly start: number;
  /** s, > 0 */
  readonly duration: number;
  readonly heater: HeaterState;
  /** its temperatures, by the time since this part began */
  readonly phase: HeatPhase;
}

export interface HeatPiece extends HeatStep {
  readonly stage: "warm-up" | "stint" | "rest" | "cool-down";
  /** the stint that runs or ran last, from 1; 0 before the first */
  readonly stint: number;
}

/**
 * A programme of stints and rests as exact pieces, joined where something is switched.
 *
 * The heater follows its thermostat from beginning to end, rests and cooling down included: at full power
 * while the bath is below the setting; at the setting with what the bath needs to stay there; off where it
 * needs none. Where it needs more than there is, the heater stays at full power and the bath falls.
 *
 * @param programme - temperatures −40 to 150 °C, powers 0 to 5e4 W, stints 1 to 1000 of 1 to 1e6 s, other
 * times 0 to 1e6 s; nodes as {@link heatPhase}
 * @returns the pieces in order of time, at least one
 * @throws OutOfRangeError outside those ranges, NaN included
 * @throws TypeError for a number of stints that is not whole
 * Source: {@link heatPhase} from one switching to the next
 */
export function heatProgramme(programme: HeatProgramme): readonly HeatPiece[] {
  const { sonication, stintTime, restTime, stints, coolDown, warmUp = 0 } = programme;
  checkBench(programme);
  checkSonication(sonication);
  inRange("stintTime", stintTime, PROGRAMME_LIMITS.stintTime);
  inRange("restTime", restTime, PROGRAMME_LIMITS.restTime);
  inRange("coolDown", coolDown, PROGRAMME_LIMITS.restTime);
  inRange("warmUp", warmUp, PROGRAMME_LIMITS.restTime);
  inRange("stints", stints, PROGRAMME_LIMITS.stints);
  if (!Number.isInteger(stints)) throw new TypeError(`stints are whole, got ${stints}`);

  const pieces: HeatPiece[] = [];
  let state = programme.start;
  let start = 0;
  const follow = (stage: HeatPiece["stage"], stint: number, duration: number): void => {
    const powers = stage === "stint" ? sonication : NO_POWER;
    for (const step of stepsOf({ ...programme, start: state }, powers, duration)) {
      pieces.push({ ...step, stage, stint, start: start + step.start });
      state = step.phase.at(step.duration);
    }
    start += duration;
  };
  follow("warm-up", 0, warmUp);
  for (let stint = 1; stint <= stints; stint++) {
    follow("stint", stint, stintTime);
    if (stint < stints) follow("rest", stint, restTime);
  }
  follow("cool-down", stints, coolDown);
  return pieces;
}

/**
 * Temperatures at the end of a single stint: what {@link heatProgramme} says of it, for who asks no more.
 *
 * @param bench - as in {@link heatProgramme}
 * @param stintTime - 1 to 1e6 s
 * @returns °C
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: {@link heatPhase} from one switching to the next
 */
export function endOfStint(bench: HeatBench, stintTime: number): NodeTemperatures {
  checkBench(bench);
  checkSonication(bench.sonication);
  inRange("stintTime", stintTime, PROGRAMME_LIMITS.stintTime);
  const { phase, duration } = stepsOf(bench, bench.sonication, stintTime).at(-1) as HeatStep;
  return phase.at(duration);
}

/**
 * Temperatures at a time of a programme.
 *
 * @param pieces - of {@link heatProgramme}
 * @param time - since the programme began, s; 0 to its end
 * @returns °C
 * @throws OutOfRangeError for a time outside the programme, NaN included
 */
export function programmeAt(pieces: readonly HeatPiece[], time: number): NodeTemperatures {
  inRange("time", time, { min: 0, max: endOf(pieces), unit: "s" });
  return stateAt(pieces, time);
}

/**
 * Highest temperature of the liquid in a programme, what it does after the last stint included.
 *
 * @param pieces - of {@link heatProgramme}
 * @returns °C, and the first time it is reached, s since the programme began
 */
export function peakLiquid(pieces: readonly HeatStep[]): {
  readonly temperature: number;
  readonly time: number;
} {
  let peak = { temperature: -Infinity, time: 0 };
  for (const point of pieces.flatMap((piece) => extremes(piece, "liquid")))
    if (point.temperature > peak.temperature) peak = point;
  return peak;
}

/**
 * First time at which the liquid goes above a ceiling. Touching it is not going above.
 *
 * @param pieces - of {@link heatProgramme}
 * @param ceiling - °C, from −273.15
 * @returns s since the programme began, or null where it never does
 * @throws OutOfRangeError outside that range, NaN included
 */
export function firstTimeAbove(pieces: readonly HeatStep[], ceiling: number): number | null {
  inRange("ceiling", ceiling, TWO_NODE_LIMITS.temperature);
  for (const piece of pieces)
    if (peakLiquid([piece]).temperature > ceiling) {
      // Above it, yet not come to from below: the piece starts there.
      const reached = piece.phase.timeToReach(ceiling, "liquid", piece.duration, "rising");
      return piece.start + (reached ?? 0);
    }
  return null;
}

/**
 * Longest single stint that keeps the liquid at or below a ceiling, while it runs and ever after: a bath
 * that is the warmer one goes on heating the liquid when the ultrasound is off.
 *
 * A longer stint makes the liquid nowhere colder, so the highest temperature grows with the stint and
 * passes the ceiling once.
 *
 * @param bench - as in {@link heatProgramme}; the heater goes on with its thermostat after the stint
 * @param ceiling - −40 to 150 °C
 * @param longest - that is of interest, s; 1 to 1e6
 * @returns s, at most `longest`; null where no stint, however long, passes the ceiling; 0 where the liquid
 * starts at or above it, or comes above it without a stint
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function longestStint(bench: HeatBench, ceiling: number, longest: number): number | null {
  checkBench(bench);
  checkSonication(bench.sonication);
  inRange("ceiling", ceiling, PROGRAMME_LIMITS.temperature);
  inRange("longest", longest, PROGRAMME_LIMITS.stintTime);
  if (bench.start.liquid >= ceiling) return 0;
  // A temperature that only tends to the ceiling does not pass it.
  const limit = ceiling + SAME;
  const running = stepsOf(bench, bench.sonication, FOR_EVER);
  const excessAfter = (time: number): number => {
    const stopped = stepsOf({ ...bench, start: stateAt(running, time) }, NO_POWER, FOR_EVER);
    return peakLiquid(stopped).temperature - limit;
  };
  if (excessAfter(0) > 0) return 0;
  const passes = firstTimeAbove(running, limit);
  // With the ultrasound off the liquid is nowhere warmer than with it left on.
  if (passes === null) return null;
  const latest = Math.min(passes, longest);
  return excessAfter(latest) <= 0 ? latest : brent(excessAfter, 0, latest, 0);
}

/**
 * Rest after a stint until the liquid has come down to a temperature.
 *
 * @param bench - as in {@link heatProgramme}, the start being the end of the stint
 * @param temperature - to come down to, −40 to 150 °C
 * @returns s; 0 where the liquid is there already; null where resting never gets it there
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function restNeeded(
  bench: Omit<HeatBench, "sonication">,
  temperature: number,
): number | null {
  checkBench(bench);
  inRange("temperature", temperature, PROGRAMME_LIMITS.temperature);
  if (bench.start.liquid <= temperature) return 0;
  const resting = stepsOf(bench, NO_POWER, FOR_EVER);
  const lowest = Math.min(
    ...resting.flatMap((step) => extremes(step, "liquid")).map((point) => point.temperature),
  );
  // What the liquid only tends to it never gets to, though rounding may say so.
  if (temperature < lowest + SAME) return null;
  for (const { start, duration, phase } of resting) {
    const reached = phase.timeToReach(temperature, "liquid", duration, "falling");
    if (reached !== null) return start + reached;
  }
  return null;
}

/**
 * Points of a programme for drawing: the joints, and between them points spread over the time.
 *
 * @param pieces - of {@link heatProgramme}
 * @param count - of points; one more than there are pieces, to 1e6
 * @returns exactly that many points, times rising from 0 to the end
 * @throws OutOfRangeError for a count outside that range (quantity "count"), NaN included
 * @throws TypeError for a count that is not whole
 */
export function sampleProgramme(
  pieces: readonly HeatPiece[],
  count: number,
): readonly (NodeTemperatures & { readonly time: number })[] {
  inRange("count", count, { min: pieces.length + 1, max: 1e6, unit: "points" });
  if (!Number.isInteger(count)) throw new TypeError(`points are whole, got ${count}`);
  const total = endOf(pieces);
  const last = count - 1;
  const points: (NodeTemperatures & { readonly time: number })[] = [];
  pieces.forEach(({ start, duration, phase }, i) => {
    const from = points.length;
    const joint = Math.round((last * (start + duration)) / total);
    // At least one step for this piece, and one left for each that follows.
    const to = Math.min(Math.max(joint, from + 1), last - (pieces.length - 1 - i));
    for (let n = 0; n < to - from; n++) {
      const time = (duration * n) / (to - from);
      points.push({ time: start + time, ...phase.at(time) });
    }
  });
  points.push({ time: total, ...stateAt(pieces, total) });
  return points;
}

const NO_POWER: HeatPowers = { liquid: 0, bath: 0 };

/** The steps of the thermostat while the ultrasound gives constant powers. */
function stepsOf(
  { nodes, start, heater }: Omit<HeatBench, "sonication">,
  powers: HeatPowers,
  duration: number,
): readonly HeatStep[] {
  const steps: HeatStep[] = [];
  let state = start;
  let elapsed = 0;
  while (elapsed < duration) {
    const left = duration - elapsed;
    const running = runningFrom(nodes, powers, heater, state, left);
    const last = steps.length === MOST_STEPS - 1;
    const switched = last ? null : switchTime(nodes, powers, heater, running, left);
    const taken = switched ?? left;
    steps.push({ ...running, start: elapsed, duration: taken });
    state = running.phase.at(taken);
    elapsed = switched === null ? duration : elapsed + taken;
  }
  return steps;
}

type Running = Pick<HeatStep, "heater" | "phase">;

/** What the thermostat does from this state on. */
function runningFrom(
  nodes: HeatNodes,
  powers: HeatPowers,
  { power, setting, on }: BathHeater,
  state: NodeTemperatures,
  left: number,
): Running {
  const off: Running = { heater: "off", phase: heatPhase(nodes, powers, state) };
  if (!on || power === 0 || state.bath > setting + SAME) return off;
  const heated = { liquid: powers.liquid, bath: powers.bath + power };
  const full: Running = { heater: "full", phase: heatPhase(nodes, heated, state) };
  if (state.bath < setting - SAME) return full;
  // At the setting: off if the bath does not fall without the heater, full if it does not rise with all of it.
  // Asked of the curves, not of the slopes at this moment, whose signs may be rounding.
  if (bathChange(off.phase, left) > -SAME) return off;
  if (bathChange(full.phase, left) < SAME) return full;
  return { heater: "holding", phase: heldBathPhase(nodes, powers.liquid, state) };
}

/** How far the bath moves before it turns; to the end if it never turns or turns where it began. */
function bathChange(phase: HeatPhase, left: number): number {
  const start = phase.at(0).bath;
  const turn = phase.turn("bath");
  const first = turn !== null && turn < left ? phase.at(turn).bath - start : 0;
  return Math.abs(first) > SAME ? first : phase.at(left).bath - start;
}

/** When the thermostat next does something else, or null where it does not in the time that is left. */
function switchTime(
  nodes: HeatNodes,
  powers: HeatPowers,
  { power, setting, on }: BathHeater,
  { heater, phase }: Running,
  left: number,
): number | null {
  if (!on || power === 0) return null;
  if (heater !== "holding") {
    const falling = heater === "off";
    const baths = extremes({ start: 0, duration: left, phase }, "bath");
    // Touching the setting, or only tending to it, switches nothing.
    const passed = baths.some(({ temperature }) =>
      falling ? temperature < setting - SAME : temperature > setting + SAME,
    );
    return passed ? phase.timeToReach(setting, "bath", left, falling ? "falling" : "rising") : null;
  }
  // The bath needs G_b (T_b − T_a) + G (T_b − T_ℓ) − P_b: none from one liquid temperature up, more than there
  // is from another down.
  const [begin, end] = [phase.at(0), phase.at(left)];
  const rising = end.liquid > begin.liquid;
  const lost = nodes.bathLossConductance * (begin.bath - nodes.roomTemperature);
  const gained = powers.bath + (rising ? 0 : power);
  const limit = begin.bath + (lost - gained) / nodes.exchangeConductance;
  const passed = (limit - begin.liquid) * (limit - end.liquid) <= 0;
  return passed ? phase.timeToReach(limit, "liquid", left) : null;
}

/** Temperatures at a time, the nearest there are past the end. */
function stateAt(pieces: readonly HeatStep[], time: number): NodeTemperatures {
  // Every list begins at 0, so there is one.
  const piece = pieces.findLast(({ start }) => start <= time) as HeatStep;
  return piece.phase.at(Math.min(time - piece.start, piece.duration));
}

function endOf(pieces: readonly HeatStep[]): number {
  const last = pieces.at(-1) as HeatStep;
  return last.start + last.duration;
}

/** Where a temperature may be highest or lowest in a part of a programme, in order of time. */
function extremes(
  { start, duration, phase }: Omit<HeatStep, "heater">,
  node: HeatNode,
): readonly { readonly temperature: number; readonly time: number }[] {
  const turn = phase.turn(node);
  const times = turn !== null && turn < duration ? [0, turn, duration] : [0, duration];
  return times.map((time) => ({ temperature: phase.at(time)[node], time: start + time }));
}

function checkBench({ nodes, start, heater }: Omit<HeatBench, "sonication">): void {
  const { temperature, power } = PROGRAMME_LIMITS;
  inRange("roomTemperature", nodes.roomTemperature, temperature);
  inRange("liquidTemperature", start.liquid, temperature);
  inRange("bathTemperature", start.bath, temperature);
  inRange("heaterPower", heater.power, power);
  inRange("heaterSetting", heater.setting, temperature);
}

function checkSonication({ liquid, bath }: HeatPowers): void {
  inRange("liquidPower", liquid, PROGRAMME_LIMITS.power);
  inRange("bathPower", bath, PROGRAMME_LIMITS.power);
}
