import * as Plot from "@observablehq/plot";
import type { BarData } from "../../lib/calculations/calculation.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { fromZero, scaled } from "./axis.ts";
import { ACCENT, halo, INK, type Canvas } from "./canvas.ts";
import { LETTER } from "./names.ts";

/** Bars, each with its name before it and its amount behind. */
export function barOptions(data: BarData, canvas: Canvas): Plot.PlotOptions {
  const unit = canvas.unitOf(data.x);
  const x = scaled(data.x, unit);
  const bars = data.bars.map(({ label, value }) => ({
    label,
    value: x.at(value),
    text: formatAmount(value, data.x.of.dimension, unit, data.x.of.digits),
  }));
  return {
    height: 66 + 38 * bars.length,
    marginLeft: 20 + LETTER * Math.max(...bars.map(({ label }) => label.length)),
    marginRight: 76,
    marginTop: 8,
    marginBottom: 46,
    x: fromZero(x, canvas.width < 480 ? 3 : 5),
    y: { label: null, domain: bars.map(({ label }) => label) },
    marks: [
      Plot.barX(bars, { x: "value", y: "label", fill: ACCENT, insetTop: 4, insetBottom: 4 }),
      Plot.text(bars, {
        x: "value",
        y: "label",
        text: "text",
        textAnchor: "start",
        dx: 5,
        fill: INK,
        ...halo,
      }),
      Plot.ruleX([0], { stroke: INK }),
    ],
  };
}
