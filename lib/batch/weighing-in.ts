import type { BatchValues, Graph } from "../calculations/graph.ts";
import { BEAKER_SHARE } from "../calculations/recipe.ts";
import { inRange, type Limits } from "../errors.ts";
import { entriesOf, type EntryOf, type Ingredient, type Log } from "./log.ts";
import type { Addition, Plan } from "./plan.ts";

/** A batch that has to grow by more is another batch: heat, bottles and dates were planned for this one. */
export const MOST_GROWTH = 1.25;
/**
 * After an overshoot a beaker may be this much fuller than two thirds: that share is a rule of thumb itself,
 * and a few spilled grams are no reason to spoon. Common practice, no source.
 */
export const OVERFILL = 1.05;
/** kg: what a reading may be to be believed at all. */
export const READING_LIMITS: Limits = { min: 0, max: 50, unit: "kg" };
/** kg: far below what any scale shows; differences of readings carry rounding. */
const HAIR = 1e-9;

/** What a batch may not grow past, kg. */
export interface Bounds {
  /** the scale's display step */
  readonly readability: number;
  /** what the scale carries, vessel and all */
  readonly capacity: number;
  /** the empty vessel */
  readonly vesselMass: number;
  /** finished liquid that one vessel may hold after an overshoot: two thirds, and {@link OVERFILL} of it */
  readonly fullest: number;
  /** spirit at hand for the whole batch, where it is known */
  readonly spirit?: number;
}

/** One thing to add: `portion` is what is still missing, `reading` what the scale shows when it is in. */
export interface Ask extends Addition {
  /** from 1 */
  readonly vessel: number;
  /** Some of it is in already. */
  readonly more: boolean;
}

/** What was weighed last, held against what was asked for; kg. */
export interface Judged {
  readonly vessel: number;
  readonly ingredient: Ingredient;
  readonly label: string;
  /** what is in of it */
  readonly in: number;
  /** in less what was asked for: above zero is over, below zero short */
  readonly off: number;
  readonly verdict: "within" | "short" | "over";
  /** It is off, and the maker goes on as it is. */
  readonly accepted: boolean;
}

/** Why the rest cannot be recomputed after an overshoot. */
export interface NoGrowth {
  readonly reason: "beaker" | "scale" | "spirit" | "share";
  /** what the whole would have to grow by to keep the ratio */
  readonly factor: number;
  /** kg that it would come to; a factor for "share", and so are the next two */
  readonly needed: number;
  /** what it comes to with the rest as planned */
  readonly asItIs: number;
  /** what there may be */
  readonly limit: number;
}

/** Where the weighing stands. */
export interface WeighingIn {
  /** What is still to add, in order; the first is next, and none is left when all is in. */
  readonly asks: readonly Ask[];
  readonly last: Judged | undefined;
  /** What each vessel's portions have grown by, vessel 1 first; 1 for as planned. */
  readonly growth: readonly number[];
  /** Set after an overshoot that nothing can be recomputed for, until it is accepted, taken out or undone. */
  readonly refusal: NoGrowth | undefined;
  /** kg that the scale shows in each vessel, from its tare */
  readonly shown: readonly number[];
  /** kg of each ingredient in the whole batch, once all that is asked for is in */
  readonly masses: ReadonlyMap<Ingredient, number>;
}

interface Vessel {
  readonly mass: Map<Ingredient, number>;
  readonly accepted: Set<Ingredient>;
  shown: number;
  growth: number;
  /** the ingredient that is being weighed, and the growth when it began */
  run: { readonly ingredient: Ingredient; readonly growth: number } | undefined;
}

/** The bounds of a batch, from the scale, the vessel and the spirit that the reader described. */
export function weighingBounds(graph: Graph, values: BatchValues): Bounds {
  const { inputs } = graph.evaluate("weighing", values);
  const recipe = graph.evaluate("recipe", values);
  const of = (name: string): number => Number(inputs[name]);
  const density = recipe.ok ? (recipe.values["density"]?.value ?? 0) : 0;
  const spirit = values["spiritInStock"];
  return {
    readability: of("readability"),
    capacity: of("scaleCapacity"),
    vesselMass: of("vesselMass"),
    fullest: OVERFILL * BEAKER_SHARE * Number(recipe.inputs["beakerVolume"]) * density,
    ...(typeof spirit === "number" && { spirit }),
  };
}

/**
 * What to add next, from the plan and from what the scale showed so far.
 *
 * A portion that is short is asked for again. After one that is over, the vessel's whole share of the batch
 * grows by the factor that this portion asks for, so that the recipe stays the same: what is already in is
 * topped up first, in the order of the plan, and the rest follows. Where the batch cannot grow so far, the
 * answer says why; until the maker decides, the rest stands as planned.
 *
 * @param plan - portions of one vessel, kg
 * @param log - its entries "weighed" count, readings in kg from 0 to 50
 * @param bounds - kg
 * @returns additions above zero only, each within `tolerance` and never finer than the scale shows
 * @throws OutOfRangeError for a reading that no scale shows, NaN included
 * Source: mass balance; the order of topping up is common practice, no source.
 */
