import type { Banded } from "./calculation.ts";

/** A value with a model's own band: a share of it either way, or less of it one way. */
export function within(value: number, share: number, below = share): Banded {
  const [down, up] = [Math.abs(value) * below, Math.abs(value) * share];
  return { value, low: value - down, high: value + up };
}
