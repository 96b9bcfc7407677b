import type { Banded, CautionNotice, Refusal } from "../calculations/calculation.ts";
import type { BatchValues, Graph, Outcome } from "../calculations/graph.ts";
import { COVERAGE } from "../calculations/graph.ts";

/** The calculations a plan needs loaded. */
export const PLAN_CALCULATIONS = ["strength", "recipe", "weighing"] as const;

/** A portion may be this far off before the recipe is another one. */
const ALLOWED_SHARE = 0.01;

/** One thing weighed in, in order. Masses in kg, for one vessel. */
export interface Addition {
  readonly ingredient: "water" | "spirit" | "ascorbic acid" | "lecithin";
  readonly label: string;
  readonly portion: Banded;
  /** What the scale shows when it is in, from one tare. */
  readonly reading: number;
  /** How far the reading may be off, either way: 1 % of the portion, or what the scale can do if that is more. */
  readonly tolerance: number;
}

export interface Plan {
  /** Equal parts, each in a beaker of its own. */
  readonly vessels: number;
  readonly additions: readonly Addition[];
  readonly recipe: Outcome & { readonly ok: true };
  /** Weighing for one vessel. */
  readonly weighing: Outcome & { readonly ok: true };
  readonly cautions: readonly CautionNotice[];
}

export type Planned =
  | { readonly ok: true; readonly plan: Plan }
  | {
      readonly ok: false;
      readonly refusals: readonly (Refusal & { readonly calculation: string })[];
    };

const ORDER = [
  { ingredient: "water", label: "Water", mass: "waterMass", reading: "afterWater" },
  { ingredient: "spirit", label: "Spirit", mass: "spiritMass", reading: "afterSpirit" },
  {
    ingredient: "ascorbic acid",
    label: "Ascorbic acid",
    mass: "ascorbicAcidMass",
    reading: "afterAscorbicAcid",
  },
  { ingredient: "lecithin", label: "Lecithin", mass: "lecithinMass", reading: "afterLecithin" },
] as const;

/**
 * The order of additions with the scale's target readings, from the reader's batch.
 *
 * A batch too large for one beaker is made in equal parts, and the readings are for one part.
 *
 * @param graph - with {@link PLAN_CALCULATIONS} loaded
 * @returns the plan, or every refusal in the way
 */
export function planBatch(graph: Graph, batch: BatchValues): Planned {
  const strength = graph.evaluate("strength", batch);
  const recipe = graph.evaluate("recipe", batch);
  if (!recipe.ok)
    return { ok: false, refusals: recipe.refusals.map((r) => ({ ...r, calculation: "recipe" })) };
  const vessels = Math.max(recipe.values["beakers"]?.value ?? 1, 1);
  const weighing = graph.evaluate("weighing", part(batch, recipe, vessels));
  if (!weighing.ok)
    return {
      ok: false,
      refusals: weighing.refusals.map((r) => ({ ...r, calculation: "weighing" })),
    };
  const additions = ORDER.flatMap(({ ingredient, label, mass, reading }): Addition[] => {
    const portion = recipe.values[mass];
    const shown = weighing.values[reading];
    const u = weighing.values["uncertaintyWater"];
    if (!portion || !shown || !u || portion.value === 0) return [];
    return [
      {
        ingredient,
        label,
        portion: {
          value: portion.value / vessels,
          low: portion.low / vessels,
          high: portion.high / vessels,
        },
        reading: shown.value,
        tolerance: Math.max((ALLOWED_SHARE * portion.value) / vessels, COVERAGE * u.value),
      },
    ];
  });
  const notices = [strength, recipe, weighing].flatMap((o) => (o.ok ? o.cautions : []));
  // One notice a caution: the later calculation knows more.
  const cautions = [...new Map(notices.map((notice) => [notice.caution, notice])).values()];
  return { ok: true, plan: { vessels, additions, recipe, weighing, cautions } };
}

function part(batch: BatchValues, recipe: Outcome & { ok: true }, vessels: number): BatchValues {
  const masses = Object.fromEntries(
    ORDER.map(({ mass }) => [`weighing.${mass}`, (recipe.values[mass]?.value ?? 0) / vessels]),
  );
  return { ...batch, ...masses };
}
