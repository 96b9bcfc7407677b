import { inRange } from "../errors.ts";
import { brent } from "./root.ts";

export const RUNGE_KUTTA_LIMITS = {
  tolerance: { min: 1e-13, max: 1e-2, unit: "of each value" },
} as const;

/** Rows of the tableau of Dormand & Prince; the last row is also the result of fifth order. */
const STAGES = [
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
] as const;
/** Result of fifth order less that of fourth order. */
const DIFFERENCE = [
  71 / 57600,
  0,
  -71 / 16695,
  71 / 1920,
  -17253 / 339200,
  22 / 525,
  -1 / 40,
] as const;

const MOST_STEPS = 10_000;

/**
 * Follows y' = f(y) until something happens, with steps as long as the wanted accuracy allows.
 *
 * A step that carries past the event is taken again, shortened to where a cubic through both its ends meets
 * the event.
 *
 * @param slope - f, smooth; the independent variable, if it is wanted, is one more value with slope 1
 * @param start - the values at the beginning, each of the order of 1
 * @param event - negative until it happens, continuous
 * @param tolerance - allowed error of one step, of each value or of 1 if that is more, and of the event;
 * 1e-13 to 1e-2
 * @returns the values when the event happens; those at the start if it has happened already
 * @throws OutOfRangeError for a tolerance outside that range, NaN included
 * @throws RangeError when a value is no longer finite or the event does not come within 10 000 steps
 * Source: Dormand & Prince, J. Comput. Appl. Math. 6 (1980) 19–26. memory
 *
 * @example
 * integrateUntil(([y = 0]) => [-y, 1], [1, 0], ([y = 0]) => 0.5 - y, 1e-9); // [0.5, ln 2]
 */
export function integrateUntil(
  slope: (values: readonly number[]) => readonly number[],
  start: readonly number[],
  event: (values: readonly number[]) => number,
  tolerance: number,
): readonly number[] {
  inRange("tolerance", tolerance, RUNGE_KUTTA_LIMITS.tolerance);
  if (event(start) >= 0) return start;
  let values = start;
  let first = slope(start);
  let length = 1 / Math.max(1, ...first.map(Math.abs));
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    const { end, error, last } = step(slope, values, first, length);
    const share = Math.max(
      ...error.map((e, i) => Math.abs(e) / (tolerance * Math.max(1, Math.abs(end[i] as number)))),
    );
    if (!Number.isFinite(share)) throw new RangeError("the values are no longer finite");
    if (share <= 1) {
      const passed = event(end);
      if (Math.abs(passed) <= tolerance) return end;
      if (passed > 0) {
        const along = cubic(values, first, end, last, length);
        length *= brent((part) => event(along(part)), 0, 1, 0);
        continue;
      }
      values = end;
      first = last;
    }
    // The error of a step goes with its fifth power; 0.9 leaves room, so that few steps are taken twice.
    length *= Math.min(5, Math.max(0.2, 0.9 * share ** -0.2));
  }
  throw new RangeError(`the event does not come within ${MOST_STEPS} steps`);
}

/** Through both ends of a step with the slopes there; a function of the part of the step, 0 to 1. */
function cubic(
  start: readonly number[],
  first: readonly number[],
  end: readonly number[],
  last: readonly number[],
  length: number,
): (part: number) => readonly number[] {
  return (part) =>
    start.map((from, i) => {
      const rise = (end[i] as number) - from;
      const [here, there] = [length * (first[i] as number), length * (last[i] as number)];
      const bend = (1 - part) * (here - rise) - part * (there - rise);
      return from + part * (rise + (1 - part) * bend);
    });
}

interface Step {
  readonly end: readonly number[];
  readonly error: readonly number[];
  /** the slope at the end, with which the next step begins */
  readonly last: readonly number[];
}

function step(
  slope: (values: readonly number[]) => readonly number[],
  values: readonly number[],
  first: readonly number[],
  length: number,
): Step {
  const slopes = [first];
  const sum = (weights: readonly number[], i: number): number => {
    let total = 0;
    for (let k = 0; k < weights.length; k++)
      total += (weights[k] as number) * (slopes[k]?.[i] as number);
    return total;
  };
  let end = values;
  let last = first;
  for (const weights of STAGES) {
    end = values.map((value, i) => value + length * sum(weights, i));
    last = slope(end);
    slopes.push(last);
  }
  return { end, error: values.map((_, i) => length * sum(DIFFERENCE, i)), last };
}
