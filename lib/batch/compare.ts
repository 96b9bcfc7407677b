import { inputsByKey, type Graph } from "../calculations/graph.ts";
import type { InputValue } from "../calculations/calculation.ts";
import { factsOf, FACT_GROUPS, type Fact } from "./facts.ts";
import type { Batch } from "./record.ts";
import { isSame } from "./same.ts";

/** One thing that either of two batches says; `undefined` where one of them does not. */
export interface ComparedRow extends Pick<Fact, "group" | "id" | "label" | "of" | "from"> {
  readonly one: InputValue | undefined;
  readonly other: InputValue | undefined;
  /** Which of the two did not enter it, and has the demonstration's. */
  readonly assumed?: "one" | "other";
  /** They are further apart than the numbers may be off, or only one of them has it. */
  readonly differs: boolean;
}

/** Rounding of a sum, as a share of it. */
const HAIR = 1e-9;

/**
 * Two batches side by side: every fact of either, in the order of {@link FACT_GROUPS}; nothing is left out.
 *
 * Two numbers differ where they are further apart than both doubts together, added in squares.
 *
 * @param graph - with `FACT_CALCULATIONS` loaded
 */
export function compareBatches(graph: Graph, one: Batch, other: Batch): readonly ComparedRow[] {
  const byId = (batch: Batch): ReadonlyMap<string, Fact> =>
    new Map(factsOf(graph, batch).map((fact) => [fact.id, fact]));
  const [here, there] = [byId(one), byId(other)];
  const inputs = inputsByKey(graph);
  const ids = new Set([...here.keys(), ...there.keys()]);
  const rows = [...ids].map((id): ComparedRow => {
    const [a, b] = [here.get(id), there.get(id)];
    const { group, label, of, from } = (a ?? b) as Fact;
    // What follows from another calculation was worked out; anything else not entered was the default.
    const entered = a === undefined || b === undefined ? (a ?? b) : undefined;
    const preset = group === "other" && entered ? inputs.get(id)?.input.default : undefined;
    const assumed = entered && preset !== undefined && !id.includes(".");
    return {
      group,
      id,
      label,
      ...(of && { of }),
      ...(from !== undefined && { from }),
      one: a?.value ?? (assumed ? preset : undefined),
      other: b?.value ?? (assumed ? preset : undefined),
      ...(assumed && { assumed: a ? ("other" as const) : ("one" as const) }),
      differs: a && b ? areApart(a, b) : !(assumed && isSame(entered.value, preset)),
    };
  });
  return FACT_GROUPS.flatMap((group) => rows.filter((row) => row.group === group));
}

function areApart(a: Fact, b: Fact): boolean {
  if (typeof a.value !== "number" || typeof b.value !== "number") return !isSame(a.value, b.value);
  const rounding = HAIR * Math.max(Math.abs(a.value), Math.abs(b.value));
  return Math.abs(a.value - b.value) > Math.hypot(a.doubt, b.doubt) + rounding;
}
