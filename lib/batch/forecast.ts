import type {
  Banded,
  Inputs,
  InputValues,
  Moved,
  Phrase,
  Quantity,
  Rows,
} from "../calculations/calculation.ts";
import { amount, phrase } from "../calculations/calculation.ts";
import { curveBand } from "../calculations/curve-band.ts";
import { COVERAGE, type Graph } from "../calculations/graph.ts";
import {
  ceiling as ceilingQuantity,
  FITTED,
  liquidTemperature,
} from "../calculations/quantities/heat.ts";
import { RISE } from "../calculations/quantities/kinds.ts";
import { heatReadings, liquidReading } from "../calculations/quantities/readings.ts";
import { OutOfRangeError } from "../errors.ts";
import {
  heatProgramme,
  peakLiquid,
  programmeAt,
  type BathHeater,
  type HeatPiece,
} from "../laws/heat-programme.ts";
import type { HeatNodes, HeatPowers, NodeTemperatures } from "../laws/two-node-heat.ts";
import { brent } from "../numeric/root.ts";
import { studentFactor } from "../numeric/student.ts";
import { withReadings } from "./gear.ts";
import { secondsSince, stepNow, type Entry, type EntryOf, type Log } from "./log.ts";
import { valuesOf, type Batch } from "./record.ts";
import type { ScheduledStep } from "./schedule.ts";
import { steadyTimes } from "./timeline.ts";

/** The calculations a forecast needs loaded. */
export const FORECAST_CALCULATIONS = ["sonication", "heat-fit"] as const;

/** s: after this long a reading says little of now. */
export const READING_IS_OLD = 600;
/** s: how far ahead the ceiling is looked for. */
export const HORIZON = 21_600;

/**
 * s: a straight line goes through readings that are at least so far apart. Over less, what the probe errs by, or
 * what the plan's start was off by, looks like a steep rise (common practice, no source).
 */
const APART = 60;
/** s: how long the liquid is followed after switching off. */
const FOLLOWED = 14_400;
/** s: how far the drawing goes on after the last planned stint, or where no plan says what comes. */
const DRAWN = { after: 600, unplanned: 1800 } as const;
/** s: what a programme's stint lasts at least; a shorter one is looked at before its end. */
const SHORTEST = 1;
/** s: entries of one press may be stamped in either order. */
const SAME_PRESS = 1;
const POINTS = 60;
const MINUTE = 60;

/** What a forecast asks of the schedule's steps. */
export type StepFacts = Pick<ScheduledStep, "id" | "stage" | "hands" | "running" | "length">;

