import type { Banded } from "../../lib/calculations/calculation.ts";
import { drawBands } from "../../lib/calculations/draws.ts";
import type { BatchValues } from "../../lib/calculations/graph.ts";
import { loadGraph } from "../../lib/calculations/registry.ts";

export interface DrawRequest {
  readonly id: string;
  readonly batch: BatchValues;
  readonly draws: number;
  readonly seed: number;
  /** the result that the reader looks at */
  readonly result: string;
}

export interface DrawReply {
  readonly bands: Readonly<Record<string, Banded | null>>;
  readonly refused: number;
}

// In a worker of its own, so that the page goes on answering.
addEventListener("message", async ({ data }: MessageEvent<DrawRequest>) => {
  const graph = await loadGraph([data.id]);
  const reply: DrawReply = drawBands(graph, data.id, data.batch, data.draws, data.seed, [
    data.result,
  ]);
  postMessage(reply);
});
