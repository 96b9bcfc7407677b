import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { batchHeatCapacity, SOLUTE_SPECIFIC_HEAT } from "../../../lib/laws/heat-capacity.ts";
import {
  HEAT_CAPACITY_SPREAD,
  heatCapacity,
  heatCapacitySpread,
} from "../../../lib/substances/ethanol-water.ts";

const GLASS = { value: 830, low: 790, high: 870 };
const NOTHING = { solvent: 0, massFraction: 0, ascorbicAcid: 0, lecithin: 0, glass: 0 };
const BATCH = { solvent: 0.45, massFraction: 0.2, ascorbicAcid: 0.05, lecithin: 0.03, glass: 0.25 };

describe("batchHeatCapacity(masses, temperature, glassSpecificHeat)", () => {
  it("agrees with half a litre of water in a beaker", () => {
    // 0.5 kg at 4180 J/(kg K) with 0.25 kg of glass at 830: 2297.5 J/K. computed
    const found = batchHeatCapacity({ ...NOTHING, solvent: 0.5, glass: 0.25 }, 30, GLASS);
    expect(Math.abs(found.value / 2297.5 - 1)).toBeLessThan(1e-3);
    // The glass has 9.0 % of it. computed
    expect((0.25 * 830) / found.value).toBeCloseTo(0.0903156, 3);
  });

  it("adds its parts, and their bands in squares", () => {
    const whole = batchHeatCapacity(BATCH, 25, GLASS);
    const alone = (["solvent", "ascorbicAcid", "lecithin", "glass"] as const).map((name) =>
      batchHeatCapacity({ ...NOTHING, massFraction: 0.2, [name]: BATCH[name] }, 25, GLASS),
    );
    expect(whole.value).toBeCloseTo(
      alone.reduce((sum, { value }) => sum + value, 0),
      9,
    );
    expect(whole.high - whole.value).toBeCloseTo(
      Math.hypot(...alone.map(({ value, high }) => high - value)),
      9,
    );
    expect(whole.value - whole.low).toBeCloseTo(
      Math.hypot(...alone.map(({ value, low }) => value - low)),
      9,
    );
  });

  it("is each part's own where there is nothing else", () => {
    const solvent = batchHeatCapacity({ ...NOTHING, solvent: 2, massFraction: 0.4 }, 60, GLASS);
    expect(solvent.value).toBeCloseTo(2 * heatCapacity(0.4, 60), 9);
    expect(solvent.high / solvent.value - 1).toBeCloseTo(heatCapacitySpread(60), 12);
    expect(heatCapacitySpread(3)).toBe(HEAT_CAPACITY_SPREAD);
    const acid = batchHeatCapacity({ ...NOTHING, ascorbicAcid: 1 }, 25, GLASS);
    expect(acid).toEqual(SOLUTE_SPECIFIC_HEAT.ascorbicAcid);
    expect(batchHeatCapacity({ ...NOTHING, glass: 1 }, 3, GLASS)).toEqual(GLASS);
    expect(batchHeatCapacity(NOTHING, 25, GLASS).value).toBe(0);
  });

  it.each(["solvent", "ascorbicAcid", "lecithin", "glass"])("refuses a mass of %s", (name) => {
    for (const bad of [-0.001, 100.1, Number.NaN])
      expect(() => batchHeatCapacity({ ...BATCH, [name]: bad }, 25, GLASS)).toThrow(
        OutOfRangeError,
      );
  });

  it("refuses a share, a temperature or a glass outside its range", () => {
    for (const massFraction of [-0.01, 1.01, Number.NaN])
      expect(() => batchHeatCapacity({ ...BATCH, massFraction }, 25, GLASS)).toThrow(
        OutOfRangeError,
      );
    for (const temperature of [2.9, 60.1, Number.NaN])
      expect(() => batchHeatCapacity(BATCH, temperature, GLASS)).toThrow(OutOfRangeError);
    for (const value of [-1, 10_001, Number.NaN])
      expect(() => batchHeatCapacity(BATCH, 25, { ...GLASS, value })).toThrow(OutOfRangeError);
  });
});
