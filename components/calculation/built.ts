import type { Outcome } from "../../lib/calculations/graph.ts";
import { loadGraph } from "../../lib/calculations/registry.ts";
import type { UnitByName } from "./slots.ts";

/** Every calculation, for the build: pages are complete before a script runs. */
export const builtGraph = await loadGraph();

export const firstOffered: UnitByName = (_, offered) => offered[0] as string;

const outcomes = new Map<string, Outcome & { readonly ok: true }>();

/**
 * The default result of a calculation.
 * @throws Error where the defaults are refused: a page without a result must not be built
 */
export function builtOutcome(id: string): Outcome & { readonly ok: true } {
  const known = outcomes.get(id);
  if (known) return known;
  const outcome = builtGraph.evaluate(id, {});
  if (!outcome.ok)
    throw new Error(`the defaults of ${id} are refused: ${JSON.stringify(outcome.refusals)}`);
  outcomes.set(id, outcome);
  return outcome;
}
