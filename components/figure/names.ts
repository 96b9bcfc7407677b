import type { Mark } from "../../lib/calculations/calculation.ts";

type Point = readonly [number, number];

interface Line {
  readonly label: string;
  readonly points: readonly Point[];
}

/** The point of a line that its name stands at, and on which side of it. */
export interface LineName {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly above: boolean;
  readonly rising: boolean;
}

/** Where the name of a mark stands: px down from it, and which end of the name is there. */
export interface Side {
  readonly dy: number;
  readonly textAnchor: "start" | "middle" | "end";
}

interface Rule {
  readonly y: number;
  readonly label: string;
}

/**
 * Where the names of a drawing stand so that they can be read: those of marks first, then those of lines.
 *
 * @returns a side for each mark, and a place for each line that has a name
 */
export function placeNames(
  lines: readonly Line[],
  marks: readonly Mark[],
  rules: readonly Rule[],
  plane: Plane,
): { readonly sides: readonly Side[]; readonly names: readonly LineName[] } {
  const sides = sidesOf(marks, plane);
  return { sides, names: lineNames(lines, takenBy(marks, sides, rules, plane), plane) };
}

/** About what a letter of a name takes, px: of the drawing made at build, whose letters are kept large on a phone. */
export const LETTER = 7.5;
const LINE_HEIGHT = 14;
/** px from a line to the middle of its name. */
const BESIDE = 12;
/** As far from other lines and names as makes a difference, px. */
const CLEAR = 24;
const PLACES = [0.3, 0.7, 0.5, 0.85, 0.15];

/** What must not be hidden by a name, and must not be taken for what it names: px, from the top left. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly y: number;
}

/**
 * A name at each line, above it or below, as far from the other lines, the marks and the other names as can be:
 * a name that lies nearer to another line would be taken for that one's.
 */
function lineNames(lines: readonly Line[], taken: Box[], plane: Plane): readonly LineName[] {
  const boxOf = ({ x, y, text, above, rising }: LineName): Box => {
    const [at, width] = [plane.x(x), LETTER * text.length];
    const left = above === rising ? at - 7 - width : at + 7;
    return { left, right: left + width, y: plane.y(y) + (above ? -BESIDE : BESIDE) };
  };
  const traces = lines.map(({ points }) => traceOf(points, plane));
  const room = (label: LineName, own: number): number => {
    const box = boxOf(label);
    if (box.left < plane.left + 6 || box.right > plane.right) return -1;
    if (box.y > plane.bottom - LINE_HEIGHT / 2) return -1;
    const heights = traces.flatMap((trace, i) => {
      const distances = [0, 0.25, 0.5, 0.75, 1].flatMap((share) => {
        const height = trace[Math.round(box.left + share * (box.right - box.left))];
        return height === undefined ? [] : [Math.abs(height - box.y)];
      });
      // Beside its own line is where it belongs, as long as that does not run through it.
      return i === own ? distances.filter((px) => px < BESIDE / 2) : distances;
    });
    const gaps = taken.map(({ left, right, y }) =>
      Math.max(left - box.right, box.left - right, Math.abs(y - box.y) - LINE_HEIGHT),
    );
    return Math.min(CLEAR, ...heights, ...gaps);
  };
  return lines.flatMap((line, i) => {
    const { label: text, points } = line;
    if (points.length === 0 || text === "") return [];
    const places = [i % 2 === 0, i % 2 !== 0].flatMap((above) =>
      PLACES.map((share): LineName => ({ ...alongPath(points, share), text, above })),
    );
    const { place: best } = places
      .map((place) => ({ place, free: room(place, i) }))
      .reduce((a, b) => (b.free > a.free ? b : a));
    taken.push(boxOf(best));
    return [best];
  });
}

/** Where in the drawing a value stands, px from the top left. */
export interface Plane {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
}

/** How high a line runs, px from the top, at each px from the left where it is drawn: asked again and again. */
function traceOf(points: Line["points"], plane: Plane): readonly (number | undefined)[] {
  const trace: (number | undefined)[] = [];
  for (let i = 1; i < points.length; i++) {
    const [[ax, ay], [bx, by]] = [points[i - 1], points[i]] as [Point, Point];
    const [from, to] = [plane.x(ax), plane.x(bx)];
    const left = Math.max(plane.left, Math.ceil(Math.min(from, to)));
    const right = Math.min(plane.right, Math.max(from, to));
    for (let px = left; px <= right; px++)
      trace[px] ??= plane.y(from === to ? ay : ay + ((by - ay) * (px - from)) / (to - from));
  }
  return trace;
}

export const ABOVE = -15;
export const BELOW = 24;

/** Above its mark, or below where another name is; never over the numbers of an axis. */
function sidesOf(marks: readonly Mark[], plane: Plane): readonly Side[] {
  const taken: Box[] = [];
  return marks.map((mark, i) => {
    const amid = boxOfMark(mark, { dy: ABOVE, textAnchor: "middle" }, plane);
    const textAnchor =
      amid.left < plane.left ? "start" : amid.right > plane.right ? "end" : "middle";
    const box = boxOfMark(mark, { dy: ABOVE, textAnchor }, plane);
    const covered = taken.some(
      ({ left, right, y }) =>
        left < box.right && box.left < right && Math.abs(y - box.y) < LINE_HEIGHT,
    );
    // Two ends of one stage may come close while they are dragged: their names are on either side from the first.
    const dy = (mark.drag ? i % 2 === 1 : covered) ? BELOW : ABOVE;
    const side: Side = { dy, textAnchor };
    if (mark.label !== "") taken.push(boxOfMark(mark, side, plane));
    return side;
  });
}

function boxOfMark({ x, y, label }: Mark, { dy, textAnchor }: Side, plane: Plane): Box {
  const width = LETTER * label.length;
  const left = plane.x(x) - { start: 0, middle: width / 2, end: width }[textAnchor];
  return { left, right: left + width, y: plane.y(y) + dy };
}

/** What stands in the drawing before lines are named: marks with their names, names of rules. */
function takenBy(
  marks: readonly Mark[],
  sides: readonly Side[],
  rules: readonly Rule[],
  plane: Plane,
): Box[] {
  return [
    ...marks.flatMap((mark, i) => {
      const at = plane.x(mark.x);
      const dot = { left: at - 5, right: at + 5, y: plane.y(mark.y) };
      return [dot, boxOfMark(mark, sides[i] as Side, plane)];
    }),
    ...rules.map(({ y, label }) => ({
      left: plane.left,
      right: plane.left + LETTER * label.length,
      y: plane.y(y) - 7,
    })),
  ];
}

/** The point so far along a line, by its share of the points, and whether the line rises there. */
function alongPath(
  points: readonly Point[],
  share: number,
): { readonly x: number; readonly y: number; readonly rising: boolean } {
  const at = share * (points.length - 1);
  const before = Math.floor(at);
  const a = points[before] as Point;
  const b = points[before + 1] ?? a;
  const rest = at - before;
  return {
    x: a[0] + (b[0] - a[0]) * rest,
    y: a[1] + (b[1] - a[1]) * rest,
    rising: b[1] >= a[1],
  };
}
