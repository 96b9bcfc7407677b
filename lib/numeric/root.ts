/** A function that does not change sign between the two ends. */
export class NoBracketError extends RangeError {
  override name = "NoBracketError";
  readonly low: number;
  readonly high: number;
  constructor(low: number, high: number) {
    super(`no change of sign between ${low} and ${high}`);
    this.low = low;
    this.high = high;
  }
}

const MAX_STEPS = 200;

/**
 * Root of a function by Newton's method, halving the bracket wherever a step would leave it or is too slow.
 *
 * @param f - value and slope at x
 * @param low - one end of the bracket
 * @param high - the other end; f must have opposite signs (or be 0) at the ends
 * @param tolerance - stops when a step is no longer than this, > 0
 * @param guess - where to start, inside the bracket; its middle otherwise
 * @returns x with f(x) = 0 to within the tolerance
 * @throws NoBracketError where the signs at the ends are alike, or are not numbers
 */
export function newtonBracketed(
  f: (x: number) => readonly [value: number, slope: number],
  low: number,
  high: number,
  tolerance: number,
  guess = (low + high) / 2,
): number {
  const [atLow] = f(low);
  if (atLow === 0) return low;
  const [atHigh] = f(high);
  if (atHigh === 0) return high;
  if (!(atLow * atHigh < 0)) throw new NoBracketError(low, high);
  // Keep f negative at `below`, positive at `above`.
  let [below, above] = atLow < 0 ? [low, high] : [high, low];
  let x = guess;
  for (let step = 0; step < MAX_STEPS; step++) {
    const [value, slope] = f(x);
    if (value === 0) return x;
    if (value < 0) below = x;
    else above = x;
    let next = x - value / slope;
    const inside = (next - below) * (next - above) < 0;
    if (!inside) next = (below + above) / 2;
    if (Math.abs(next - x) <= tolerance) return next;
    x = next;
  }
  return x;
}

/**
 * Root of a function without its slope, by Brent's method: the secant or inverse quadratic step where it
 * helps, halving where not.
 *
 * @param f - continuous between the ends
 * @param a - one end of the bracket
 * @param b - the other end; f must have opposite signs (or be 0) at the ends
 * @param tolerance - half-width of the bracket to stop at, ≥ 0
 * @returns x with a change of sign within the tolerance
 * @throws NoBracketError where the signs at the ends are alike, or are not numbers
 * Source: Brent, Algorithms for Minimization without Derivatives (1973), chapter 4. memory
 */
export function brent(f: (x: number) => number, a: number, b: number, tolerance: number): number {
  let [fa, fb] = [f(a), f(b)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa * fb < 0)) throw new NoBracketError(a, b);
  let [c, fc] = [a, fa];
  let [d, e] = [b - a, b - a];
  for (let step = 0; step < MAX_STEPS; step++) {
    if (fb * fc > 0) {
      [c, fc] = [a, fa];
      d = e = b - a;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const least = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= least || fb === 0) return b;
    if (Math.abs(e) < least || Math.abs(fa) <= Math.abs(fb)) d = e = half;
    else {
      const s = fb / fa;
      let [p, q] = [2 * half * s, 1 - s];
      if (a !== c) {
        const [q1, r] = [fa / fc, fb / fc];
        p = s * (2 * half * q1 * (q1 - r) - (b - a) * (r - 1));
        q = (q1 - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(least * q), Math.abs(e * q)))
        [e, d] = [d, p / q];
      else d = e = half;
    }
    [a, fa] = [b, fb];
    b += Math.abs(d) > least ? d : Math.sign(half) * least;
    fb = f(b);
  }
  return b;
}
