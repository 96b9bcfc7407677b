import {
  amount,
  phrase,
  type AnyCalculation,
  type Choice,
  type Phrase,
  type Quantity,
} from "../calculations/calculation.ts";
import {
  inputsByKey,
  keyOf,
  type BatchValues,
  type Graph,
  type Outcome,
} from "../calculations/graph.ts";
import { survey, type Obstacle, type Survey } from "./obstacles.ts";

/** The nearest single change that takes an obstacle away. */
export interface Remedy {
  /** The lever that is moved: the key of the first value set. */
  readonly lever: string;
  /** "Rest 32 min instead of 20 min" */
  readonly say: Phrase;
  /** What to set, by batch key. */
  readonly set: BatchValues;
  /** How far the lever is moved: a logarithm of the ratio, or tens of degrees. Small is near. */
  readonly change: number;
  /** How much stands in the way then, that included which only shows once this one is gone. */
  readonly left: number;
  /** Labels of what has other values then too, which only the reader can measure. */
  readonly too?: readonly string[];
}

/** A number that the reader can move, in steps that one can measure out. */
interface Lever {
  /** The calculation whose input it is. */
  readonly of: string;
  /** SI; every value offered is a whole number of steps. */
  readonly step: number;
  /** Sizes that things come in, SI, in place of steps. */
  readonly sizes?: readonly number[];
  /** As far as it makes sense to move it, SI; inside the quantity's own limits. */
  readonly reach?: readonly [least: number, most: number];
  readonly say: (to: Phrase[number], from: Phrase[number]) => Phrase;
  /** Batch keys of what cannot stay as it was then, though nothing here tells what it comes to. */
  readonly too?: readonly string[];
}

const MINUTE = 60;
const MM = 1e-3;

