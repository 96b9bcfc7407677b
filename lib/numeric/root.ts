import { inRange } from "../errors.ts";

export const ROOT_LIMITS = { tolerance: { min: 0, max: Infinity, unit: "of x" } } as const;

/** The function has the same sign, or no value, at the two ends: nothing says that it is zero between. */
export class NoBracketError extends RangeError {
  override name = "NoBracketError"; // a literal: minifiers rename classes
  readonly low: number;
  readonly high: number;
  readonly atLow: number;
  readonly atHigh: number;
  constructor(low: number, high: number, atLow: number, atHigh: number) {
    super(`no sign change from ${low} to ${high}: the values there are ${atLow} and ${atHigh}`);
    this.low = low;
    this.high = high;
    this.atLow = atLow;
    this.atHigh = atHigh;
  }
}

/**
 * Root of a function with a known slope: Newton's steps, kept inside a bracket.
 *
 * A step that would leave the bracket, or that does not halve the step before the last one, is replaced
 * by a bisection, so it converges even where Newton alone runs away.
 *
 * @param f - gives the value and the slope at x
 * @param low - one end of the bracket, finite; a root there is returned exactly
 * @param high - the other end
 * @param tolerance - of x; 0 asks for all the digits there are
 * @param guess - where to start; outside the bracket, or left out, it is the middle
 * @returns x with f(x) = 0 to within `tolerance` of x
 * @throws NoBracketError when the ends do not bracket a root, NaN included
 * @throws OutOfRangeError for a tolerance that is negative or NaN
 * @throws RangeError when the function has no value inside the bracket
 * Source: Press et al., Numerical Recipes, 3rd ed. (2007), section 9.4. memory
 */
export function newtonBracketed(
  f: (x: number) => readonly [value: number, slope: number],
  low: number,
  high: number,
  tolerance: number,
  guess: number = (low + high) / 2,
): number {
  inRange("tolerance", tolerance, ROOT_LIMITS.tolerance);
  const atLow = f(low)[0];
  if (atLow === 0) return low;
  const atHigh = f(high)[0];
  if (atHigh === 0) return high;
  refuseUnlessBracket(low, high, atLow, atHigh);
  // Keep the end with the negative value apart, whichever way the function runs.
  let [negative, positive] = atLow < 0 ? [low, high] : [high, low];
  const inside = (guess - low) * (guess - high) < 0;
  let x = inside ? guess : (low + high) / 2;
  let stepBefore = Math.abs(high - low);
  let step = stepBefore;
  // Every step narrows the bracket or halves an earlier step, so this ends.
  for (;;) {
    const [value, slope] = f(x);
    if (value === 0) return x;
    refuseNoValue(x, value);
    if (value < 0) negative = x;
    else positive = x;
    const newton = x - value / slope;
    const helps =
      (newton - negative) * (newton - positive) < 0 &&
      Math.abs(2 * value) <= Math.abs(stepBefore * slope);
    const next = helps ? newton : negative + (positive - negative) / 2;
    stepBefore = step;
    step = Math.abs(next - x);
    x = next;
    if (step <= tolerance + Number.EPSILON * Math.abs(x)) return x;
  }
}

/**
 * Root of any continuous function by Brent's method: inverse quadratic steps where they help, bisection
 * where they do not.
 *
 * @param f - continuous between the ends; a jump that changes sign is found as if it were a root
 * @param low - one end of the bracket, finite; a root there is returned exactly
 * @param high - the other end
 * @param tolerance - of x; 0 asks for all the digits there are
 * @returns x with f(x) = 0 to within `tolerance` of x
 * @throws NoBracketError when the ends do not bracket a root, NaN included
 * @throws OutOfRangeError for a tolerance that is negative or NaN
 * @throws RangeError when the function has no value inside the bracket
 * Source: Brent, Algorithms for Minimization without Derivatives (1973), chapter 4. memory
 */
export function brent(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
): number {
  inRange("tolerance", tolerance, ROOT_LIMITS.tolerance);
  let [a, fa] = [low, f(low)];
  if (fa === 0) return low;
  let [b, fb] = [high, f(high)];
  if (fb === 0) return high;
  refuseUnlessBracket(low, high, fa, fb);
  // b is the best so far, a the one before it, c the far end of the bracket.
  let [c, fc] = [a, fa];
  let step = b - a;
  let stepBefore = step;
  for (;;) {
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const enough = tolerance / 2 + 2 * Number.EPSILON * Math.abs(b);
    const half = (c - b) / 2;
    if (Math.abs(half) <= enough || fb === 0) return b;
    if (Math.abs(stepBefore) < enough || Math.abs(fa) <= Math.abs(fb)) {
      step = half;
      stepBefore = half;
    } else {
      const [up, down] = interpolated(a, fa, b, fb, c, fc);
      if (2 * up < Math.min(3 * half * down - Math.abs(enough * down), Math.abs(stepBefore * down)))
        [stepBefore, step] = [step, up / down];
      else [stepBefore, step] = [half, half];
    }
    [a, fa] = [b, fb];
    // The least step crosses the root sooner or later and closes the bracket from the other side.
    b += Math.abs(step) > enough ? step : Math.sign(half) * (enough || Number.MIN_VALUE);
    fb = f(b);
    refuseNoValue(b, fb);
    if (fb > 0 === fc > 0) {
      [c, fc] = [a, fa];
      step = b - a;
      stepBefore = step;
    }
  }
}

/** Step from b by the secant or the inverse parabola, as numerator and denominator, numerator ≥ 0. */
function interpolated(
  a: number,
  fa: number,
  b: number,
  fb: number,
  c: number,
  fc: number,
): readonly [number, number] {
  const s = fb / fa;
  let up: number;
  let down: number;
  if (a === c) {
    up = (c - b) * s;
    down = 1 - s;
  } else {
    const q = fa / fc;
    const r = fb / fc;
    up = s * ((c - b) * q * (q - r) - (b - a) * (r - 1));
    down = (q - 1) * (r - 1) * (s - 1);
  }
  return up > 0 ? [up, -down] : [-up, down];
}

function refuseUnlessBracket(low: number, high: number, atLow: number, atHigh: number): void {
  const opposite = Math.sign(atLow) * Math.sign(atHigh) === -1;
  if (!opposite || !Number.isFinite(low) || !Number.isFinite(high))
    throw new NoBracketError(low, high, atLow, atHigh);
}

function refuseNoValue(x: number, value: number): void {
  if (Number.isNaN(value)) throw new RangeError(`the function has no value at ${x}`);
}
