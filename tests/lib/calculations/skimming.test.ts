import { describe, expect, it } from "vitest";
import { evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATCH = {
  batchVolume: 0.5e-3,
  "skimming.waterMass": 0.32,
  "skimming.spiritMass": 0.11,
  "skimming.ascorbicAcidMass": 0.05,
  "skimming.lecithinMass": 0.03,
  skimmedVolume: 0.05e-3,
  gasShare: 0.8,
};

describe("skimming", () => {
  it("takes of each the share that the foam holds as liquid", () => {
    // Conservation of mass: 50 mL of foam, four fifths gas, is 10 mL of 500 mL. computed
    const values = valuesOf("skimming", BATCH);
    expect(values["shareLost"]).toBeCloseTo(0.02, 12);
    expect(values["lostAscorbicAcid"]).toBeCloseTo(1e-3, 12);
    expect(values["leftVolume"]).toBeCloseTo(0.49e-3, 12);
    expect(values["lostMass"]).toBeCloseTo(0.02 * 0.51, 12);
  });

  it.each(["Water", "Spirit", "AscorbicAcid", "Lecithin"])("loses no %s on the way", (name) => {
    const values = valuesOf("skimming", BATCH);
    const key = `skimming.${name[0]!.toLowerCase()}${name.slice(1)}Mass` as keyof typeof BATCH;
    expect(values[`lost${name}`]! + values[`left${name}`]!).toBeCloseTo(BATCH[key], 12);
  });

  it("takes nothing where nothing is skimmed, all where all is foam", () => {
    expect(valuesOf("skimming", { ...BATCH, skimmedVolume: 0 })["lostMass"]).toBe(0);
    const all = valuesOf("skimming", { ...BATCH, skimmedVolume: 2.5e-3 });
    expect(all["leftAscorbicAcid"]).toBeCloseTo(0, 12);
  });

  it("says that the foam’s gas is a guess", () => {
    const { values } = evaluated("skimming", BATCH);
    expect(values["lostVolume"]!.high / values["lostVolume"]!.value).toBeGreaterThan(1.5);
  });

  it("refuses more foam than the batch can make", () => {
    expect(refusalsOf("skimming", { ...BATCH, skimmedVolume: 2.6e-3 })).toEqual([
      { input: "skimmedVolume", says: expect.stringMatching(/more foam.*2500\smL/) as string },
    ]);
  });
});
