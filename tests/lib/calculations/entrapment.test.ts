import { describe, expect, it } from "vitest";
import { DENSEST_PACKING } from "../../../lib/laws/vesicle.ts";
import { evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

describe("entrapment", () => {
  it("encloses captured volume times lipid", () => {
    // 2.870 L/mol (100 nm, 5 nm, 0.71 nm²) and 10 mmol/L: 2.87 %. computed, by the definition
    const v = valuesOf("entrapment", {
      lecithinConcentration: 7.7,
      phospholipidShare: 1,
      bilayerThickness: 5e-9,
      areaPerLipid: 0.71e-18,
    });
    expect(v["lipidConcentration"]).toBeCloseTo(10, 9);
    expect(v["enclosedVolume"]).toBeCloseTo(0.0287, 4);
  });

  it("agrees with its own steps", () => {
    const v = valuesOf("entrapment", { layers: 2 });
    expect(v["capturedVolume"]! * v["lipidConcentration"]!).toBeCloseTo(v["enclosedVolume"]!, 12);
    expect(v["enclosedVolume"]! / (1 - v["bilayerShare"]!)).toBeCloseTo(v["entrapmentBound"]!, 12);
    expect(v["outside"]).toBeCloseTo(1 - v["entrapmentBound"]!, 12);
    expect(v["entrappedConcentration"]).toBeCloseTo(100 * v["entrapmentBound"]!, 12);
    expect(v["capturedVolume"]).toBe(valuesOf("vesicle", { layers: 2 })["capturedVolume"]);
  });

  it("leaves most of a home batch's acid outside, whatever the layers", () => {
    const { values } = evaluated("entrapment", {});
    for (const name of ["entrapmentBound", "lamellarityLow", "lamellarityHigh"])
      expect(values[name]!.high, name).toBeLessThan(0.5);
  });

  it("lies between the bounds of the most and of the fewest layers", () => {
    const { lamellarityLow, entrapmentBound, lamellarityHigh } = valuesOf("entrapment", {
      layers: 3,
    });
    expect(lamellarityLow).toBeLessThan(entrapmentBound!);
    expect(entrapmentBound).toBeLessThan(lamellarityHigh!);
  });

  it("is nothing without lecithin", () => {
    const v = valuesOf("entrapment", { lecithinConcentration: 0 });
    expect([v["entrapmentBound"], v["entrappedConcentration"], v["bilayerShare"]]).toEqual([
      0, 0, 0,
    ]);
  });

  it("knows the share of phospholipid only within a wide band", () => {
    const { influences } = evaluated("entrapment", {});
    const share = influences.find(({ key }) => key === "phospholipidShare");
    expect(share?.standardUncertainty).toBeCloseTo(0.15 * 0.65, 12);
  });

  it("refuses vesicles that would need more room than there is, and takes what it then names", () => {
    const large = { outerDiameter: 600e-9 };
    const [refusal] = refusalsOf("entrapment", large);
    expect(refusal?.input).toBe("lecithinConcentration");
    expect(refusal?.says).toMatch(/more room than the liquid has.*smaller diameter or more layers/);
    const most = Number(/not more than ([\d.]+)/.exec(refusal!.says)?.[1]);
    expect(refusalsOf("entrapment", { ...large, lecithinConcentration: most * 0.99 })).toEqual([]);
    expect(refusalsOf("entrapment", { ...large, lecithinConcentration: most * 1.01 })).not.toEqual(
      [],
    );
  });

  it.each([
    ["layers", 9],
    ["lecithinConcentration", 401],
    ["phospholipidShare", 0],
    ["ascorbicAcidConcentration", -1],
    ["outerDiameter", 1e-9],
  ])("refuses a %s of %d by name", (input, value) => {
    expect(refusalsOf("entrapment", { [input]: value }).map((r) => r.input)).toEqual([input]);
  });

  it("says what phospholipid a reported share would take, or that no packing reaches it", () => {
    const [, table] = graph.get("entrapment").tables!;
    const { inputs } = evaluated("entrapment", {});
    const rows = table!.rows(inputs as never);
    const [film, industrial, homogenised, reversePhase] = rows;
    for (const row of rows) expect(row[3]).toBe(valuesOf("entrapment", {})["entrapmentBound"]);
    for (const [row, reported] of [
      [film!, 0.421],
      [industrial!, 0.6401],
      [reversePhase!, 0.65],
    ] as const) {
      const taken = valuesOf("entrapment", {
        lecithinConcentration: row[4]!,
        phospholipidShare: 1,
      });
      expect(taken["entrapmentBound"]).toBeCloseTo(reported, 9);
    }
    expect(homogenised![4]).toBeNull();
    // At the densest packing these vesicles enclose less than 80 % of what is not bilayer.
    const { capturedVolume, bilayerShare, lipidConcentration } = valuesOf("entrapment", {});
    const inBall = capturedVolume! / (capturedVolume! + bilayerShare! / lipidConcentration!);
    const densest = DENSEST_PACKING * inBall;
    expect(densest / (1 - DENSEST_PACKING + densest)).toBeLessThan(0.8);
  });

  it("sets measured volumes beside the geometry of their sizes", () => {
    const [table] = graph.get("entrapment").tables!;
    const rows = table!.rows(evaluated("entrapment", { layers: 5 }).inputs as never);
    const [sonicated, extruded, shaken, reverse] = rows;
    // Each measured range and that of the geometry, one layer, have something in common.
    for (const [, low, high, from, to] of [sonicated!, extruded!, reverse!]) {
      expect(from).toBeLessThan(high!);
      expect(to).toBeGreaterThan(low!);
    }
    expect(shaken!.slice(3, 5)).toEqual([null, null]);
  });

  it("says what measured vesicles would enclose of the batch", () => {
    const [table] = graph.get("entrapment").tables!;
    const at = (batch: Record<string, number>) =>
      table!.rows(evaluated("entrapment", batch).inputs as never).map((row) => row.slice(5, 7));
    const [sonicated, , shaken, reversePhase] = at({});
    // 0.2 L/mol × 50.6 mmol/L = 1.0 %, and 4.1 L/mol = 20.8 %, of what is not bilayer (4.3 %). computed
    expect(sonicated![0]).toBeCloseTo(0.0101 / 0.957, 3);
    expect(shaken![1]).toBeCloseTo(0.2077 / 0.957, 3);
    // 15.1 L/mol would take 76 % of the liquid for the water alone.
    expect(reversePhase![1]).toBeNull();
    expect(at({ lecithinConcentration: 6 })[3]![1]).toBeGreaterThan(0.07);
  });
});
