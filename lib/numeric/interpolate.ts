import { inRange } from "../errors.ts";

/**
 * Natural cubic spline through given points: smooth to the second derivative, straight at both ends.
 *
 * @param points - x and y, shape (n, 2), n ≥ 2, x increasing; the unit is the caller's
 * @returns a function of x from the first to the last point, through every point; outside, or for NaN, it
 * throws OutOfRangeError (quantity "x")
 * @throws TypeError for fewer than two points, x not increasing, or a value that is not finite
 * Source: Press et al., Numerical Recipes, 3rd ed. (2007), section 3.3. memory
 */
export function naturalSpline(
  points: readonly (readonly [x: number, y: number])[],
): (x: number) => number {
  const pieces = splinePieces(points);
  const first = pieces[0] as Piece;
  const [last] = points.at(-1) as readonly [number, number];
  const limits = { min: first[0], max: last, unit: "of x" };
  return (x) => {
    inRange("x", x, limits);
    let [left, y, slope, bend, twist] = first;
    for (const piece of pieces) {
      if (piece[0] > x) break;
      [left, y, slope, bend, twist] = piece;
    }
    const h = x - left;
    return y + h * (slope + h * (bend + h * twist));
  };
}

/** y + h (slope + h (bend + h twist)) from `left` on, h = x − left. */
type Piece = readonly [left: number, y: number, slope: number, bend: number, twist: number];

function splinePieces(points: readonly (readonly [number, number])[]): readonly Piece[] {
  if (points.length < 2) throw new TypeError(`a spline needs two points, got ${points.length}`);
  const gaps = points.slice(1).map(([x, y], i) => {
    const [x0, y0] = points[i] as readonly [number, number];
    if (!(x > x0) || !Number.isFinite(x - x0) || !Number.isFinite(y - y0))
      throw new TypeError(
        `points must be finite with x increasing, got ${x0}, ${y0} then ${x}, ${y}`,
      );
    return { left: x0, y: y0, width: x - x0, slope: (y - y0) / (x - x0) };
  });
  const curvatures = secondDerivatives(gaps);
  return gaps.map(({ left, y, width, slope }, i) => {
    const [here, next] = [curvatures[i] as number, curvatures[i + 1] as number];
    return [left, y, slope - (width * (2 * here + next)) / 6, here / 2, (next - here) / 6 / width];
  });
}

/** Second derivatives at the points, 0 at both ends: a tridiagonal system, eliminated forwards and back. */
function secondDerivatives(
  gaps: readonly { readonly width: number; readonly slope: number }[],
): readonly number[] {
  // Row i once eliminated: curvature i = load − ratio × curvature i + 1.
  const rows: { readonly ratio: number; readonly load: number }[] = [{ ratio: 0, load: 0 }];
  for (const [i, gap] of gaps.slice(1).entries()) {
    const before = gaps[i] as (typeof gaps)[number];
    const row = rows[i] as (typeof rows)[number];
    const pivot = 2 * (before.width + gap.width) - before.width * row.ratio;
    rows.push({
      ratio: gap.width / pivot,
      load: (6 * (gap.slope - before.slope) - before.width * row.load) / pivot,
    });
  }
  const curvatures = [0];
  for (const { ratio, load } of rows.slice(1).reverse())
    curvatures.unshift(load - ratio * (curvatures[0] as number));
  curvatures.unshift(0);
  return curvatures;
}
