import { inRange } from "../errors.ts";
import { normalDraws, quantiles } from "../numeric/sampling.ts";
import type { Banded } from "./calculation.ts";
import type { BatchValues, Graph } from "./graph.ts";

export interface Drawn {
  /** Median, 2.5 % and 97.5 % points of each result; `null` where no draw gave a value. */
  readonly bands: Readonly<Record<string, Banded | null>>;
  /** Draws that the calculation refused. */
  readonly refused: number;
}

export const DRAW_LIMITS = { draws: { min: 100, max: 1_000_000, unit: "1" } } as const;

/**
 * The bands of a calculation by random draws: no line is assumed straight.
 *
 * Each uncertain input of the basis is drawn from a normal distribution of its stated standard uncertainty,
 * held inside the input's limits (JCGM 101:2008, propagation of distributions; memory). What the model
 * itself brings is not drawn.
 *
 * @param draws - 100 to 1 000 000
 * @param seed - whole number; the same seed gives the same bands in every browser
 * @param names - results to band; all of them otherwise
 * @throws OutOfRangeError for another number of draws
 */
export function drawBands(
  graph: Graph,
  id: string,
  reader: BatchValues,
  draws: number,
  seed: number,
  names: readonly string[] = Object.keys(graph.get(id).results),
): Drawn {
  inRange("draws", draws, DRAW_LIMITS.draws);
  const batch = graph.decide(id, reader);
  const moving = uncertainInputs(graph, id, batch);
  const samples = names.map(() => new Float64Array(draws));
  const counts = new Int32Array(names.length);
  const next = normalDraws(seed);
  const values = new Float64Array(moving.length);
  const run = graph.runner(
    id,
    batch,
    moving.map(({ key }) => key),
    names,
  );
  let refused = 0;
  for (let draw = 0; draw < draws; draw++) {
    for (let i = 0; i < moving.length; i++) {
      const { centre, u, min, max } = moving[i] as Moving;
      values[i] = Math.min(Math.max(centre + u * next(), min), max);
    }
    const computed = run(values);
    if (!computed) {
      refused++;
      continue;
    }
    for (let i = 0; i < names.length; i++) {
      const value = computed[i];
      if (value === null || value === undefined) continue;
      const at = counts[i] as number;
      (samples[i] as Float64Array)[at] = typeof value === "number" ? value : value.value;
      counts[i] = at + 1;
    }
  }
  const bands = names.map((name, i) => {
    const sample = (samples[i] as Float64Array).subarray(0, counts[i]);
    return [name, sample.length === 0 ? null : band(sample)] as const;
  });
  return { bands: Object.fromEntries(bands), refused };
}

function band(sample: Float64Array): Banded {
  const [low, value, high] = quantiles(sample, [0.025, 0.5, 0.975]) as [number, number, number];
  return { value, low, high };
}

interface Moving {
  readonly key: string;
  readonly centre: number;
  readonly u: number;
  readonly min: number;
  readonly max: number;
}

function uncertainInputs(graph: Graph, id: string, batch: BatchValues): readonly Moving[] {
  const moving: Moving[] = [];
  for (const [key, input] of graph.basis(id, batch)) {
    const u = graph.standardUncertainty(key, input, batch);
    const centre = batch[key] ?? input.default;
    if (u > 0 && input.kind === "number" && typeof centre === "number")
      moving.push({ key, centre, u, min: input.limits.min, max: input.limits.max });
  }
  return moving;
}
