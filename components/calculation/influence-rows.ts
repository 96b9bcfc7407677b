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

/** Share of the largest effect below which one changes no digit of the band, and of the result that is rounding. */
const NEGLIGIBLE = 1e-3;
const ROUNDING = 1e-9;

/** What moves one result most, largest first, from each input's stated uncertainty; no row for what moves nothing. */
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
  const effects = outcome.influences
    .map((one) => ({ ...one, effect: Math.abs(one.effects[name] ?? 0) * COVERAGE }))
    .sort((a, b) => b.effect - a.effect);
  const largest = effects[0]?.effect ?? 0;
  const least = Math.max(
    NEGLIGIBLE * largest,
    ROUNDING * Math.abs(outcome.values[name]?.value ?? 0),
  );
  const rows = effects.filter(({ effect }) => effect > least);
  return rows.map(({ quantity, effect }) => ({
    label: quantity.label,
    because: quantity.uncertainty?.because ?? "",
    effect: withUnit(`±\u00a0${formatNumber(inUnit(effect), 2)}`, result.dimension, unit),
    share: effect / largest,
  }));
}
