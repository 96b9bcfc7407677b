import type * as Plot from "@observablehq/plot";
import type { Axis } from "../../lib/calculations/calculation.ts";
import { formatTrimmed } from "../../lib/units/format.ts";
import { fromSI, unitOf } from "../../lib/units/units.ts";

/** An axis in the unit that it is shown in. */
export interface Scaled {
  readonly at: (value: number) => number;
  readonly label: string;
  readonly domain?: [number, number];
}

export function scaled(axis: Axis, unit: string): Scaled {
  const { dimension } = axis.of;
  const at = (value: number): number => fromSI(value, dimension, unit);
  const { symbol } = unitOf(dimension, unit);
  return {
    at,
    label: symbol === "" ? axis.label : `${axis.label} (${symbol})`,
    ...(axis.domain && { domain: [at(axis.domain[0]), at(axis.domain[1])] as [number, number] }),
  };
}

/** The number at a tick. */
export function tick(value: number): string {
  return formatTrimmed(value, 6);
}

/** What bars lie along: from nothing, with grid lines, its name below. */
export function fromZero({ label, domain }: Scaled, ticks: number): Plot.ScaleOptions {
  return {
    label,
    labelAnchor: "center",
    labelArrow: "none",
    zero: true,
    ...(domain && { domain }),
    ticks,
    grid: true,
    tickFormat: tick,
  };
}
