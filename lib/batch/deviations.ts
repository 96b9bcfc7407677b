import {
  amount,
  phrase,
  type Amount,
  type Input,
  type InputValue,
  type Phrase,
} from "../calculations/calculation.ts";
import { isEndless } from "../calculations/entry.ts";
import { inputsByKey, type BatchValues, type Graph } from "../calculations/graph.ts";
import { EVENING_STEPS } from "../calculations/evening.ts";
import { skimmedVolume } from "../calculations/quantities/bubbles.ts";
import { ceiling, liquidTemperature } from "../calculations/quantities/heat.ts";
import { COUNT, MASS, RISE, SHARE, TIME } from "../calculations/quantities/kinds.ts";
import { FORECAST_CALCULATIONS, heedsCeiling, readingChecks } from "./forecast.ts";
import {
  entriesOf,
  EVENING_KEYS,
  MASS_KEYS,
  stepNow,
  wallClock,
  weighedIn,
  type EntryOf,
  type Ingredient,
  type Log,
} from "./log.ts";
import { PLAN_CALCULATIONS, planBatch, type Addition } from "./plan.ts";
import { valuesOf, type Batch } from "./record.ts";
import { isSame } from "./same.ts";
import {
  SCHEDULE_CALCULATIONS,
  scheduleBatch,
  STAGES,
  stepKind,
  type ScheduledStep,
  type Stage,
} from "./schedule.ts";
import { stretchesOf, type Stretch } from "./timeline.ts";

/** The calculations that deviations need loaded. */
export const DEVIATION_CALCULATIONS = [
  ...PLAN_CALCULATIONS,
  ...SCHEDULE_CALCULATIONS,
  ...FORECAST_CALCULATIONS,
  "composition",
  "skimming",
  "bottling",
] as const;

/** Something that went otherwise than planned. */
export interface Deviation {
  readonly kind:
    | "changed"
    | "mass"
    | "composition"
    | "time"
    | "order"
    | "temperature"
    | "skimmed"
    | "bottles"
    | "clock";
  readonly stage: Stage;
  /** the batch key that it is about, where there is one */
  readonly key?: string;
  /** what it is derived from: a stage, a step, or "calculation.result" */
  readonly derivation: string;
  readonly say: Phrase;
}

/** A composition that is nearer to the plan than this is the plan's. */
const NEAR = 0.01;
/** How much longer or shorter than planned a step may be: by a share, and by s if that is more. */
const ON_TIME = {
  // How long work takes is a guess; a timer is not.
  hands: { share: 0.5, least: 300 },
  timer: { share: 0.1, least: 60 },
} as const;
/** kg: far below what any scale shows; differences of readings carry rounding. */
const HAIR = 1e-9;

const COMPOSITION = [
  "alcoholStrength",
  "ascorbicAcidConcentration",
  "lecithinConcentration",
  "batchVolume",
] as const;

/** The batch key of how long a kind of step lasts. */
const TIME_KEYS: Readonly<Record<string, string>> = {
  weigh: "weighTime",
  dissolve: "dissolveTime",
  cool: "evening.coolTime",
  blend: "blendTime",
  pause: "pulseRest",
  "set-up": "setUpTime",
  stint: "stintTime",
  rest: "restTime",
  "lift-out": "liftTime",
  degas: "evening.bubbleTime",
  skim: "skimTime",
  bottle: "fillTime",
};

/**
 * What went otherwise than planned in an evening, in the order of the work.
 *
 * The plan is what `batch.planned` gives, evaluated anew; what happened is the log.
 *
 * @param graph - with {@link DEVIATION_CALCULATIONS} loaded
 * @returns none where all went as planned, or where no evening has begun
 */
