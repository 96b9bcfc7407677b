import type { Banded, Phrase } from "../calculations/calculation.ts";
import { COVERAGE, type BatchValues, type Graph, type Outcome } from "../calculations/graph.ts";
import { without } from "./only.ts";
import { PORTIONS } from "./plan.ts";

/** The calculations that a comparison of beakers needs loaded. */
export const SCALING_CALCULATIONS = [
  "strength",
  "recipe",
  "weighing",
  "bath-heat",
  "bath-level",
  "sonication",
  "hang",
  "evening",
] as const;

/** What is asked of a larger bath, by batch key: lengths in m, water in m³, power in W. */
export const BATH_KEYS = ["bathLength", "bathWidth", "bathWaterVolume", "ratedPower"] as const;

/** What was measured in one bath and says nothing of another. */
const OWN_BATH: readonly string[] = [
  "knownFrom",
  "sonication.powerToLiquid",
  "sonication.powerToBath",
  "sonication.exchangeConductance",
  "sonication.bathHeatCapacity",
];

/** As many beakers as are compared. */
export const MOST_COMPARED = 4;

/** One batch in so many like beakers, each as full as the reader's is. */
export interface ManyBeakers {
  readonly beakers: number;
  /** In the bath at once: as many as fit with the least gap. */
  readonly hung: number;
  readonly loads: number;
  /** m³ of finished liquid */
  readonly volume: number;
  /** kg */
  readonly spirit: number;
  /** m³ at the temperature that the bottle's strength is stated for */
  readonly spiritVolume: number | null;
  /** W of heat in bath and beakers for each m³ of liquid that hangs there */
  readonly heatByVolume: number | null;
  /** s, under the reader's ceiling */
  readonly longestStint: Banded | null;
  /** m to walls and neighbours */
  readonly clearance: number | null;
  /** m³ to pour into the empty tank, so that the level ends where it should with these beakers in */
  readonly water: number | null;
  /** m above the floor, before they go in */
  readonly waterDepth: number | null;
  /** Twice the standard uncertainty of weighing, as a share of the portion where that is largest. */
  readonly weighingShare: number | null;
  /** s */
  readonly hands: Banded | null;
  /** s until the bottles are in the fridge */
  readonly whole: Banded | null;
  /** What does not fit, or is not safe, each under its calculation. */
  readonly notices: readonly Misfit[];
}

export interface Misfit {
  readonly calculation: string;
  /** The caution, or the input that is at fault: the same whatever the numbers. */
  readonly about: string;
  readonly say: Phrase;
}

/**
 * One, two, three and four beakers like the reader's, compared: only inputs of calculations are moved.
 *
 * The beakers stay as full as they are now, so that the batch grows by their number. The tank is filled for so many
 * beakers to the level the reader wants below the rim. Where not all fit at once, the rest are later loads. What
 * the bath puts out is shared by what hangs in it.
 *
 * @param graph - with {@link SCALING_CALCULATIONS} loaded
 * @param bath - another bath, by {@link BATH_KEYS}; what is left out stays as the reader's own
 * @returns nothing where the recipe itself is refused
 */
export function compareBeakers(
  graph: Graph,
  values: BatchValues,
  bath: BatchValues = {},
): readonly ManyBeakers[] {
  const recipe = graph.evaluate("recipe", values);
  if (!recipe.ok) return [];
  const portion = Number(recipe.inputs["batchVolume"]) / (recipe.values["beakers"]?.value ?? 1);
  const another = Object.keys(bath).length > 0;
  const own = another ? without(values, (key) => OWN_BATH.includes(key)) : values;
  const one = { ...own, ...bath };
  return Array.from({ length: MOST_COMPARED }, (_, i) => compared(graph, one, portion, i + 1));
}

