import type { AnyCalculation, Drawing, Values } from "../../lib/calculations/calculation.ts";
import { keyOf, type BatchValues, type Graph, type Outcome } from "../../lib/calculations/graph.ts";

/**
 * The numbers of one figure for the reader's batch.
 *
 * @param figure - id among the calculation's figures
 * @throws TypeError for a figure that the calculation does not have, listing those it has
 */
export function figureData(
  graph: Graph,
  calculation: AnyCalculation,
  figure: string,
  outcome: Outcome & { readonly ok: true },
  batch: BatchValues,
): Drawing {
  const found = calculation.figures?.find(({ id }) => id === figure);
  if (!found) {
    const known = calculation.figures?.map(({ id }) => id).join(", ") ?? "none";
    throw new TypeError(`${calculation.id} has no figure "${figure}"; it has ${known}`);
  }
  const sample = graph.sampler(calculation.id, batch);
  const run = (moved: object): Values | null => {
    const changes = Object.entries(moved).map(([name, value]) => [keyOf(calculation, name), value]);
    return sample(Object.fromEntries(changes));
  };
  return found.data(outcome.inputs as never, run, () => graph.spread(calculation.id, batch));
}
