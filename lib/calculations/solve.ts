import { brent } from "../numeric/root.ts";
import { amount, phrase, type Phrase, type Quantity, type Result } from "./calculation.ts";
import { keyOf, type BatchValues, type Graph } from "./graph.ts";

export type Solved =
  { readonly ok: true; readonly value: number } | { readonly ok: false; readonly say: Phrase };

const SAMPLES = 240;
/** More answers than this are no answer. */
const MOST = 5;

/**
 * Which value of one input gives the wanted result, all else as it is.
 *
 * The input's whole range is sampled, each change of sign is bracketed and closed by Brent's method.
 *
 * @param id - calculation
 * @param wanted - result name and SI value
 * @param moving - input that may move
 * @returns the one answer in range; or why there is none, or that there are several, and which
 * @throws TypeError for a name the calculation does not have, or an input that is a choice
 */
export function solveFor(
  graph: Graph,
  id: string,
  batch: BatchValues,
  wanted: { readonly result: string; readonly value: number },
  moving: string,
): Solved {
  const calculation = graph.get(id);
  const input = calculation.inputs[moving];
  const result = calculation.results[wanted.result];
  if (input?.kind !== "number") throw new TypeError(`${id} has no number input "${moving}"`);
  if (!result) throw new TypeError(`${id} has no result "${wanted.result}"`);
  if (!Number.isFinite(wanted.value)) return { ok: false, say: ["Type the value you want."] };
  const key = keyOf(calculation, moving);
  const run = graph.sampler(id, batch);
  const miss = (x: number): number | undefined => {
    const value = run({ [key]: x })?.[wanted.result];
    return value ? value.value - wanted.value : undefined;
  };
  const { points, roots } = scan(miss, samples(input));
  if (points.length === 0)
    return { ok: false, say: [`No value of ${input.label.toLowerCase()} gives an answer here.`] };
  if (roots.length === 1) return { ok: true, value: roots[0] as number };
  if (roots.length > MOST)
    return {
      ok: false,
      say: [`Any value of ${input.label.toLowerCase()} gives that, or nearly any. Type one.`],
    };
  if (roots.length === 0)
    return { ok: false, say: unreachable(points, wanted.value, input, result) };
  return {
    ok: false,
    say: [
      `Several values of ${input.label.toLowerCase()} give that: `,
      ...roots.flatMap((root, i) => [i === 0 ? "" : ", ", amount(root, input)]),
      ". Type the one you mean.",
    ],
  };
}

/** Evenly over the range, and over its decades too where it spans many. */
function samples({ limits: { min, max } }: Quantity): readonly number[] {
  const step = (max - min) / SAMPLES;
  const even = Array.from({ length: SAMPLES + 1 }, (_, i) => min + ((max - min) * i) / SAMPLES);
  const floor = min > 0 ? min : max * 1e-6;
  if (max <= 0 || max / floor < 100) return even;
  const decades = Array.from(
    { length: SAMPLES + 1 },
    (_, i) => floor * (max / floor) ** (i / SAMPLES),
  );
  // Two that differ in their last digits alone would make a jump of a crossing between them.
  const apart = decades.filter((x) => {
    const place = (x - min) / step;
    return Math.abs(place - Math.round(place)) > 1e-9;
  });
  return [...even, ...apart].sort((a, b) => a - b);
}

