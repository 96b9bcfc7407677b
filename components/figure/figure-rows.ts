import type { Axis, Drawing } from "../../lib/calculations/calculation.ts";
import { formatTrimmed } from "../../lib/units/format.ts";
import { scaled } from "./axis.ts";

/** The same numbers as rows, for who reads rather than looks. */
export function figureRows(
  data: Drawing,
  unitFor: (axis: Axis) => string,
): { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const x = scaled(data.x, unitFor(data.x));
  if ("bars" in data)
    return {
      head: ["", x.label],
      rows: data.bars.map(({ label, value }) => [label, formatTrimmed(x.at(value), 4)]),
    };
  if ("rows" in data)
    return {
      head: ["Stage", `${x.label}: from`, "to", "What"],
      rows: data.rows.flatMap(({ label, spans }) =>
        spans.map(({ from, to, look }) => [
          label,
          formatTrimmed(x.at(from), 4),
          formatTrimmed(x.at(to), 4),
          data.looks[look],
        ]),
      ),
    };
  const y = scaled(data.y, unitFor(data.y));
  const at =
    data.lines[0]?.points.filter(
      (_, i, all) => i % Math.max(1, Math.floor(all.length / 10)) === 0,
    ) ?? [];
  return {
    head: [x.label, ...data.lines.map((line) => `${y.label}: ${line.label}`)],
    rows: at.map(([a]) => [
      formatTrimmed(x.at(a), 4),
      ...data.lines.map((line) => {
        const value = along(line.points, a);
        return value === undefined ? "–" : formatTrimmed(y.at(value), 4);
      }),
    ]),
  };
}

/** The height of a line at x, straight between its points; nothing beyond its ends. */
function along(points: readonly (readonly [number, number])[], x: number): number | undefined {
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    if (!a || !b || x < a[0] || x > b[0]) continue;
    return b[0] === a[0] ? a[1] : a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
  }
  return points.find(([at]) => at === x)?.[1];
}