/** s from now, 19 times in 20 between `low` and `high`; `null`: not within {@link HORIZON}. */
export interface Reach {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** Liquid against time, s since the session began: low, middle and high, °C. */
export type BandedCurve = readonly (readonly [
  time: number,
  low: number,
  value: number,
  high: number,
])[];

/** A reading beside what was expected of it just before it was taken. */
export interface ReadingCheck {
  readonly entry: EntryOf<"read">;
  /** since its session began, s */
  readonly time: number;
  /** where it was expected 19 times in 20, the probe's own error included; `null` where nothing was known */
  readonly expected: Banded | null;
  /** how far outside that, K; 0 inside, below 0 where the liquid is colder */
  readonly outside: number;
}

/** A number of the bath as tonight's readings give it, beside the one in use. */
export interface FitDifference {
  readonly of: Quantity;
  readonly fitted: Banded;
  readonly used: Banded;
}

export interface FitCheck {
  /** the readings it was made from */
  readonly rows: Rows;
  /** where the two bands do not meet */
  readonly differences: readonly FitDifference[];
}

export interface Predicted {
  readonly ok: true;
  /** the moment, s since the session began: with the first stint, or with a later one after time out of the bath */
  readonly now: number;
  /** whether the ultrasound is on, by the log */
  readonly running: boolean;
  /** liquid at the moment, °C */
  readonly liquid: Banded;
  readonly ceiling: number;
  /** from the start alone */
  readonly planned: BandedCurve;
  /** carried on from the last reading; the same as `planned` where there is none */
  readonly carried: BandedCurve;
  readonly readings: readonly ReadingCheck[];
  /** until the liquid is at the ceiling, the ultrasound left as it is; `low` is what to act on */
  readonly toCeiling: Reach;
  /** how long the ultrasound may run from now so that the liquid stays under the ceiling afterwards too */
  readonly runFor: Reach;
  /** highest temperature to come with the ultrasound off from now, °C */
  readonly peakWhenOff: Banded;
  /** `undefined` where the readings do not allow a fit yet */
  readonly fit: FitCheck | undefined;
  /** what readings and fit may mean, in words */
  readonly remarks: readonly Phrase[];
}

export type Forecast = Predicted | { readonly ok: false; readonly say: Phrase };

/**
 * What the liquid does in the bath, from the stints and rests as they really began and the readings taken.
 *
 * The heat model of `sonication` is followed from the start of the session, and anew from each reading: the
 * liquid from the probe, the bath from the probe or else from the model. Bands: every uncertain quantity is
 * moved by its standard uncertainty, a probe's error alike in all its readings, and the half-changes are added
 * in squares and doubled (k = 2), as in {@link Graph.evaluate}.
 *
 * @param graph - with {@link FORECAST_CALCULATIONS} loaded
 * @param steps - of the schedule, in its order; steps that it does not know are taken by their names
 * @param now - ms since 1970
 * @returns the forecast, or in words why there is none
 */
export function forecastOf(
  graph: Graph,
  batch: Batch,
  steps: readonly StepFacts[],
  now: number,
): Forecast {
  const log = batch.log ?? [];
  const session = sessionsOf(log, steps).at(-1);
  if (!session) return refuse`The prediction begins with the first stint.`;
  if (session.out)
    return refuse`The beaker is out of the bath: the prediction goes on with the next stint.`;
  const moment = secondsSince(log, log[0] as Entry, now) - session.from;
  if (moment < session.last - SAME_PRESS)
    return refuse`The clock is behind the last entry, so no time can be told from it. Set it right, or wait until it has caught up.`;
  const model = modelOf(graph, batch);
  if (!model.ok) return model;
  const begin = beginOf(session, model.centre);
  if (!begin)
    return refuse`Not enough is known after the break: read the liquid and the bath once, and the prediction goes on from there.`;
  const fit = fitOf(graph, batch, readingRows(log, steps), model);
  return (
    ifHeld(() => predict(session, begin, model, fit, Math.max(moment, session.last))) ??
    refuse`By the model the liquid would long be far above anything it was checked for. Look at the bath, and take a reading.`
  );
}

/** Stages that are warmer, or colder, by intent. */
const NO_CEILING: ReadonlySet<string> = new Set(["weigh", "dissolve", "cool", "chill"]);

/**
 * Whether the ceiling holds in the step that goes on: it is that of the stages in which ultrasound or blades warm
 * the liquid. Where no step says otherwise, it holds.
 */
export function heedsCeiling(log: Log, steps: readonly StepFacts[]): boolean {
  const id = stepNow(log)?.step ?? "";
  const stage = steps.find((step) => step.id === id)?.stage ?? id;
  return !NO_CEILING.has(stage);
}

/**
 * Every reading taken in the bath beside what was expected of it.
 *
 * @param graph - with {@link FORECAST_CALCULATIONS} loaded
 * @param steps - as for {@link forecastOf}
 * @returns in the order of the log; none where the plan has no answer
 */
export function readingChecks(
  graph: Graph,
  batch: Batch,
  steps: readonly StepFacts[],
): readonly ReadingCheck[] {
  const model = modelOf(graph, batch);
  if (!model.ok) return [];
  return sessionsOf(batch.log ?? [], steps).flatMap((session) => {
    const begin = beginOf(session, model.centre);
    if (!begin) return [];
    const events = [...session.switches, ...anchorsOf(session, begin)];
    const track = remembered((given) =>
      trackOf(model, given, startOf(model, given, begin), events, session.last),
    );
    return ifHeld(() => checksOf(session, begin, track, model)) ?? [];
  });
}

/**
 * The readings taken in the bath, as rows of `heatReadings`: what `heat-fit` learns a bath from.
 *
 * @returns time since the first of them, s; liquid, °C; bath or `null`; 1 where the ultrasound ran for most of
 * the time to the next row. They begin with the first reading of both, which a fit starts from
 */
export function readingRows(log: Log, steps: readonly StepFacts[]): Rows {
  // A later load that was not read takes nothing from an earlier one that was.
  const session = sessionsOf(log, steps).findLast(({ readings }) => readings.length > 0);
  const { limits } = liquidReading;
  const read = (session?.readings ?? []).filter(
    ({ time, liquid }, i, all) =>
      liquid >= limits.min && liquid <= limits.max && time !== all[i - 1]?.time,
  );
  const first = read.findIndex(({ bath }) => bath !== null);
  const rows = read.slice(Math.max(first, 0)).slice(0, heatReadings.count.max);
  return rows.map(({ time, liquid, bath }, i) => [
    time - (rows[0]?.time ?? 0),
    liquid,
    bath,
    session && mostlyRunning(session, time, rows[i + 1]?.time ?? time) ? 1 : 0,
  ]);
}

/** What the model starts from: a reading, or what the plan says in its place. */
interface Read {
  /** since the session began, s */
  readonly time: number;
  readonly liquid: number;
  readonly bath: number | null;
}

interface Taken extends Read {
  readonly entry: EntryOf<"read">;
}

interface Switch {
  readonly time: number;
  readonly running: boolean;
}

/** An unbroken time of a beaker in the bath. */
interface Session {
  /** since the first entry of the log, s */
  readonly from: number;
  /** It is the first, so that the plan's start is its start. */
  readonly first: boolean;
  /** the last reading before it, while that is not old */
  readonly before: Read | undefined;
  readonly switches: Switch[];
  readonly readings: Taken[];
  /** its last entry, since it began, s */
  last: number;
  /** The beaker has come out. */
  out: boolean;
  /** what the plan has in store after the last switching, and when that ends */
  plan: { readonly switches: readonly Switch[]; readonly end: number } | undefined;
}

function sessionsOf(log: Log, steps: readonly StepFacts[]): readonly Session[] {
  const times = steadyTimes(log);
  const sessions: Session[] = [];
  let latest: Taken | undefined;
  const open = (from: number, first: boolean): Session => ({
    from,
    first,
    before: latest && from - latest.time <= READING_IS_OLD ? { ...latest, time: 0 } : undefined,
    switches: [],
    readings: [],
    last: 0,
    out: false,
    plan: undefined,
  });
  for (const [i, entry] of log.entries()) {
    const time = times[i] as number;
    let session = sessions.at(-1);
    if (session && time < session.from + session.last - SAME_PRESS) {
      // Nobody saw the clock go back: what lies before it cannot be compared with what follows.
      const { switches, out } = session;
      latest = undefined;
      session = { ...open(time, false), out };
      session.switches.push({ time: 0, running: switches.at(-1)?.running ?? false });
      sessions.push(session);
    }
    if (entry.kind === "step") {
      const running = hangs(steps, entry.step);
      if (running === undefined) {
        if (session) session.out = true;
      } else {
        if (!session || session.out) {
          session = open(time, !session);
          sessions.push(session);
        }
        const at = time - session.from;
        session.switches.push({ time: at, running });
        session.plan = plannedFrom(steps, entry.step, at);
      }
    }
    if (entry.kind === "end" && session?.out === false) {
      // After the last step the beaker hangs where it is.
      session.switches.push({ time: time - session.from, running: false });
      session.plan = undefined;
    }
    if (entry.kind === "read") {
      const { liquid, bath = null } = entry;
      latest = { entry, time, liquid, bath };
      if (session?.out === false) session.readings.push({ ...latest, time: time - session.from });
    }
    if (session) session.last = Math.max(session.last, time - session.from);
  }
  return sessions;
}

/** Whether the ultrasound is on in a step in which the beaker hangs in the bath; `undefined` in any other. */
function hangs(steps: readonly StepFacts[], id: string): boolean | undefined {
  const step = steps.find((one) => one.id === id);
  if (step)
    return step.running || (step.stage === "bath" && !step.hands) ? step.running : undefined;
  // The plan has changed since: stints and rests are known by their names.
  return /^stint-/.test(id) ? true : /^rest-/.test(id) ? false : undefined;
}

/** What follows in the bath after a step that began at this time, as the schedule has it. */
function plannedFrom(steps: readonly StepFacts[], id: string, start: number): Session["plan"] {
  const here = steps.findIndex((step) => step.id === id);
  if (here < 0) return undefined;
  const switches: Switch[] = [];
  let time = start;
  for (const step of steps.slice(here)) {
    const running = hangs(steps, step.id);
    if (running === undefined) break;
    if (step.id !== id) switches.push({ time, running });
    time += step.length;
  }
  return { switches: [...switches, { time, running: false }], end: time };
}

function mostlyRunning({ switches }: Session, from: number, to: number): boolean {
  const at = (time: number): boolean =>
    switches.findLast((change) => change.time <= time)?.running ?? false;
  if (to <= from) return at(from);
  const edges = [from, ...switches.map(({ time }) => time).filter((t) => t > from && t < to), to];
  const ran = edges
    .slice(1)
    .reduce((sum, end, i) => sum + (at(edges[i] as number) ? end - (edges[i] as number) : 0), 0);
  return ran > (to - from) / 2;
}

type Given = InputValues<Inputs>;

/** The numbers of the heat model, as they are and with each uncertain one moved. */
interface Model {
  readonly ok: true;
  readonly centre: Given;
  readonly spread: readonly Moved<Inputs>[];
  readonly heater: BathHeater;
  readonly ceiling: number;
  /** standard uncertainty of the probe, K */
  readonly probe: number;
}

function modelOf(graph: Graph, batch: Batch): Model | (Forecast & { readonly ok: false }) {
  const values = valuesOf(batch);
  const { inputs } = graph.get("sonication");
  const of = (name: string): unknown => values[name] ?? inputs[name]?.default;
  // Ceiling and heater only refuse a plan; a bench that is already past them is followed all the same.
  const asked = { ...values, ceiling: ceilingQuantity.limits.max, heaterOn: "off" };
  const outcome = graph.evaluate("sonication", asked);
  if (!outcome.ok)
    return {
      ok: false,
      say: outcome.refusals[0]?.say ?? ["The plan of the stints has no answer yet."],
    };
  return {
    ok: true,
    centre: outcome.inputs as Given,
    spread: graph.spread("sonication", asked),
    heater: {
      power: Number(of("heaterPower")),
      setting: Number(of("heaterSetting")),
      on: of("heaterOn") === "on",
    },
    ceiling: Number(of("ceiling")),
    probe: graph.standardUncertainty(liquidTemperature.name, liquidTemperature, values),
  };
}

/** Where the model starts: at the beginning if both temperatures are known, else at the first reading of both. */
function beginOf(session: Session, centre: Given): Read | undefined {
  const { first, before, readings } = session;
  const liquid =
    before && isUsable(before)
      ? before.liquid
      : first
        ? numberOf(centre, "liquidTemperature")
        : null;
  const bath = before?.bath ?? (first ? numberOf(centre, "bathTemperature") : null);
  if (liquid !== null && bath !== null) return { time: 0, liquid, bath };
  return readings.find((read) => isUsable(read) && read.bath !== null);
}

/** The readings that the model is begun anew from. */
function anchorsOf({ readings }: Session, begin: Read): readonly Taken[] {
  return readings.filter((read) => isUsable(read) && read.time >= begin.time);
}

/** Whether the model takes it for the temperature of a liquid that is mostly water. */
function isUsable({ liquid }: { readonly liquid: number }): boolean {
  return liquid >= liquidTemperature.limits.min && liquid <= liquidTemperature.limits.max;
}

function numberOf(given: Given, name: string): number {
  return Number(given[name]);
}

interface Track {
  /** @param time - since the session began, s, not before the model's start */
  at(time: number): NodeTemperatures;
  /** what it was at each reading just before it was taken */
  readonly before: ReadonlyMap<Read, NodeTemperatures>;
}

/** A curve for each set of inputs. */
type Curves = (given: Given) => (x: number) => number;

function predict(
  session: Session,
  begin: Read,
  model: Model,
  fit: FitCheck | undefined,
  now: number,
): Predicted {
  const { centre, spread, ceiling } = model;
  const done = session.switches;
  const coming = session.plan?.switches.filter(({ time }) => time > now) ?? [];
  const all = [...done, ...coming];
  const planned = session.plan?.end ?? now;
  const end = planned > now ? planned + DRAWN.after : now + DRAWN.unplanned;
  const anchors = anchorsOf(session, begin);
  const from = anchors.at(-1)?.time ?? begin.time;
  const held = remembered((given) =>
    trackOf(model, given, startOf(model, given, begin), [...done, ...anchors], now + HORIZON),
  );
  const fromStart = remembered((given) =>
    trackOf(model, given, startOf(model, given, begin), all, end),
  );
  const carried = remembered((given) =>
    trackOf(model, given, { time: from, ...held(given).at(from) }, all, end),
  );

  const drawn = (track: (given: Given) => Track, first: number): BandedCurve => {
    const curves: Curves = (given) => (time) => track(given).at(time).liquid;
    const middle = curves(centre);
    return curveBand(timesOf(first, end, all), curves, centre, spread).map(([time, low, high]) => [
      time,
      low,
      middle(time),
      high,
    ]);
  };
  const liquid: Curves = (given) => (time) => held(given).at(now + time).liquid;
  const runs = remembered((given) => {
    const start = held(given).at(now);
    return (time: number): readonly HeatPiece[] => programme(model, given, start, true, time);
  });
  const ends: Curves = (given) => (time) => programmeAt(runs(given)(time), time).liquid;
  const peaks: Curves = (given) => (time) => peakOf(runs(given)(time));
  const peakOff: Curves = (given) => () =>
    peakOf(programme(model, given, held(given).at(now), false, SHORTEST));
  const readings = checksOf(session, begin, held, model);
  const straight = straightToCeiling(readings, anchors, begin, done.at(-1), ceiling, now);
  return {
    ok: true,
    now,
    running: done.at(-1)?.running ?? false,
    liquid: bandAt(liquid, 0, model),
    ceiling,
    planned: drawn(fromStart, begin.time),
    carried: drawn(carried, from),
    readings,
    toCeiling: sooner(timeToReach(liquid, model), straight),
    runFor: sooner(
      reachOf((edge) =>
        latestUnder((time) => {
          // The edge of the highest temperatures may lie below the edge at this moment: both count.
          const warmest = [ends, peaks].map((curves) => edge(bandAt(curves, time, model)));
          return Math.max(...warmest) - ceiling;
        }),
      ),
      straight,
    ),
    peakWhenOff: bandAt(peakOff, 0, model),
    fit,
    remarks: [...readingRemarks(readings.at(-1), straight !== null), ...fitRemarks(fit)],
  };
}

interface Start extends NodeTemperatures {
  /** since the session began, s */
  readonly time: number;
}

/** The probe's errors with these inputs, K: they are the same in all its readings. */
function errorsOf({ centre }: Model, given: Given): NodeTemperatures {
  const shift = (name: string): number => numberOf(given, name) - numberOf(centre, name);
  return { liquid: shift("liquidTemperature"), bath: shift("bathTemperature") };
}

function startOf(model: Model, given: Given, { time, liquid, bath }: Read): Start {
  const errors = errorsOf(model, given);
  return { time, liquid: liquid + errors.liquid, bath: (bath ?? 0) + errors.bath };
}

/** Follows one set of inputs from a start through what was switched and read; a reading begins it anew. */
function trackOf(
  model: Model,
  given: Given,
  begin: Start,
  events: readonly (Switch | Read)[],
  until: number,
): Track {
  const errors = errorsOf(model, given);
  const legs: {
    readonly start: number;
    readonly length: number;
    readonly pieces: readonly HeatPiece[];
  }[] = [];
  const before = new Map<Read, NodeTemperatures>();
  let state: NodeTemperatures = begin;
  let running = false;
  let start = begin.time;
  const advance = (to: number): void => {
    if (to <= start) return;
    const length = Math.max(to - start, SHORTEST);
    const pieces = programme(model, given, state, running, length, 0);
    legs.push({ start, length, pieces });
    state = programmeAt(pieces, to - start);
    start = to;
  };
  for (const event of [...events].sort((a, b) => a.time - b.time)) {
    advance(event.time);
    if ("running" in event) running = event.running;
    else {
      before.set(event, state);
      state = {
        liquid: event.liquid + errors.liquid,
        bath: event.bath === null ? state.bath : event.bath + errors.bath,
      };
    }
  }
  advance(Math.max(until, start + SHORTEST));
  return {
    at: (time) => {
      const leg = legs.findLast((one) => one.start <= time) as (typeof legs)[number];
      // The very end may be rounded to a hair beyond it.
      return programmeAt(leg.pieces, Math.min(time - leg.start, leg.length));
    },
    before,
  };
}

/** Nothing switched but the ultrasound, once: on or off for so long, and then off. */
function programme(
  { heater }: Model,
  given: Given,
  start: NodeTemperatures,
  running: boolean,
  time: number,
  coolDown = FOLLOWED,
): readonly HeatPiece[] {
  const powers: HeatPowers = running
    ? { liquid: numberOf(given, "powerToLiquid"), bath: numberOf(given, "powerToBath") }
    : { liquid: 0, bath: 0 };
  return heatProgramme({
    nodes: nodesOf(given),
    start,
    sonication: powers,
    heater,
    stintTime: Math.max(time, SHORTEST),
    restTime: 0,
    stints: 1,
    coolDown,
  });
}

function nodesOf(given: Given): HeatNodes {
  return {
    liquidHeatCapacity: numberOf(given, "liquidHeatCapacity"),
    bathHeatCapacity: numberOf(given, "bathHeatCapacity"),
    exchangeConductance: numberOf(given, "exchangeConductance"),
    liquidLossConductance: numberOf(given, "liquidLossConductance"),
    bathLossConductance: numberOf(given, "bathLossConductance"),
    roomTemperature: numberOf(given, "roomTemperature"),
  };
}

function peakOf(pieces: readonly HeatPiece[]): number {
  return peakLiquid(pieces).temperature;
}

function remembered<T>(make: (given: Given) => T): (given: Given) => T {
  const known = new Map<Given, T>();
  return (given) => {
    const found = known.get(given) ?? make(given);
    known.set(given, found);
    return found;
  };
}

function timesOf(from: number, to: number, switches: readonly Switch[]): readonly number[] {
  const even = Array.from({ length: POINTS + 1 }, (_, i) => from + ((to - from) * i) / POINTS);
  const joints = switches.map(({ time }) => time).filter((time) => time > from && time < to);
  return [...new Set([...even, ...joints])].sort((a, b) => a - b);
}

function bandAt(curves: Curves, x: number, { centre, spread }: Model): Banded {
  const [[, low, high] = [x, 0, 0]] = curveBand([x], curves, centre, spread);
  return { value: curves(centre)(x), low, high };
}

/** One side of a band, or its middle. */
type Edge = (band: Banded) => number;

/** The warmest that is likely is there first. */
function reachOf(find: (edge: Edge) => number | null): Reach {
  return {
    value: find(({ value }) => value),
    low: find(({ high }) => high),
    high: find(({ low }) => low),
  };
}

function timeToReach(liquid: Curves, model: Model): Reach {
  const { centre, spread, ceiling } = model;
  const times = Array.from({ length: HORIZON / MINUTE + 1 }, (_, i) => i * MINUTE);
  const middle = liquid(centre);
  const bands = curveBand(times, liquid, centre, spread).map(([time, low, high]) => ({
    time,
    band: { value: middle(time), low, high },
  }));
  return reachOf((edge) => {
    const after = bands.findIndex(({ band }) => edge(band) >= ceiling);
    if (after <= 0) return after < 0 ? null : 0;
    const excess = (time: number): number => edge(bandAt(liquid, time, model)) - ceiling;
    return brent(excess, (after - 1) * MINUTE, after * MINUTE, 0);
  });
}

/**
 * Until the ceiling along a straight line through the last reading and the latest one {@link APART} before it, or
 * the start, where the last is warmer than the model has an answer for: then the model is the wrong thing to wait by. What warmed it before the ultrasound was
 * switched off says nothing of the time after.
 */
function straightToCeiling(
  checks: readonly ReadingCheck[],
  anchors: readonly Taken[],
  begin: Read,
  switched: Switch | undefined,
  ceiling: number,
  now: number,
): number | null {
  const latest = anchors.at(-1);
  const check = checks.find(({ entry }) => entry === latest?.entry);
  if (!latest || !check || check.outside <= 0) return null;
  const before = [begin, ...anchors].findLast(({ time }) => latest.time - time >= APART);
  if (!before) return null;
  if (switched?.running === false && switched.time >= before.time) return null;
  const rate = (latest.liquid - before.liquid) / (latest.time - before.time);
  if (!(rate > 0)) return null;
  return Math.max((ceiling - latest.liquid) / rate - (now - latest.time), 0);
}

function sooner(reach: Reach, time: number | null): Reach {
  if (time === null || time > HORIZON) return reach;
  // Nor does what the model takes for likely stand beside what two readings say.
  const { low, value } = reach;
  return { ...reach, low: Math.min(low ?? time, time), value: Math.min(value ?? time, time) };
}

/** The longest time without an excess, which grows with the time; `null` beyond what is looked at. */
function latestUnder(excess: (time: number) => number): number | null {
  if (excess(SHORTEST) >= 0) return 0;
  return excess(HORIZON) <= 0 ? null : brent(excess, SHORTEST, HORIZON, SHORTEST);
}

function checksOf(
  { readings }: Session,
  begin: Read,
  track: (given: Given) => Track,
  model: Model,
): readonly ReadingCheck[] {
  return readings.map((read): ReadingCheck => {
    const { entry, time, liquid } = read;
    if (read === begin || !track(model.centre).before.has(read))
      return { entry, time, expected: null, outside: 0 };
    const expectedOf: Curves = (given) => () => track(given).before.get(read)?.liquid ?? liquid;
    const { value, low } = bandAt(expectedOf, 0, model);
    // The next reading errs by itself as well as the one that it is expected from.
    const half = Math.hypot(value - low, COVERAGE * model.probe);
    const off = liquid - value;
    return {
      entry,
      time,
      expected: { value, low: value - half, high: value + half },
      outside: Math.sign(off) * Math.max(Math.abs(off) - half, 0),
    };
  });
}

function readingRemarks(last: ReadingCheck | undefined, straight: boolean): readonly Phrase[] {
  if (!last) return [];
  const { entry, expected, outside } = last;
  if (!isUsable(entry))
    return [
      phrase`${amount(entry.liquid, liquidTemperature)} is no temperature of this liquid in the bath, so nothing is predicted from it. See that the probe is in the liquid, and read again.`,
    ];
  if (!expected || outside === 0) return [];
  const where = phrase`The last reading is ${amount(Math.abs(entry.liquid - expected.value), RISE)} ${outside > 0 ? "above" : "below"} what was expected, ${amount(expected.low, liquidTemperature)} to ${amount(expected.high, liquidTemperature)}. `;
  return [
    [
      ...where,
      outside > 0
        ? `The bath may be warmer than thought, its heater on, or the liquid less; or the probe touches the glass. ${straight ? "Until the next reading the earliest time goes by a straight line from what was known a minute or more before it. " : ""}Stir, and read again.`
        : "The probe may not be in the liquid, the bath may be colder than thought, or the ultrasound was off for a while. Stir, and read again.",
    ],
  ];
}

/** What the readings by themselves say of the bath, where there are enough of them. */
function fitOf(
  graph: Graph,
  batch: Batch,
  rows: Rows,
  { centre, spread }: Model,
): FitCheck | undefined {
  const values = graph.run("heat-fit", {
    ...withReadings(valuesOf(batch), rows),
    // The powers go with the heat capacities, so both sides have the same.
    "heat-fit.liquidHeatCapacity": numberOf(centre, "liquidHeatCapacity"),
    "heat-fit.bathHeatCapacity": numberOf(centre, "bathHeatCapacity"),
  });
  const freedom = values?.["degreesOfFreedom"]?.value;
  if (!values || freedom === undefined) return undefined;
  const factor = studentFactor(freedom);
  const differences = FITTED.flatMap(({ of, error }): readonly FitDifference[] => {
    const value = values[of.name]?.value;
    if (value === undefined) return [];
    const half = factor * (values[error]?.value ?? 0);
    const [[, low, high] = [0, 0, 0]] = curveBand(
      [0],
      (given: Given) => () => numberOf(given, of.name),
      centre,
      spread,
    );
    const used = { value: numberOf(centre, of.name), low, high };
    // Two values disagree where they differ by more than their bands in squares: E_n over 1 (ISO 13528. memory).
    return Math.abs(value - used.value) > Math.hypot(half, used.value - low)
      ? [{ of, fitted: { value, low: value - half, high: value + half }, used }]
      : [];
  });
  return { rows, differences };
}

function fitRemarks(fit: FitCheck | undefined): readonly Phrase[] {
  return (fit?.differences ?? []).map(
    ({ of, fitted, used }) =>
      phrase`${of.label}: tonight’s readings give ${amount(fitted.value, of)}, and ${amount(used.value, of)} is in use. They differ by more than both are unsure of.`,
  );
}

/** Nothing where the model is led to temperatures that it does not answer for. */
function ifHeld<T>(follow: () => T): T | undefined {
  try {
    return follow();
  } catch (error) {
    if (error instanceof OutOfRangeError) return undefined;
    throw error;
  }
}

function refuse(texts: TemplateStringsArray): { readonly ok: false; readonly say: Phrase } {
  return { ok: false, say: phrase(texts) };
}
