import { describe, expect, it } from "vitest";
import { evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BOTTLE = {
  "headspace-oxygen.headspaceVolume": 20e-6,
  "headspace-oxygen.liquidVolume": 250e-6,
  bottlingTemperature: 20,
  airPressure: 101_325,
  "headspace-oxygen.ascorbicAcidMass": 0.025,
};

describe("headspace-oxygen", () => {
  it("gives what the oxygen of a closed bottle can take", () => {
    // Gas law and solubility: 43.19 mg, 0.17276 %. computed
    const { acidOxidised, shareOxidised } = graph.run("headspace-oxygen", BOTTLE)!;
    expect(acidOxidised!.value * 1e6).toBeCloseTo(43.19, 1);
    expect(shareOxidised!.value * 100).toBeCloseTo(0.1728, 3);
    expect(acidOxidised!.high / acidOxidised!.low).toBeCloseTo(2, 9);
  });

  it("doubles its air’s oxygen with the headspace, and has none without", () => {
    const air = (volume: number): number =>
      valuesOf("headspace-oxygen", { ...BOTTLE, "headspace-oxygen.headspaceVolume": volume })[
        "oxygenMoles"
      ]!;
    expect(air(40e-6) / air(20e-6)).toBeCloseTo(2, 12);
    expect(air(0)).toBe(0);
  });

  it("takes no more acid than there is", () => {
    const weak = { ...BOTTLE, "headspace-oxygen.ascorbicAcidMass": 1e-6 };
    expect(valuesOf("headspace-oxygen", weak)["shareOxidised"]).toBe(1);
  });

  it("starts from the bottles and the acid in one", () => {
    const { inputs, origins } = evaluated("headspace-oxygen", {});
    const fill = valuesOf("bottling", {})["fillVolume"]!;
    expect(inputs["ascorbicAcidMass"]).toBeCloseTo(
      fill * valuesOf("composition", {})["ascorbicAcidConcentration"]!,
      12,
    );
    expect(origins["headspaceVolume"]).toMatchObject({ calculation: "bottling" });
  });

  it("refuses a headspace below nothing", () => {
    const over = { ...BOTTLE, "headspace-oxygen.headspaceVolume": -1e-6 };
    expect(refusalsOf("headspace-oxygen", over)).toEqual([
      { input: "headspaceVolume", says: expect.stringMatching(/must be from 0/) as string },
    ]);
  });
});
