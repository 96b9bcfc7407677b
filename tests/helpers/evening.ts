import type { Entry, Ingredient, Log, Noted } from "../../lib/batch/log.ts";
import { stamp } from "../../lib/batch/log.ts";
import { EMPTY_BATCH, type Batch } from "../../lib/batch/record.ts";
import type { BatchValues } from "../../lib/calculations/graph.ts";

/** ms since 1970: when invented evenings begin. */
export const EVENING = Date.UTC(2026, 2, 14, 19, 0, 0);

/** An evening written down entry by entry, each so many seconds after its beginning. */
export class Evening {
  readonly log: Log;
  /** s by which the clock on the wall is off by now */
  readonly #off: number;

  constructor(log: Log = [], off = 0) {
    this.log = log;
    this.#off = off;
  }

  #with(time: number, entry: object, off = this.#off): Evening {
    const at = stamp(EVENING + (time + off) * 1000, 60);
    return new Evening([...this.log, { ...entry, at } as Entry], off);
  }

  step(time: number, step: string): Evening {
    return this.#with(time, { kind: "step", step });
  }
  end(time: number): Evening {
    return this.#with(time, { kind: "end" });
  }
  read(time: number, liquid: number, bath?: number): Evening {
    return this.#with(time, { kind: "read", liquid, ...(bath !== undefined && { bath }) });
  }
  weighed(time: number, ingredient: Ingredient, reading: number, vessel = 1): Evening {
    return this.#with(time, { kind: "weighed", vessel, ingredient, reading });
  }
  amount(time: number, of: Noted, value: number): Evening {
    return this.#with(time, { kind: "amount", of, value });
  }
  /** The clock is set by so many seconds, and that is seen. */
  jump(time: number, by: number): Evening {
    return this.#with(time, { kind: "clock", by }, this.#off + by);
  }
  /** The clock is set by so many seconds, and nobody sees it. */
  unseen(by: number): Evening {
    return new Evening(this.log, this.#off + by);
  }

  /** ms since 1970 by the clock on the wall */
  now(time: number): number {
    return EVENING + (time + this.#off) * 1000;
  }
  batch(values: BatchValues = {}): Batch {
    return { ...EMPTY_BATCH, values, planned: values, log: this.log };
  }
}

export function evening(): Evening {
  return new Evening();
}
