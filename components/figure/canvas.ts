import type { Axis } from "../../lib/calculations/calculation.ts";

/** Where to draw: the browser's document, or the build's stand-in for one. */
export interface Canvas {
  readonly document: Document;
  /** px */
  readonly width: number;
  /** The unit an axis is shown in. */
  readonly unitOf: (axis: Axis) => string;
}

/** Of the drawing made at build, px: between a phone and a column, so that it can serve both. */
export const BUILT_WIDTH = 420;

/** Of a drawing made in the browser, px: as wide as its place, inside what can be read. */
export function widthIn(place: number): number {
  return Math.min(Math.max(Math.round(place), 260), 512);
}

export const INK = "var(--ink)";
export const SOFT = "var(--ink-soft)";
export const ACCENT = "var(--accent)";
/** Round words, so that a line that they lie on does not run through them. */
export const halo = { stroke: "var(--ground)", strokeWidth: 4, strokeLinejoin: "round" } as const;
