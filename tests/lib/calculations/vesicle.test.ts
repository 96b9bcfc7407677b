import { describe, expect, it } from "vitest";
import { evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

/** As in liposome papers. */
const PAPER = { outerDiameter: 100e-9, bilayerThickness: 5e-9, areaPerLipid: 0.71e-18 };

describe("vesicle", () => {
  it("counts the lipids of a 100 nm vesicle", () => {
    // Shell geometry, 5 nm, 0.71 nm²: 80 088. computed
    expect(valuesOf("vesicle", PAPER)["lipidsPerVesicle"]! / 80_088).toBeCloseTo(1, 3);
  });

  it("comes near the published count of a 70 nm vesicle rich in cholesterol", () => {
    // Skotland, Sandvig & Llorente, Prog. Lipid Res. 66 (2017) 30: 60 000. seen
    const { lipidsPerVesicle } = valuesOf("vesicle", {
      ...PAPER,
      outerDiameter: 70e-9,
      areaPerLipid: 0.45e-18,
    });
    expect(Math.abs(lipidsPerVesicle! / 60_000 - 1)).toBeLessThan(0.02);
  });

  // Shell geometry, 4 nm, 0.70 nm², L/mol. computed
  it.each([
    [30, 0.5405],
    [100, 2.963],
    [200, 6.4696],
  ])("captures, at %d nm, %d L for each mole of lipid", (nanometres, litres) => {
    const { capturedVolume } = valuesOf("vesicle", { outerDiameter: nanometres * 1e-9 });
    expect(Math.abs((1000 * capturedVolume!) / litres - 1)).toBeLessThan(0.001);
  });

  it("parts the ball into liquid and bilayer", () => {
    const v = valuesOf("vesicle", { layers: 3 });
    expect((v["internalVolume"]! + v["bilayerVolume"]!) / v["ballVolume"]!).toBeCloseTo(1, 12);
    expect(v["leafArea"]! / v["lipidsPerVesicle"]! / 0.7e-18).toBeCloseTo(1, 12);
  });

  it("holds less for each mole with every layer, as many as fit", () => {
    const captured = (layers: number) => valuesOf("vesicle", { layers })["capturedVolume"]!;
    const { mostLayers } = valuesOf("vesicle", {});
    const all = Array.from({ length: mostLayers! }, (_, i) => captured(i + 1));
    expect(all).toEqual(all.toSorted((a, b) => b - a));
  });

  it("refuses more layers than fit, and says how many do", () => {
    const { mostLayers } = valuesOf("vesicle", {});
    const [refusal] = refusalsOf("vesicle", { layers: mostLayers! + 1 });
    expect(refusal?.input).toBe("layers");
    expect(refusal?.says).toContain(`to ${mostLayers}`);
  });

  it.each([
    ["outerDiameter", 19e-9],
    ["outerDiameter", 11e-6],
    ["bilayerThickness", 1.9e-9],
    ["bilayerThickness", 8.1e-9],
    ["areaPerLipid", 0.29e-18],
    ["lipidMolarMass", 0.2],
    ["layers", 0],
    ["layers", 1.5],
  ])("refuses a %s of %d by name", (input, value) => {
    expect(refusalsOf("vesicle", { [input]: value }).map((r) => r.input)).toEqual([input]);
  });

  it("never has a bilayer thicker than the radius to refuse: the limits keep them apart", () => {
    const { outerDiameter, bilayerThickness } = graph.get("vesicle").inputs as never;
    const { limits: size } = outerDiameter as { limits: { min: number } };
    const { limits: wall } = bilayerThickness as { limits: { max: number } };
    expect(wall.max).toBeLessThanOrEqual(size.min / 2);
  });

  it("carries the unknown size into the captured volume, as a factor", () => {
    const { value, low, high } = evaluated("vesicle", {}).values["capturedVolume"]!;
    expect(low).toBeGreaterThan(0);
    expect(high / value).toBeCloseTo(value / low, 9);
    expect(high / low).toBeGreaterThan(4);
  });
});