function compared(graph: Graph, own: BatchValues, portion: number, beakers: number): ManyBeakers {
  const batch = { ...own, batchVolume: portion * beakers, ...parted(beakers) };
  const hung = Math.min(beakers, Math.max(fits(graph, batch), 1));
  const one = levelOf(graph, { ...batch, beakersInBath: 1 });
  const level = levelOf(graph, { ...batch, beakersInBath: hung });
  const [fill, depth] = [valueOf(level, "waterToFill"), valueOf(level, "depthToFill")];
  const bathWater = graph.get("heat-capacity").inputs["bathWaterVolume"];
  const water = Number(own["bathWaterVolume"] ?? bathWater?.default);
  const displaced = (valueOf(one, "waterToFill") ?? 0) - (fill ?? 0);
  const moved = {
    ...batch,
    beakersInBath: hung,
    ...(depth !== null && { waterDepth: depth }),
    // The level stays, and each further beaker takes the place of water.
    ...(fill !== null && displaced < water && { bathWaterVolume: water - displaced }),
  };
  const outcomes = new Map(NOTICED.map((id) => [id, graph.evaluate(id, moved)] as const));
  const of = (id: (typeof NOTICED)[number]): Outcome => outcomes.get(id) as Outcome;
  const heat = graph.evaluate("bath-heat", moved);
  const [toLiquid, toBath] = [valueOf(heat, "powerToLiquid"), valueOf(heat, "powerToBath")];
  const evening = of("evening");
  const spirit = valueOf(of("recipe"), "spiritMass") ?? 0;
  const spiritDensity = valueOf(graph.evaluate("strength", own), "referenceDensity");
  return {
    beakers,
    hung,
    loads: Math.ceil(beakers / hung),
    volume: portion * beakers,
    spirit,
    spiritVolume: spiritDensity === null ? null : spirit / spiritDensity,
    heatByVolume:
      toLiquid === null || toBath === null ? null : (toLiquid + toBath) / (hung * portion),
    longestStint: bandedOf(of("sonication"), "longestStint"),
    clearance: valueOf(of("bath-level"), "wallClearance"),
    water: fill,
    waterDepth: depth,
    weighingShare: weighingShare(graph, moved, beakers, of("recipe")),
    hands: bandedOf(evening, "handsTime"),
    whole: bandedOf(evening, "eveningTime"),
    notices: [...outcomes].flatMap(([calculation, outcome]) =>
      calculation === "recipe" ? [] : misfitsOf(calculation, outcome),
    ),
  };
}

function misfitsOf(calculation: string, outcome: Outcome): readonly Misfit[] {
  return outcome.ok
    ? outcome.cautions.map(({ caution, say }) => ({ calculation, about: caution, say }))
    : outcome.refusals.map(({ input, say }) => ({ calculation, about: input, say }));
}

/** Whose words count for what does not fit; the recipe's own glass caution only counts beakers. */
const NOTICED = ["recipe", "bath-level", "hang", "sonication", "evening"] as const;

/** So many parts, whatever the recipe would make of the volume. */
function parted(beakers: number): BatchValues {
  return {
    "heat-capacity.beakers": beakers,
    "hang.beakers": beakers,
    "evening.beakers": beakers,
  };
}

function fits(graph: Graph, batch: BatchValues): number {
  return valueOf(levelOf(graph, { ...batch, beakersInBath: 1 }), "fits") ?? 0;
}

function levelOf(graph: Graph, values: BatchValues): Outcome {
  return graph.evaluate("bath-level", values);
}

/** Of one beaker's portions: what the scale may be off by, at worst. */
function weighingShare(
  graph: Graph,
  values: BatchValues,
  beakers: number,
  recipe: Outcome,
): number | null {
  const weighing = graph.evaluate("weighing", values);
  if (!weighing.ok) return null;
  const shares = PORTIONS.flatMap(({ mass: key, doubt }) => {
    const mass = (valueOf(recipe, key) ?? 0) / beakers;
    return mass > 0 ? [(COVERAGE * (valueOf(weighing, doubt) ?? 0)) / mass] : [];
  });
  return shares.length === 0 ? null : Math.max(...shares);
}

function bandedOf(outcome: Outcome, name: string): Banded | null {
  return outcome.ok ? (outcome.values[name] ?? null) : null;
}

function valueOf(outcome: Outcome, name: string): number | null {
  return bandedOf(outcome, name)?.value ?? null;
}