function scan(
  miss: (x: number) => number | undefined,
  xs: readonly number[],
): { points: readonly (readonly [number, number])[]; roots: readonly number[] } {
  const points: [number, number][] = [];
  const roots: number[] = [];
  let before: [number, number | undefined] | undefined;
  let earlier: [number, number | undefined] | undefined;
  for (const x of xs) {
    const here: [number, number | undefined] = [x, miss(x)];
    if (before) visit(before, here);
    else if (here[1] !== undefined) add(here[0], here[1]);
    if (earlier && before) turn(earlier, before, here);
    [earlier, before] = [before, here];
  }
  return { points, roots };

  function add(x: number, y: number): void {
    points.push([x, y]);
    if (y === 0) roots.push(x);
  }
  function visit(left: [number, number | undefined], right: [number, number | undefined]): void {
    // Where answers begin or end between two samples, go to that edge first: the root may lie there.
    const a = left[1] === undefined ? edge(right, left[0]) : left;
    const b = right[1] === undefined ? edge(left, right[0]) : right;
    if (a[1] === undefined || b[1] === undefined) return;
    if (a !== left) add(a[0], a[1]);
    if (a[1] * b[1] < 0) {
      const root = between(a[0], b[0]);
      // A jump changes sign without passing zero.
      const most = 1e-6 * (Math.abs(a[1]) + Math.abs(b[1]));
      if (root !== undefined && Math.abs(miss(root) ?? Infinity) <= most) roots.push(root);
    }
    add(b[0], b[1]);
  }
  /** A curve that comes near and turns back between three samples may touch, or cross twice. */
  function turn(
    [x0, y0]: [number, number | undefined],
    [, y1]: [number, number | undefined],
    [x2, y2]: [number, number | undefined],
  ): void {
    if (y0 === undefined || y1 === undefined || y2 === undefined) return;
    if (y0 * y1 <= 0 || y1 * y2 <= 0) return;
    // Of two that are as near, the second alone: else one turn in the middle between them would be found twice.
    if (Math.abs(y1) > Math.abs(y0) || Math.abs(y1) >= Math.abs(y2)) return;
    let [low, high] = [x0, x2];
    // A third less each time: after 80, what is left is a rounding of what it began with.
    for (let i = 0; i < 80; i++) {
      const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
      const [ya, yb] = [miss(a), miss(b)];
      if (ya === undefined || yb === undefined) return;
      if (Math.abs(ya) < Math.abs(yb)) high = b;
      else low = a;
      // Past zero: the nearest point of |miss| is a crossing, and there is one on either side of the turn.
      const beyond = ya * y1 < 0 ? a : yb * y1 < 0 ? b : undefined;
      if (beyond !== undefined) {
        for (const end of [x0, x2]) {
          const root = between(Math.min(end, beyond), Math.max(end, beyond));
          if (root !== undefined) roots.push(root);
        }
        return;
      }
    }
    const nearest = (low + high) / 2;
    const y = miss(nearest);
    if (y === undefined) return;
    points.push([nearest, y]);
    if (Math.abs(y) <= 1e-9 * (Math.abs(y0) + Math.abs(y2))) roots.push(nearest);
  }
  function between(a: number, b: number): number | undefined {
    try {
      return brent((x) => miss(x) ?? Number.NaN, a, b, 1e-14 * Math.abs(b));
    } catch (error) {
      // A refusal between two answers leaves nothing to close in on.
      if (error instanceof RangeError) return undefined;
      throw error;
    }
  }
  function edge(
    valid: [number, number | undefined],
    refused: number,
  ): [number, number | undefined] {
    let [inside, y] = valid;
    let outside = refused;
    if (y === undefined) return valid;
    for (let i = 0; i < 60; i++) {
      const middle = (inside + outside) / 2;
      const value = miss(middle);
      if (value === undefined) outside = middle;
      else [inside, y] = [middle, value];
    }
    return [inside, y];
  }
}

function unreachable(
  points: readonly (readonly [number, number])[],
  wanted: number,
  input: Quantity,
  result: Result,
): Phrase {
  const ys = points.map(([, y]) => y + wanted);
  const [least, most] = [Math.min(...ys), Math.max(...ys)];
  if (most - least <= 1e-9 * Math.abs(most))
    return [`${result.label} does not depend on this input. Pick another to move.`];
  return phrase`${result.label} goes from ${amount(least, result)} to ${amount(most, result)} while ${input.label.toLowerCase()} goes over its range, so ${amount(wanted, result)} is out of reach. Move another input.`;
}
