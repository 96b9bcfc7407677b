import type { Input } from "../calculations/calculation.ts";
import { keyOf, linkOf, type BatchValues, type Graph } from "../calculations/graph.ts";
import { GEAR_KEYS } from "./gear.ts";
import { again, type Batch } from "./record.ts";

/** What another evening may be done with otherwise: its size, and the spirit on the shelf. */
export type Otherwise = Readonly<Partial<Record<"batchVolume" | "spiritStrength", number>>>;

/** A number that was typed over one that is worked out, by its key and label. */
export interface TypedOver {
  readonly key: string;
  readonly label: string;
}

/**
 * Numbers of a batch that were typed over others that follow from its size or its spirit: another size would
 * make them wrong without a word. What belongs to gear stays.
 *
 * @param graph - with every calculation loaded whose links may be typed over
 */
export function typedOver(graph: Graph, values: BatchValues): readonly TypedOver[] {
  const ofGear: readonly string[] = Object.values(GEAR_KEYS).flat();
  return [...graph.calculations.values()].flatMap((calculation) =>
    Object.entries(calculation.inputs).flatMap(([name, { label }]): TypedOver[] => {
      const key = keyOf(calculation, name);
      const link = linkOf(calculation, name);
      if (!link || !Object.hasOwn(values, key) || ofGear.includes(key)) return [];
      const basis: ReadonlyMap<string, Input> = graph.basis(link.calculation, {});
      return basis.has("batchVolume") || basis.has("spiritStrength") ? [{ key, label }] : [];
    }),
  );
}

/**
 * The same batch for another evening, at another size or with another spirit. Numbers that were typed over ones
 * that follow from these are worked out again.
 *
 * @param changes - SI
 * @param newId - of the new batch
 */
export function againOtherwise(
  graph: Graph,
  batch: Batch,
  changes: Otherwise,
  newId: string,
): Batch {
  const next = again(batch, newId);
  const over = new Set(typedOver(graph, next.values).map(({ key }) => key));
  const kept = Object.entries(next.values).filter(([key]) => !over.has(key));
  return { ...next, values: { ...Object.fromEntries(kept), ...changes } };
}
