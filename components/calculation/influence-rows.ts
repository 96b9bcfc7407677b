import { COVERAGE, type Outcome } from "../../lib/calculations/graph.ts";
import type { AnyCalculation } from "../../lib/calculations/calculation.ts";
import { formatNumber, withUnit } from "../../lib/units/format.ts";
import { fromSI } from "../../lib/units/units.ts";
import type { UnitByName } from "./slots.ts";

export interface InfluenceRow {
  readonly label: string;
  readonly because: string;
  /** How far the result moves for this input's uncertainty, k = 2, with its unit. */
  readonly effect: string;
  /** Against the largest, 0 to 1. */
  readonly share: number;
}

/** What moves one result most, largest first, from each input's stated uncertainty. */
export function influenceRows(
  calculation: AnyCalculation,
  outcome: Outcome & { readonly ok: true },
  unitOf: UnitByName,
  name: string,
): readonly InfluenceRow[] {
  const result = calculation.results[name];
  if (!result) return [];
  const unit = unitOf(name, result.units);
  const inUnit = (x: number): number =>
    fromSI(x, result.dimension, unit) - fromSI(0, result.dimension, unit);
  const rows = outcome.influences
    .map(({ quantity, effects }) => ({ quantity, effect: Math.abs(effects[name] ?? 0) * COVERAGE }))
    .filter(({ effect }) => effect > 0)
    .sort((a, b) => b.effect - a.effect);
  const largest = rows[0]?.effect ?? 1;
  return rows.map(({ quantity, effect }) => ({
    label: quantity.label,
    because: quantity.uncertainty?.because ?? "",
    effect: withUnit(`±\u00a0${formatNumber(inUnit(effect), 2)}`, result.dimension, unit),
    share: effect / largest,
  }));
}
