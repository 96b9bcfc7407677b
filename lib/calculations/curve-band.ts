import type { Inputs, InputValues, Moved } from "./calculation.ts";
import { COVERAGE } from "./graph.ts";

/**
 * The band of a curve, k = 2: what each uncertain quantity does to it, added in squares.
 *
 * @param xs - where the curve is drawn
 * @param curve - makes the curve from inputs; `undefined` where they are refused
 * @param inputs - as they are
 * @param spread - as a figure is given it
 * @returns low and high edge against x
 */
export function curveBand<I extends Inputs>(
  xs: readonly number[],
  curve: (inputs: InputValues<I>) => ((x: number) => number) | undefined,
  inputs: InputValues<I>,
  spread: readonly Moved<I>[],
): readonly (readonly [x: number, low: number, high: number])[] {
  const here = curve(inputs);
  if (!here) return [];
  const squares = xs.map(() => 0);
  for (const { above, below } of spread) {
    const [up, down] = [above, below].map((moved) => moved && curve(moved));
    // Beside a refusal there is nothing to compare.
    if (!up || !down) continue;
    xs.forEach((x, i) => {
      squares[i] = (squares[i] ?? 0) + ((up(x) - down(x)) / 2) ** 2;
    });
  }
  return xs.map((x, i) => {
    const half = COVERAGE * Math.sqrt(squares[i] ?? 0);
    return [x, here(x) - half, here(x) + half];
  });
}