export function deviationsOf(graph: Graph, batch: Batch): readonly Deviation[] {
  const { planned, log = [] } = batch;
  if (!planned) return [];
  const schedule = scheduleBatch(graph, planned);
  const steps = schedule.ok ? schedule.steps : [];
  const stretches = stretchesOf(log);
  const found = [
    ...changed(graph, batch.values, planned),
    ...weighed(graph, batch, planned, stretches),
    ...timed(steps, stretches),
    ...ordered(steps, stretches),
    ...warmed(graph, batch, steps),
    ...skimmed(graph, planned, log),
    ...bottled(graph, planned, log),
    ...clocked(log, steps),
  ];
  return found.sort((a, b) => STAGES.indexOf(a.stage) - STAGES.indexOf(b.stage));
}

/**
 * Where in the evening it counts what a calculation asks for; whatever is asked elsewhere counts from the first step
 * on. The first of these that asks for a number is where it belongs.
 */
const COUNTS_AT: Readonly<Record<string, Stage>> = {
  recipe: "weigh",
  strength: "weigh",
  weighing: "weigh",
  dissolving: "dissolve",
  surroundings: "cool",
  cooling: "cool",
  blending: "blend",
  "bath-level": "bath",
  "bath-heat": "bath",
  "heat-fit": "bath",
  sonication: "bath",
  hang: "bath",
  "stand-balance": "bath",
  "bubble-rise": "degas",
  skimming: "skim",
  bottling: "bottle",
};

/** What was set otherwise once the evening had begun. What is noted at the bench, readings too, is no such change. */
function changed(graph: Graph, typed: BatchValues, planned: BatchValues): readonly Deviation[] {
  const inputs = inputsByKey(graph, Object.keys(COUNTS_AT));
  return [...new Set(Object.keys({ ...planned, ...typed }))].flatMap(
    (key): readonly Deviation[] => {
      const known = inputs.get(key);
      if (!known || known.input.kind === "readings") return [];
      if (EVENING_KEYS.includes(key) || isSame(planned[key], typed[key])) return [];
      const { input, from, name } = known;
      // What is not typed takes its default, or what it is linked to.
      const [before, after] = [planned, typed].map(
        (values) => values[key] ?? graph.evaluate(from, values).inputs[name],
      );
      if (isSame(before, after)) return [];
      return [
        {
          kind: "changed",
          stage: COUNTS_AT[from] ?? "weigh",
          key,
          derivation: from,
          say: phrase`${input.label}: planned ${valueText(before, input)}, now ${valueText(after, input)}.`,
        },
      ];
    },
  );
}

function valueText(value: InputValue | undefined, input: Input): Amount | string {
  if (typeof value === "number" && input.kind === "number")
    return isEndless(input, value) ? "without limit" : amount(value, input);
  const chosen = input.kind === "choice" && input.options.find((option) => option.value === value);
  return chosen ? `“${chosen.label}”` : "not known";
}

function weighed(
  graph: Graph,
  batch: Batch,
  planned: BatchValues,
  stretches: readonly Stretch[],
): readonly Deviation[] {
  const made = planBatch(graph, planned);
  const entries = entriesOf(batch.log ?? [], "weighed");
  if (!made.ok || entries.length === 0) return [];
  const { additions, vessels } = made.plan;
  const parts = Array.from({ length: vessels }, (_, i) => ({
    name: vessels === 1 ? "" : `, beaker ${i + 1} of ${vessels}`,
    masses: weighedIn(entries.filter(({ vessel }) => vessel === i + 1)),
  }));
  const complete = parts.every(({ masses }) =>
    additions.every(({ ingredient }) => masses.has(ingredient)),
  );
  const gone = stretches.some(({ step }) => step !== "weigh");
  return [
    ...parts.flatMap(({ name, masses }) => [
      ...partOff(additions, masses, name),
      ...additions
        .filter(({ ingredient }) => gone && !masses.has(ingredient))
        .map(({ label }): Deviation => ({
          kind: "mass",
          stage: "weigh",
          derivation: "weigh",
          say: [`${label}${name}: planned, and no weighing of it is noted.`],
        })),
    ]),
    ...(complete ? composed(graph, planned, valuesOf(batch)) : []),
  ];
}