export function weighingIn(plan: Plan, log: Log, bounds: Bounds): WeighingIn {
  const vessels = Array.from({ length: plan.vessels }, (): Vessel => ({
    mass: new Map(),
    accepted: new Set(),
    shown: 0,
    growth: 1,
    run: undefined,
  }));
  let last: Judged | undefined;
  let refusal: NoGrowth | undefined;
  for (const entry of entriesOf(log, "weighed")) {
    inRange("reading", entry.reading, READING_LIMITS);
    const vessel = vessels[entry.vessel - 1];
    if (!vessel) continue;
    const addition = plan.additions.find(({ ingredient }) => ingredient === entry.ingredient);
    takeIn(vessel, entry);
    if (!addition) continue;
    last = judge(vessel, addition, entry, bounds);
    refusal = undefined;
    if (last.verdict !== "over" || last.accepted) continue;
    const factor = last.in / addition.portion;
    refusal = whyNot(factor, plan, vessels, vessel, bounds);
    if (!refusal) vessel.growth = factor;
  }
  return {
    asks: vessels.flatMap((vessel, i) => asksOf(plan, vessel, i + 1, bounds)),
    last,
    growth: vessels.map(({ growth }) => growth),
    refusal,
    shown: vessels.map(({ shown }) => shown),
    masses: new Map(
      plan.additions.map((addition) => [
        addition.ingredient,
        vessels.reduce((sum, vessel) => sum + willBe(vessel, addition, bounds), 0),
      ]),
    ),
  };
}

function takeIn(vessel: Vessel, { ingredient, reading, accepted }: EntryOf<"weighed">): void {
  // Weighing the same thing again mends the last word on it, growth included.
  if (vessel.run?.ingredient === ingredient) vessel.growth = vessel.run.growth;
  else vessel.run = { ingredient, growth: vessel.growth };
  vessel.mass.set(ingredient, massIn(vessel, ingredient) + reading - vessel.shown);
  vessel.shown = reading;
  if (accepted) vessel.accepted.add(ingredient);
}

function judge(
  vessel: Vessel,
  addition: Addition,
  entry: EntryOf<"weighed">,
  bounds: Bounds,
): Judged {
  const { ingredient, label } = addition;
  const mass = massIn(vessel, ingredient);
  const off = mass - vessel.growth * addition.portion;
  const far = Math.abs(off) > toleranceOf(addition, bounds) + HAIR;
  return {
    vessel: entry.vessel,
    ingredient,
    label,
    in: mass,
    off,
    verdict: far ? (off > 0 ? "over" : "short") : "within",
    accepted: entry.accepted === true,
  };
}

function massIn(vessel: Vessel, ingredient: Ingredient): number {
  return vessel.mass.get(ingredient) ?? 0;
}

function toleranceOf({ tolerance }: Addition, { readability }: Bounds): number {
  return Math.max(tolerance, readability);
}

/** What is missing of an ingredient, kg; nothing where it is near enough or accepted. */
function missing(vessel: Vessel, addition: Addition, bounds: Bounds, growth: number): number {
  if (vessel.accepted.has(addition.ingredient)) return 0;
  const short = growth * addition.portion - massIn(vessel, addition.ingredient);
  const begun = vessel.mass.has(addition.ingredient);
  return short > (begun ? toleranceOf(addition, bounds) + HAIR : 0) ? short : 0;
}

function willBe(
  vessel: Vessel,
  addition: Addition,
  bounds: Bounds,
  growth = vessel.growth,
): number {
  return massIn(vessel, addition.ingredient) + missing(vessel, addition, bounds, growth);
}

function asksOf(plan: Plan, vessel: Vessel, number: number, bounds: Bounds): readonly Ask[] {
  let reading = vessel.shown;
  return plan.additions.flatMap((addition): Ask[] => {
    const portion = missing(vessel, addition, bounds, vessel.growth);
    if (portion === 0) return [];
    reading += portion;
    return [
      {
        ...addition,
        portion,
        reading,
        tolerance: toleranceOf(addition, bounds),
        vessel: number,
        more: vessel.mass.has(addition.ingredient),
      },
    ];
  });
}

/** What keeps a vessel from growing by a factor, the most tangible first. */
function whyNot(
  factor: number,
  plan: Plan,
  vessels: readonly Vessel[],
  grown: Vessel,
  bounds: Bounds,
): NoGrowth | undefined {
  const whole = (growth: number): number =>
    plan.additions.reduce((sum, addition) => sum + willBe(grown, addition, bounds, growth), 0);
  const spirits = plan.additions.filter(({ ingredient }) => ingredient === "spirit");
  const spirit = (growth: number): number =>
    vessels.reduce((sum, vessel) => {
      const own = vessel === grown ? growth : vessel.growth;
      return spirits.reduce((all, each) => all + willBe(vessel, each, bounds, own), sum);
    }, 0);
  const tests = [
    { reason: "beaker", at: whole, limit: bounds.fullest },
    { reason: "scale", at: (g: number) => whole(g) + bounds.vesselMass, limit: bounds.capacity },
    { reason: "spirit", at: spirit, limit: bounds.spirit ?? Infinity },
    { reason: "share", at: (g: number) => g, limit: MOST_GROWTH },
  ] as const;
  const failed = tests.find(({ at, limit }) => !(at(factor) <= limit + HAIR));
  if (!failed) return undefined;
  const { reason, at, limit } = failed;
  return { reason, factor, needed: at(factor), asItIs: at(grown.growth), limit };
}