/** By batch key. */
const LEVERS: Readonly<Record<string, Lever>> = {
  batchVolume: {
    of: "recipe",
    step: 10e-6,
    reach: [50e-6, 2e-3],
    say: (to, from) => phrase`Make ${to} instead of ${from}`,
  },
  beakerVolume: {
    of: "recipe",
    step: 50e-6,
    sizes: [100e-6, 150e-6, 250e-6, 400e-6, 600e-6, 800e-6, 1e-3, 2e-3, 3e-3],
    say: (to, from) => phrase`Take beakers of ${to} instead of ${from}`,
    too: ["vesselDiameter", "vesselHeight", "vesselMass"],
  },
  spiritStrength: {
    of: "recipe",
    step: 0.005,
    reach: [0.375, 0.96],
    say: (to, from) => phrase`Use a spirit of ${to} instead of ${from}`,
  },
  alcoholStrength: {
    of: "recipe",
    step: 0.005,
    say: (to, from) => phrase`Ask for ${to} in the finished liquid instead of ${from}`,
  },
  ascorbicAcidConcentration: {
    of: "recipe",
    step: 5,
    say: (to, from) => phrase`Ask for ${to} of acid instead of ${from}`,
  },
  lecithinConcentration: {
    of: "recipe",
    step: 5,
    say: (to, from) => phrase`Ask for ${to} of lecithin instead of ${from}`,
  },
  vesselMass: {
    of: "weighing",
    step: 0.01,
    reach: [0.02, 3],
    say: (to, from) => phrase`Take a vessel of ${to} instead of ${from}`,
    too: ["beakerVolume", "vesselDiameter", "vesselHeight"],
  },
  restTime: {
    of: "sonication",
    step: MINUTE,
    reach: [0, 10_800],
    say: (to, from) => phrase`Rest ${to} instead of ${from}`,
  },
  stintTime: {
    of: "sonication",
    step: MINUTE,
    say: (to, from) => phrase`Stints of ${to} instead of ${from}`,
  },
  stints: {
    of: "sonication",
    step: 1,
    say: (to, from) => phrase`Stints: ${to} instead of ${from}`,
  },
  bathTemperature: {
    of: "sonication",
    step: 1,
    reach: [5, 60],
    say: (to, from) => phrase`Start with the bath at ${to} instead of ${from}`,
  },
  liquidTemperature: {
    of: "sonication",
    step: 1,
    reach: [5, 60],
    say: (to, from) => phrase`Start with the liquid at ${to} instead of ${from}`,
  },
  heaterSetting: {
    of: "sonication",
    step: 1,
    say: (to, from) => phrase`Set the heater to ${to} instead of ${from}`,
  },
  bathWaterVolume: {
    of: "heat-capacity",
    step: 0.1e-3,
    say: (to, from) => phrase`Fill the bath with ${to} instead of ${from}`,
    too: ["waterDepth"],
  },
  blendTime: {
    of: "blending",
    step: 5,
    reach: [5, 1800],
    say: (to, from) => phrase`Blend for ${to} instead of ${from}`,
  },
  blendStart: {
    of: "blending",
    step: 1,
    reach: [4, 60],
    say: (to, from) => phrase`Blend from ${to} instead of ${from}`,
  },
  pulses: {
    of: "blending",
    step: 1,
    say: (to, from) => phrase`Blend in ${to} pulses instead of ${from}`,
  },
  coolStart: {
    of: "cooling",
    step: 1,
    say: (to, from) => phrase`Let it stand until it is at ${to} instead of ${from}`,
  },
  coolTarget: {
    of: "cooling",
    step: 1,
    say: (to, from) => phrase`Cool it to ${to} instead of ${from}`,
  },
  temperatureStep: {
    of: "thermal-stress",
    step: 1,
    say: (to, from) => phrase`Take a step of ${to} at a time instead of ${from}`,
  },
  immersion: {
    of: "bath-level",
    step: MM,
    reach: [0.01, 0.3],
    say: (to, from) => phrase`Hang the beaker ${to} deep instead of ${from}`,
  },
  waterDepth: {
    of: "bath-level",
    step: MM,
    say: (to, from) => phrase`Fill the empty tank ${to} deep instead of ${from}`,
    too: ["bathWaterVolume"],
  },
  beakersInBath: {
    of: "bath-level",
    step: 1,
    say: (to, from) => phrase`Hang ${to} at once instead of ${from}`,
  },
  vesselDiameter: {
    of: "bath-level",
    step: MM,
    reach: [0.04, 0.3],
    say: (to, from) => phrase`Take a beaker ${to} wide instead of ${from}`,
    too: ["beakerVolume", "vesselHeight", "vesselMass"],
  },
  counterweightMass: {
    of: "stand-balance",
    step: 0.1,
    reach: [0, 20],
    say: (to, from) => phrase`Lay ${to} on the stand instead of ${from}`,
  },
  armLength: {
    of: "stand-balance",
    step: 5 * MM,
    say: (to, from) => phrase`Let it hang ${to} from the rod instead of ${from}`,
  },
  airChanges: {
    of: "room-vapour",
    step: 0.5 / 3600,
    reach: [0, 30 / 3600],
    say: (to, from) => phrase`Let in fresh air ${to} instead of ${from}: open windows`,
  },
  roomVolume: {
    of: "room-vapour",
    step: 5,
    reach: [5, 300],
    say: (to, from) => phrase`Work in a room of ${to} instead of ${from}`,
  },
  chillTarget: {
    of: "evening",
    step: 1,
    say: (to, from) => phrase`Count ${to} as cold instead of ${from}`,
  },
  fridgeTemperature: {
    of: "evening",
    step: 1,
    reach: [2, 20],
    say: (to, from) => phrase`Set the fridge to ${to} instead of ${from}`,
  },
};

/** Choices that can be made otherwise, and whose input they are. */
const CHOICES: Readonly<Record<string, string>> = {
  heaterOn: "sonication",
  surroundings: "surroundings",
  glass: "thermal-stress",
  cover: "evaporation",
};