/** What is off in one beaker: each portion by itself, or all of them together where the ratio is kept. */
function partOff(
  additions: readonly Addition[],
  masses: ReadonlyMap<Ingredient, number>,
  name: string,
): readonly Deviation[] {
  const off = additions.flatMap((addition) => {
    const mass = masses.get(addition.ingredient);
    return mass !== undefined && Math.abs(mass - addition.portion) > addition.tolerance + HAIR
      ? [{ ...addition, mass }]
      : [];
  });
  const total = (of: (addition: Addition) => number): number =>
    additions.reduce((sum, addition) => sum + of(addition), 0);
  const factor =
    total(({ ingredient }) => masses.get(ingredient) ?? 0) / total(({ portion }) => portion);
  const kept = additions.every(
    ({ ingredient, portion, tolerance }) =>
      Math.abs((masses.get(ingredient) ?? 0) - factor * portion) <= tolerance + HAIR,
  );
  if (off.length > 1 && kept)
    return [
      {
        kind: "mass",
        stage: "weigh",
        derivation: "composition.batchVolume",
        say: phrase`Everything${name} is in the planned ratio, and ${amount(Math.abs(factor - 1), SHARE)} ${more(factor > 1)} of it.`,
      },
    ];
  return off.map(({ ingredient, label, portion, mass }) => ({
    kind: "mass",
    stage: "weigh",
    key: MASS_KEYS[ingredient],
    derivation: `recipe.${MASS_KEYS[ingredient]}`,
    say: phrase`${label}${name}: ${amount(mass, MASS)} went in, ${amount(Math.abs(mass / portion - 1), SHARE)} ${more(mass > portion)} than the ${amount(portion, MASS)} planned.`,
  }));
}

function more(is: boolean): string {
  return is ? "more" : "less";
}

function composed(graph: Graph, planned: BatchValues, made: BatchValues): readonly Deviation[] {
  const [then, now] = [planned, made].map((values) => graph.run("composition", values));
  const { results } = graph.get("composition");
  return COMPOSITION.flatMap((name): readonly Deviation[] => {
    const [before, after, result] = [then?.[name]?.value, now?.[name]?.value, results[name]];
    if (before === undefined || after === undefined || !result) return [];
    if (Math.abs(after - before) <= NEAR * before) return [];
    return [
      {
        kind: "composition",
        stage: "weigh",
        key: name,
        derivation: `composition.${name}`,
        say: phrase`${result.label}: ${amount(after, result)} by what was weighed, where ${amount(before, result)} was planned.`,
      },
    ];
  });
}

/** A step that took longer or shorter than planned. */
interface OffTime {
  readonly step: ScheduledStep;
  /** s */
  readonly took: number;
}

/** The times of one stage make one sentence: an evening has dozens of short steps. */
function timed(
  steps: readonly ScheduledStep[],
  stretches: readonly Stretch[],
): readonly Deviation[] {
  const off = steps.flatMap((step) => offTime(step, stretches));
  return STAGES.flatMap((stage): readonly Deviation[] => {
    const kinds = new Map<string, OffTime[]>();
    for (const one of off.filter(({ step }) => step.stage === stage)) {
      const kind = stepKind(one.step.id);
      kinds.set(kind, [...(kinds.get(kind) ?? []), one]);
    }
    const [first, ...others] = kinds.entries();
    if (!first) return [];
    const [kind, [one]] = first;
    const single = others.length === 0;
    const key = single ? TIME_KEYS[kind] : undefined;
    const parts = [...kinds.values()].map((alike) => timesSaid(alike, steps));
    return [
      {
        kind: "time",
        stage,
        ...(key !== undefined && { key }),
        derivation: single && one ? one.step.id : stage,
        say: [...parts.flatMap((part, i) => (i > 0 ? ["; ", ...part] : part)), "."],
      },
    ];
  });
}

