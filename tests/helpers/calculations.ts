import type { BatchValues, Outcome } from "../../lib/calculations/graph.ts";
import { loadGraph } from "../../lib/calculations/registry.ts";
import { say } from "../../lib/calculations/say.ts";

export const graph = await loadGraph();

/** A calculation's results without bands, SI, by name. */
export function valuesOf(id: string, batch: BatchValues): Readonly<Record<string, number>> {
  const values = graph.run(id, batch);
  if (!values) throw new Error(`${id} refuses: ${JSON.stringify(refusalsOf(id, batch))}`);
  return Object.fromEntries(
    Object.entries(values).flatMap(([name, value]) => (value ? [[name, value.value]] : [])),
  );
}

/** Who is at fault and what the page says; empty where there is an answer. */
export function refusalsOf(
  id: string,
  batch: BatchValues,
): readonly { readonly input: string; readonly says: string }[] {
  const outcome = graph.evaluate(id, batch);
  return outcome.ok
    ? []
    : outcome.refusals.map((refusal) => ({ input: refusal.input, says: say(refusal.say) }));
}

/** Ids of the cautions that speak up. */
export function cautionsOf(id: string, batch: BatchValues): readonly string[] {
  return evaluated(id, batch).cautions.map(({ caution }) => caution);
}

export function evaluated(id: string, batch: BatchValues): Outcome & { readonly ok: true } {
  const outcome = graph.evaluate(id, batch);
  if (!outcome.ok) throw new Error(`${id} refuses: ${JSON.stringify(refusalsOf(id, batch))}`);
  return outcome;
}