/** A finer scale is three numbers at once; a step is what its display shows, kg. */
const SCALE_STEPS = [0.1e-3, 0.01e-3, 0.001e-3] as const;
const FINER_SCALE = "readability-";

/** The bath's heat, and what makes less of it. */
const COOLER = ["restTime+", "stintTime-", "stints-", "bathTemperature-", "liquidTemperature-"];

/**
 * What can be moved against an obstacle and which way, "+", "-" or either; a name alone is a choice. By obstacle,
 * else by its calculation.
 */
const AGAINST: Readonly<Record<string, readonly string[]>> = {
  "recipe refuses alcoholStrength": [
    "alcoholStrength-",
    "spiritStrength+",
    "ascorbicAcidConcentration-",
    "lecithinConcentration-",
  ],
  "recipe refuses ascorbicAcidConcentration": [
    "ascorbicAcidConcentration-",
    "alcoholStrength-",
    "lecithinConcentration-",
  ],
  "recipe refuses lecithinConcentration": ["lecithinConcentration-", "ascorbicAcidConcentration-"],
  "recipe undissolved": ["ascorbicAcidConcentration-", "alcoholStrength-"],
  "recipe glass": ["batchVolume-", "beakerVolume+"],
  "recipe flammable": [],
  "strength flammable": [],
  "strength drinking-spirit": ["spiritStrength-"],
  "weighing coarse-scale": [FINER_SCALE, "batchVolume+"],
  "weighing scale-capacity": ["vesselMass-", "batchVolume-"],
  "flash-point flammable": [...COOLER, "alcoholStrength-"],
  "sonication ceiling": [...COOLER, "heaterOn"],
  "sonication flammable": [...COOLER, "alcoholStrength-", "heaterOn"],
  "sonication scald-and-burns": ["heaterSetting-", "heaterOn", ...COOLER],
  "sonication electricity": ["bathWaterVolume+"],
  "sonication refuses ceiling": ["liquidTemperature-"],
  "sonication refuses heaterSetting": ["heaterSetting-", "heaterOn"],
  "room-vapour": ["airChanges+", "roomVolume+"],
  blending: ["blendTime-", "blendStart-", "pulses+"],
  "blending flammable": ["blendTime-", "blendStart-", "alcoholStrength-"],
  "cooling refuses targetTemperature": ["surroundings", "coolTarget+", "coolTarget-"],
  "cooling glass": ["coolStart-", "surroundings"],
  "cooling scald-and-burns": ["coolStart-"],
  "thermal-stress": ["temperatureStep-", "temperatureStep+", "glass"],
  "hang bath": ["immersion-", "batchVolume+"],
  "hang refuses contentsMass": ["batchVolume-"],
  "stand-balance": ["counterweightMass+", "counterweightMass-", "armLength-"],
  "bath-level electricity": ["waterDepth-", "immersion-", "beakersInBath-"],
  "bath-level water-level": ["waterDepth+"],
  "bath-level bath": ["waterDepth+", "immersion-", "beakersInBath-", "vesselDiameter-"],
  "bath-level refuses count": ["beakersInBath-", "vesselDiameter-"],
  "bath-level refuses immersion": ["immersion-", "waterDepth+"],
  "bath-level refuses vesselDiameter": ["vesselDiameter-"],
  evaporation: ["cover", ...COOLER, "alcoholStrength-"],
  "evening spoilage": ["beakersInBath+", "stints-", "restTime-", "stintTime-", "batchVolume-"],
  "evening running-bath": ["beakersInBath+", "stints-", "stintTime-", "batchVolume-"],
  "evening refuses beakers": ["batchVolume-", "beakerVolume+"],
  "evening refuses chillTarget": ["chillTarget+", "fridgeTemperature-"],
};

/**
 * For one obstacle, the nearest single change by each lever that makes physical sense, at which the obstacle is
 * gone and no other appears. Each is found by walking away from the present value, closing in on the edge in steps
 * that one can measure out, and evaluating once more there.
 *
 * What lies behind a refusal could not be judged before: where nothing leaves all in order, it does not count as
 * new, and {@link Remedy.left} says that something is left.
 *
 * Written as a generator so that a page can take a breath between two evaluations.
 *
 * @param now - {@link survey} of the batch as it is
 * @returns nearest first; none where no single change helps
 */
