/** A curve through points, ready to evaluate between the first and the last. */
export type Curve = (x: number) => number;

/**
 * The shape-preserving cubic through points: no wiggle that the points do not have, and no overshoot.
 *
 * Evaluated outside its ends it goes on with the end's cubic: the caller checks the range.
 *
 * @param xs - strictly increasing, at least 2
 * @param ys - as many
 * @throws TypeError where the two do not match or xs do not increase: a programmer's slip
 * Source: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300. memory
 */
export function monotoneCubic(xs: readonly number[], ys: readonly number[]): Curve {
  const n = xs.length;
  if (n < 2 || ys.length !== n) throw new TypeError(`${n} x against ${ys.length} y`);
  const width = Array.from({ length: n - 1 }, (_, i) => at(xs, i + 1) - at(xs, i));
  if (width.some((h) => !(h > 0))) throw new TypeError("x must increase");
  const chord = width.map((h, i) => (at(ys, i + 1) - at(ys, i)) / h);
  const slope = Array.from({ length: n }, (_, i) => {
    if (i === 0) return at(chord, 0);
    if (i === n - 1) return at(chord, n - 2);
    const [left, right] = [at(chord, i - 1), at(chord, i)];
    if (left * right <= 0) return 0;
    const [a, b] = [at(width, i - 1), at(width, i)];
    return (3 * (a + b)) / ((2 * b + a) / left + (b + 2 * a) / right);
  });
  return (x) => {
    let i = 0;
    while (i < n - 2 && x > at(xs, i + 1)) i++;
    const h = at(width, i);
    const t = (x - at(xs, i)) / h;
    const [y0, y1] = [at(ys, i), at(ys, i + 1)];
    const [d0, d1] = [at(slope, i) * h, at(slope, i + 1) * h];
    return y0 + t * (d0 + t * (3 * (y1 - y0) - 2 * d0 - d1 + t * (2 * (y0 - y1) + d0 + d1)));
  };
}

function at(list: readonly number[], i: number): number {
  return list[i] as number;
}
