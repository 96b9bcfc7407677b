import type { CautionNotice, Refusal } from "../calculations/calculation.ts";
import type { BatchValues, Graph, Outcome } from "../calculations/graph.ts";
import { COVERAGE } from "../calculations/graph.ts";
import { MASS_KEYS, type Ingredient } from "./log.ts";

/** The calculations a plan needs loaded. */
export const PLAN_CALCULATIONS = ["strength", "recipe", "weighing"] as const;

/** A portion may be this far off before the recipe is another one. */
const ALLOWED_SHARE = 0.01;

/** One thing weighed in, in order. Masses in kg, for one vessel. */
export interface Addition {
  readonly ingredient: Ingredient;
  readonly label: string;
  readonly portion: number;
  /** How far the portion may be off, either way: 1 % of it, or what the scale can do if that is more. */
  readonly tolerance: number;
  /** What the scale shows when it is in, from one tare, if all before it were exact. */
  readonly reading: number;
}

/** Cautions of a plan that want care whatever is done, and stand in nobody's way: no batch is made without spirit. */
export const PLAN_CARE: ReadonlySet<string> = new Set(["flammable"]);

export interface Plan {
  /** Equal parts, each in a beaker of its own. */
  readonly vessels: number;
  readonly additions: readonly Addition[];
  readonly cautions: readonly CautionNotice[];
}

export type Planned =
  | { readonly ok: true; readonly plan: Plan }
  | {
      readonly ok: false;
      readonly refusals: readonly (Refusal & { readonly calculation: string })[];
      /** What warns all the same, such as the strength of the spirit on the bench. */
      readonly cautions: readonly CautionNotice[];
    };

/** Each portion by what calculations call its mass, the scale's reading after it, and how far that may be off. */
export const PORTIONS = [
  {
    ingredient: "water",
    label: "Water",
    mass: MASS_KEYS.water,
    reading: "afterWater",
    doubt: "uncertaintyWater",
  },
  {
    ingredient: "spirit",
    label: "Spirit",
    mass: MASS_KEYS.spirit,
    reading: "afterSpirit",
    doubt: "uncertaintySpirit",
  },
  {
    ingredient: "ascorbic acid",
    label: "Ascorbic acid",
    mass: MASS_KEYS["ascorbic acid"],
    reading: "afterAscorbicAcid",
    doubt: "uncertaintyAscorbicAcid",
  },
  {
    ingredient: "lecithin",
    label: "Lecithin",
    mass: MASS_KEYS.lecithin,
    reading: "afterLecithin",
    doubt: "uncertaintyLecithin",
  },
] as const;

/** What a batch of one's own is made of; a value not typed is still the demonstration's. */
const OWN = [
  "batchVolume",
  "spiritStrength",
  "alcoholStrength",
  "ascorbicAcidConcentration",
  "lecithinConcentration",
  "beakerVolume",
] as const;

/** Labels of the recipe's inputs that the reader has not set: they are invented, and must not pass for theirs. */
export function stillInvented(graph: Graph, batch: BatchValues): readonly string[] {
  const { inputs } = graph.get("recipe");
  return OWN.filter((name) => batch[name] === undefined).map((name) => inputs[name]?.label ?? name);
}

/**
 * The order of additions with the scale's target readings, from the reader's batch.
 *
 * A batch too large for one beaker is made in equal parts, and the readings are for one part. Masses that
 * the reader typed over in the weighing count as typed.
 *
 * @param graph - with {@link PLAN_CALCULATIONS} loaded
 * @returns the plan, or every refusal in the way
 */
export function planBatch(graph: Graph, batch: BatchValues): Planned {
  const strength = graph.evaluate("strength", batch);
  const recipe = graph.evaluate("recipe", batch);
  const whole = graph.evaluate("weighing", batch);
  const cautions = noticesOf([strength, recipe]);
  if (!recipe.ok) return refused(recipe.refusals, "recipe", cautions);
  if (!whole.ok) return refused(whole.refusals, "weighing", cautions);
  const vessels = Math.max(recipe.values["beakers"]?.value ?? 1, 1);
  const part = (mass: string): number => Number(whole.inputs[mass] ?? 0) / vessels;
  const weighing = graph.evaluate("weighing", {
    ...batch,
    ...Object.fromEntries(PORTIONS.map(({ mass }) => [`weighing.${mass}`, part(mass)])),
  });
  if (!weighing.ok) return refused(weighing.refusals, "weighing", cautions);
  const u = weighing.values["uncertaintyWater"]?.value ?? 0;
  const additions = PORTIONS.flatMap(({ ingredient, label, mass, reading }): Addition[] => {
    const portion = part(mass);
    const shown = weighing.values[reading];
    if (!shown || portion === 0) return [];
    const tolerance = Math.max(ALLOWED_SHARE * portion, COVERAGE * u);
    return [{ ingredient, label, portion, tolerance, reading: shown.value }];
  });
  return {
    ok: true,
    plan: { vessels, additions, cautions: noticesOf([strength, recipe, weighing]) },
  };
}

function refused(
  refusals: readonly Refusal[],
  calculation: string,
  cautions: readonly CautionNotice[],
): Planned {
  return {
    ok: false,
    refusals: refusals.map((refusal) => ({ ...refusal, calculation })),
    cautions,
  };
}

/** One notice a caution: a later calculation knows more. */
function noticesOf(outcomes: readonly Outcome[]): readonly CautionNotice[] {
  const notices = outcomes.flatMap((outcome) => (outcome.ok ? outcome.cautions : []));
  return [...new Map(notices.map((notice) => [notice.caution, notice])).values()];
}