function offTime(step: ScheduledStep, stretches: readonly Stretch[]): readonly OffTime[] {
  const { id, stage, hands, length } = step;
  const all = stretches.filter((stretch) => stretch.step === id);
  // Bottles get cold by themselves, also once the evening has ended.
  if (stage === "chill") return [];
  // A step that goes on may still come out as planned.
  if (all.length === 0 || all.some(({ end }) => end === null)) return [];
  const took = all.reduce((sum, { start, end }) => sum + ((end ?? start) - start), 0);
  const allowed = hands ? ON_TIME.hands : ON_TIME.timer;
  const late = Math.abs(took - length) > Math.max(allowed.share * length, allowed.least);
  return late ? [{ step, took }] : [];
}

/** What steps of one kind took, the shortest to the longest. */
function timesSaid(off: readonly OffTime[], steps: readonly ScheduledStep[]): Phrase {
  const took = spans(off.map((one) => one.took));
  const planned = spans(off.map(({ step }) => step.length));
  const [{ step }] = off as readonly [OffTime, ...OffTime[]];
  if (off.length === 1) return [`${step.label}: `, ...took, ", where ", ...planned, " was planned"];
  const all = steps.filter((other) => stepKind(other.id) === stepKind(step.id)).length;
  const name = EVENING_STEPS.find(({ id }) => id === stepKind(step.id))?.label ?? step.label;
  return [
    ...phrase`${name}, ${amount(off.length, COUNT)} of ${amount(all, COUNT)}: `,
    ...took,
    ", where ",
    ...planned,
    " each was planned",
  ];
}

function spans(times: readonly number[]): Phrase {
  const [least, most] = [Math.min(...times), Math.max(...times)];
  return most - least < 1 ? [span(least)] : phrase`${span(least)} to ${span(most)}`;
}

/** A short time in seconds, any other in the reader's unit. */
function span(time: number): Amount {
  return amount(time, time < 90 ? { ...TIME, units: ["s"], digits: 2 } : TIME);
}

/** Steps that were left out, done again, done before their turn, or not in the plan at all. */
function ordered(
  steps: readonly ScheduledStep[],
  stretches: readonly Stretch[],
): readonly Deviation[] {
  const done = stretches.map(({ step }) => step);
  const places = done.map((id) => steps.findIndex((step) => step.id === id));
  const furthest = Math.max(-1, ...places);
  const found: Deviation[] = [];
  const note = (stage: Stage, say: Phrase): void =>
    void found.push({ kind: "order", stage, derivation: "evening", say });
  for (const [place, { id, stage, label }] of steps.entries()) {
    const times = done.filter((step) => step === id).length;
    if (times === 0 && place < furthest) note(stage, [`${label}: left out.`]);
    if (times > 1) note(stage, phrase`${label}: begun ${amount(times, COUNT)} times.`);
    const first = done.indexOf(id);
    const ahead = Math.max(-1, ...places.slice(0, Math.max(first, 0)));
    const before = steps[ahead];
    if (before && ahead > place) note(stage, [`${label} came after ${before.label}.`]);
  }
  for (const id of new Set(done.filter((_, i) => places[i] === -1)))
    if (steps.length > 0) note("bath", [`“${id}” was not in the plan.`]);
  return found;
}