export function* seekRemedies(
  graph: Graph,
  now: Survey,
  obstacle: Obstacle,
): Generator<undefined, readonly Remedy[]> {
  const remedies: Remedy[] = [];
  const names = AGAINST[obstacle.id] ?? AGAINST[obstacle.calculation] ?? ownLever(graph, obstacle);
  for (const name of names) {
    const moves = movesOf(graph, now, name);
    const remedy =
      (yield* nearest(graph, now, obstacle, moves, true)) ??
      (obstacle.caution === undefined
        ? yield* nearest(graph, now, obstacle, moves, false)
        : undefined);
    if (remedy) remedies.push(remedy);
  }
  return remedies.sort((a, b) => a.change - b.change);
}

/** {@link seekRemedies} in one go. */
export function findRemedies(graph: Graph, now: Survey, obstacle: Obstacle): readonly Remedy[] {
  const search = seekRemedies(graph, now, obstacle);
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

type Move = Omit<Remedy, "left">;

/** Where nothing better is known, a refusal is mended where it says. */
function ownLever(graph: Graph, { calculation, input }: Obstacle): readonly string[] {
  if (input === undefined) return [];
  const key = keyOf(graph.get(calculation), input);
  return LEVERS[key] ? [`${key}+`, `${key}-`] : [];
}

/** The values that a lever can be set to one way, nearest first. */
function movesOf(graph: Graph, now: Survey, name: string): readonly Move[] {
  if (name === FINER_SCALE) return finerScales(graph, now.values);
  const key = name.replace(/[+-]$/, "");
  if (key === name) return choices(graph, now.values, key);
  const lever = LEVERS[key] as Lever;
  const input = inputOf(graph.get(lever.of), key) as Quantity;
  const from = Number(now.values[key] ?? input.default);
  const [least, most] = lever.reach ?? [input.limits.min, input.limits.max];
  const up = name.endsWith("+");
  const inside = (x: number): boolean => (up ? x > from : x < from) && x >= least && x <= most;
  const places = (lever.sizes ?? stepsFrom(from, lever.step, up ? most : least)).filter(inside);
  // Nearest first, whichever way it goes.
  const sorted = places.toSorted((a, b) => Math.abs(a - from) - Math.abs(b - from));
  const too = lever.too && labelsOf(graph, lever.too);
  return sorted.map((to) => ({
    lever: key,
    set: { [key]: to },
    say: lever.say(shown(to, input), shown(from, input)),
    change: changeOf(from, to, input),
    ...(too && { too }),
  }));
}

function labelsOf(graph: Graph, keys: readonly string[]): readonly string[] {
  const inputs = inputsByKey(graph);
  return keys.map((key) => inputs.get(key)?.input.label ?? key);
}

/** Whole steps from a value to an end. Reckoned by counting, so that 0.3 is 0.3. */
function stepsFrom(from: number, step: number, end: number): readonly number[] {
  const sign = Math.sign(end - from);
  const stepOf = (x: number): number => Math.floor((sign * x) / step + 1e-9);
  const gone = stepOf(from);
  return Array.from({ length: stepOf(end) - gone }, (_, i) =>
    Number((sign * (gone + 1 + i) * step).toPrecision(12)),
  );
}

function choices(graph: Graph, values: BatchValues, key: string): readonly Move[] {
  const input = inputOf(graph.get(CHOICES[key] as string), key) as Choice;
  const from = values[key] ?? input.default;
  return input.options
    .filter(({ value }) => value !== from && value !== OWN_VALUES)
    .map(({ value, label }) => ({
      lever: key,
      set: { [key]: value },
      say: [`${input.label}: ${label}`],
      change: CHOICE,
    }));
}

/** The kind of a glass that only its owner knows. */
const OWN_VALUES = "own";

/** As far as half again, or five degrees: what a change of kind is taken for. */
const CHOICE = 0.5;

function finerScales(graph: Graph, values: BatchValues): readonly Move[] {
  const readability = graph.get("weighing").inputs["readability"] as Quantity;
  const from = Number(values["readability"] ?? readability.default);
  return SCALE_STEPS.filter((step) => step < from).map((step) => ({
    lever: "readability",
    // What the hints of these fields say to take where the maker says nothing.
    set: { readability: step, repeatability: step, linearity: 2 * step },
    say: phrase`Use a scale that shows ${amount(step, readability)} instead of ${amount(from, readability)}`,
    change: Math.log(from / step),
  }));
}

function inputOf(calculation: AnyCalculation, key: string) {
  return Object.values(calculation.inputs).find(({ name }) => name === key);
}

function shown(value: number, input: Quantity): Phrase[number] {
  return input.whole ? String(value) : amount(value, input);
}

/** Degrees count by tens, everything else by its ratio; from nothing, or to nothing, is a whole change. */
function changeOf(from: number, to: number, { dimension }: Quantity): number {
  if (dimension === "temperature" || dimension === "temperatureDifference")
    return Math.abs(to - from) / 10;
  return Math.min(from, to) > 0 ? Math.abs(Math.log(to / from)) : 1;
}

/** How many places along the way are looked at before closing in. */
const LOOKS = 14;

/** The first of these moves that works; between two places looked at, it is taken to work from one on. */
function* nearest(
  graph: Graph,
  now: Survey,
  obstacle: Obstacle,
  moves: readonly Move[],
  strict: boolean,
): Generator<undefined, Remedy | undefined> {
  const last = moves.length - 1;
  let bad = -1;
  for (let look = 1; bad < last; look++) {
    // Close together at first: a small change is what is sought.
    const at = Math.max(bad + 1, Math.round(last * (look / LOOKS) ** 2));
    let found = tried(graph, now, obstacle, moves[at] as Move, strict);
    yield;
    if (!found) {
      bad = at;
      continue;
    }
    let good = at;
    while (good - bad > 1) {
      const middle = Math.floor((good + bad) / 2);
      const better = tried(graph, now, obstacle, moves[middle] as Move, strict);
      yield;
      if (better) [good, found] = [middle, better];
      else bad = middle;
    }
    return found;
  }
  return undefined;
}

/** The move as a remedy, where the obstacle is gone and nothing new has come. */
function tried(
  graph: Graph,
  now: Survey,
  obstacle: Obstacle,
  move: Move,
  strict: boolean,
): Remedy | undefined {
  const values = { ...now.values, ...move.set };
  // What the lever does not reach stays as it was.
  const touched = (id: string): boolean =>
    Object.keys(move.set).some((key) => graph.basis(id, values).has(key));
  const owner = obstacle.calculation;
  if (!touched(owner)) return undefined;
  const own = graph.evaluate(owner, values);
  if (stillThere(own, obstacle)) return undefined;
  const then = survey(graph, values, (id) =>
    id === owner ? own : touched(id) ? undefined : now.outcomeOf(id),
  );
  const before = new Set(now.obstacles.map(({ id }) => id));
  const fresh = then.obstacles.filter(
    ({ id, calculation }) =>
      id === obstacle.id || (!before.has(id) && (strict || now.outcomeOf(calculation).ok)),
  );
  return fresh.length > 0
    ? undefined
    : { ...move, left: then.obstacles.filter(({ care }) => !care).length };
}

/** Whether its own calculation says it still: a first look that spares the others. */
function stillThere(own: Outcome, { caution, input, calculation }: Obstacle): boolean {
  // Readings are weighed beaker by beaker, which only the plan knows.
  if (calculation === "weighing") return false;
  return own.ok
    ? own.cautions.some((notice) => notice.caution === caution)
    : own.refusals.some((refusal) => refusal.input === input);
}