function warmed(graph: Graph, batch: Batch, steps: readonly ScheduledStep[]): readonly Deviation[] {
  const top = Number(valuesOf(batch)["ceiling"] ?? ceiling.default);
  const heeded = heededReadings(batch.log ?? [], steps);
  const highest = heeded.reduce<EntryOf<"read"> | undefined>(
    (most, entry) => (most && most.liquid >= entry.liquid ? most : entry),
    undefined,
  );
  const checks = readingChecks(graph, batch, steps).filter(({ outside }) => outside !== 0);
  const worst = checks.reduce<(typeof checks)[number] | undefined>(
    (most, check) => (most && Math.abs(most.outside) >= Math.abs(check.outside) ? most : check),
    undefined,
  );
  const found: Deviation[] = [];
  if (highest && highest.liquid > top)
    found.push({
      kind: "temperature",
      stage: "bath",
      key: "ceiling",
      derivation: "sonication.peakLiquidTemperature",
      say: phrase`The highest reading, ${amount(highest.liquid, liquidTemperature)} at ${wallClock(highest)}, is ${amount(highest.liquid - top, RISE)} above the ceiling of ${amount(top, ceiling)}.`,
    });
  if (worst?.expected)
    found.push({
      kind: "temperature",
      stage: "bath",
      key: "liquidTemperature",
      derivation: "bath",
      say: phrase`${checks.length === 1 ? "One" : amount(checks.length, COUNT)} of the readings in the bath ${checks.length === 1 ? "is" : "are"} not as expected. The furthest is ${amount(worst.entry.liquid, liquidTemperature)} at ${wallClock(worst.entry)}, where ${amount(worst.expected.low, liquidTemperature)} to ${amount(worst.expected.high, liquidTemperature)} was expected.`,
    });
  return found;
}

/** Readings of the stages that the ceiling is meant for. */
function heededReadings(log: Log, steps: readonly ScheduledStep[]): readonly EntryOf<"read">[] {
  return entriesOf(log, "read").filter((entry) =>
    heedsCeiling(log.slice(0, log.indexOf(entry)), steps),
  );
}

function skimmed(graph: Graph, planned: BatchValues, log: Log): readonly Deviation[] {
  const lost = graph.run("skimming", planned)?.["lostMass"]?.value;
  const plans = { skimmedVolume: skimmedVolume.default, skimmedMass: lost } as const;
  return (["skimmedVolume", "skimmedMass"] as const).flatMap((of): readonly Deviation[] => {
    const noted = entriesOf(log, "amount").findLast((entry) => entry.of === of)?.value;
    const plan = plans[of];
    if (noted === undefined || plan === undefined || noted <= plan * (1 + NEAR)) return [];
    const shown = of === "skimmedMass" ? MASS : skimmedVolume;
    return [
      {
        kind: "skimmed",
        stage: "skim",
        key: skimmedVolume.name,
        derivation: "skimming.lostVolume",
        say: phrase`Skimmed: ${amount(noted, shown)} of foam, where the plan reckons with ${amount(plan, shown)}.`,
      },
    ];
  });
}

function bottled(graph: Graph, planned: BatchValues, log: Log): readonly Deviation[] {
  const plan = graph.run("bottling", planned)?.["bottles"]?.value;
  const filled = entriesOf(log, "amount").findLast(({ of }) => of === "bottles")?.value;
  if (plan === undefined || filled === undefined || filled >= plan) return [];
  return [
    {
      kind: "bottles",
      stage: "bottle",
      key: "bottleVolume",
      derivation: "bottling.bottles",
      say: phrase`Bottles filled: ${amount(filled, COUNT)}, where ${amount(plan, COUNT)} were planned.`,
    },
  ];
}

function clocked(log: Log, steps: readonly ScheduledStep[]): readonly Deviation[] {
  return entriesOf(log, "clock").map((entry) => ({
    kind: "clock",
    stage: stageAt(log, entry, steps),
    derivation: "evening",
    say: phrase`The clock jumped ${entry.by > 0 ? "forward" : "back"} by ${amount(Math.abs(entry.by), TIME)} at ${wallClock(entry)}: times of day before and after it do not compare. Lengths are counted without it.`,
  }));
}

function stageAt(log: Log, entry: EntryOf<"clock">, steps: readonly ScheduledStep[]): Stage {
  const step = stepNow(log.slice(0, log.indexOf(entry)))?.step;
  return steps.find(({ id }) => id === step)?.stage ?? "weigh";
}
