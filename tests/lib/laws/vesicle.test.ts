import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  AVOGADRO,
  DENSEST_PACKING,
  entrapment,
  mostLayers,
  VESICLE_LIMITS,
  vesicleContents,
  type Vesicle,
} from "../../../lib/laws/vesicle.ts";
import { MEASURED_CAPTURED_VOLUME } from "../../../lib/substances/lecithin.ts";

const VESICLE: Vesicle = {
  outerDiameter: 100e-9,
  bilayerThickness: 4e-9,
  areaPerLipid: 0.7e-18,
  lipidMolarMass: 0.77,
  layers: 1,
};
/** As in liposome papers. */
const PAPER: Vesicle = { ...VESICLE, bilayerThickness: 5e-9, areaPerLipid: 0.71e-18 };

function refusal(run: () => unknown): OutOfRangeError {
  try {
    run();
  } catch (error) {
    if (error instanceof OutOfRangeError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("vesicleContents(vesicle)", () => {
  it("counts the molecules of a 100 nm vesicle", () => {
    // Shell geometry, 5 nm, 0.71 nm²: 80 088. computed; the rounded form in papers gives 80 047. memory
    const { lipidsPerVesicle } = vesicleContents(PAPER);
    expect(Math.abs(lipidsPerVesicle / 80_088 - 1)).toBeLessThan(0.001);
    expect(Math.abs(lipidsPerVesicle / 80_047 - 1)).toBeLessThan(0.001);
  });

  it("comes near the published count of a 70 nm vesicle rich in cholesterol", () => {
    // Skotland, Sandvig & Llorente, Prog. Lipid Res. 66 (2017) 30: 60 000, at 0.4 to 0.5 nm². seen
    const small = { ...PAPER, outerDiameter: 70e-9, areaPerLipid: 0.45e-18 };
    expect(Math.abs(vesicleContents(small).lipidsPerVesicle / 60_000 - 1)).toBeLessThan(0.02);
  });

  // Shell geometry, 4 nm, 0.70 nm², L/mol. computed
  it.each([
    [30, 0.5405],
    [100, 2.963],
    [200, 6.4696],
  ])("captures, at %d nm, %d L for each mole of lipid", (nanometres, litres) => {
    const { capturedVolume } = vesicleContents({ ...VESICLE, outerDiameter: nanometres * 1e-9 });
    expect(Math.abs((1000 * capturedVolume) / litres - 1)).toBeLessThan(0.001);
  });

  it("captures 3 % less with the thicker bilayer", () => {
    // Shell geometry, 5 nm, 0.71 nm²: 2.8702 L/mol. computed
    expect(1000 * vesicleContents(PAPER).capturedVolume).toBeCloseTo(2.8702, 3);
  });

  it("comes to what was measured on vesicles of one layer", () => {
    const litres = (nanometres: number) =>
      vesicleContents({ ...VESICLE, outerDiameter: nanometres * 1e-9 }).capturedVolume;
    // Sonicated, 25 to 50 nm; extruded, 60 to 100 nm; reverse phase, some 400 nm. memory
    const { sonicated, extruded, reversePhase } = MEASURED_CAPTURED_VOLUME;
    expect(litres(25)).toBeGreaterThan(sonicated.low);
    expect(litres(25)).toBeLessThan(sonicated.high);
    expect(litres(90)).toBeGreaterThan(extruded.low);
    expect(litres(90)).toBeLessThan(extruded.high);
    expect(litres(400)).toBeGreaterThan(reversePhase.low);
    expect(litres(400)).toBeLessThan(reversePhase.high);
  });

  it("captures in proportion to its size once the bilayer is thin beside it: V/N → R a/6", () => {
    const { capturedVolume } = vesicleContents({ ...VESICLE, outerDiameter: 10e-6 });
    expect(capturedVolume / ((5e-6 * 0.7e-18 * AVOGADRO) / 6)).toBeCloseTo(1, 2);
  });

  it("shares a kilogram of lipid out among its vesicles", () => {
    const { lipidsPerVesicle, vesiclesPerLipidMass } = vesicleContents(VESICLE);
    expect((lipidsPerVesicle * vesiclesPerLipidMass * 0.77) / AVOGADRO).toBeCloseTo(1, 12);
  });

  it("adds a layer as the next smaller vesicle inside", () => {
    const two = vesicleContents({ ...VESICLE, layers: 2 });
    const outer = vesicleContents(VESICLE);
    const inside = vesicleContents({ ...VESICLE, outerDiameter: 100e-9 - 2 * (4e-9 + 2.05e-9) });
    expect(two.lipidsPerVesicle).toBeCloseTo(outer.lipidsPerVesicle + inside.lipidsPerVesicle, 6);
    const bilayer = (Math.PI / 6) * (100e-9 - 12.1e-9) ** 3 - inside.internalVolume;
    expect((outer.internalVolume - bilayer) / two.internalVolume).toBeCloseTo(1, 12);
  });

  it("holds nothing where the bilayer reaches the middle", () => {
    const solid = { ...VESICLE, outerDiameter: 20e-9, bilayerThickness: 8e-9 };
    expect(vesicleContents(solid).internalVolume).toBeGreaterThan(0);
    const { quantity } = refusal(() => vesicleContents({ ...solid, bilayerThickness: 10.1e-9 }));
    expect(quantity).toBe("bilayerThickness");
  });

  it("holds less for each mole with every layer, and never less than nothing", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20e-9, max: 2e-6, noNaN: true }),
        fc.double({ min: 2e-9, max: 8e-9, noNaN: true }),
        fc.double({ min: 0, max: 10e-9, noNaN: true }),
        (outerDiameter, bilayerThickness, waterGap) => {
          const vesicle = { ...VESICLE, outerDiameter, bilayerThickness, waterGap };
          const most = mostLayers(vesicle);
          let before = Infinity;
          for (const layers of new Set([1, Math.ceil(most / 2), most])) {
            const { capturedVolume } = vesicleContents({ ...vesicle, layers });
            expect(capturedVolume).toBeGreaterThanOrEqual(0);
            expect(capturedVolume).toBeLessThan(before);
            before = capturedVolume;
          }
        },
      ),
      { seed: 77, numRuns: 300 },
    );
  });

  it("refuses more layers than fit, and says how many do", () => {
    const most = mostLayers(VESICLE);
    expect(() => vesicleContents({ ...VESICLE, layers: most })).not.toThrow();
    const { quantity, limits } = refusal(() => vesicleContents({ ...VESICLE, layers: most + 1 }));
    expect(quantity).toBe("layers");
    expect(limits.max).toBe(most);
  });

  it("has room for a layer of the thickest bilayer in the smallest vesicle", () => {
    const { outerDiameter, bilayerThickness } = VESICLE_LIMITS;
    const tight = {
      ...VESICLE,
      outerDiameter: outerDiameter.min,
      bilayerThickness: bilayerThickness.max,
      layers: 1,
    };
    expect(mostLayers(tight)).toBe(1);
    expect(vesicleContents(tight).internalVolume).toBeGreaterThan(0);
  });

  it.each([Number.NaN, 19e-9])("counts no layers in %d m", (outerDiameter) => {
    expect(() => mostLayers({ ...VESICLE, outerDiameter })).toThrow(/^outerDiameter must/);
  });

  it("refuses half a layer", () => {
    expect(() => vesicleContents({ ...VESICLE, layers: 1.5 })).toThrow(TypeError);
  });

  it.each([
    ["outerDiameter", 19e-9],
    ["outerDiameter", 10.1e-6],
    ["outerDiameter", Number.NaN],
    ["bilayerThickness", 1.9e-9],
    ["bilayerThickness", 8.1e-9],
    ["areaPerLipid", 0.29e-18],
    ["areaPerLipid", 1.01e-18],
    ["lipidMolarMass", 0.29],
    ["lipidMolarMass", 1.51],
    ["layers", 0],
    ["layers", Number.NaN],
    ["waterGap", -1e-10],
    ["waterGap", 101e-9],
  ])("refuses a %s of %d", (quantity, value) => {
    expect(refusal(() => vesicleContents({ ...VESICLE, [quantity]: value })).quantity).toBe(
      quantity,
    );
  });
});

describe("mostLayers(vesicle)", () => {
  it("counts what just fits as fitting", () => {
    // 3 layers of 4 nm and 2 gaps of 2 nm: 16 nm of radius.
    const tight = { ...VESICLE, waterGap: 2e-9 };
    expect(mostLayers({ ...tight, outerDiameter: 32e-9 })).toBe(3);
    expect(mostLayers({ ...tight, outerDiameter: 31.9e-9 })).toBe(2);
    expect(
      vesicleContents({ ...tight, outerDiameter: 32e-9, layers: 3 }).internalVolume,
    ).toBeGreaterThan(0);
  });
});

const SOLUTION = {
  lecithinConcentration: 60,
  phospholipidShare: 0.6,
  ascorbicAcidConcentration: 100,
};

describe("entrapment(dispersion, vesicle)", () => {
  it("encloses captured volume times lipid", () => {
    // 2.870 L/mol and 10 mmol/L: 2.87 %. computed, by the definition
    const tenMillimolar = { ...SOLUTION, lecithinConcentration: 10 * 0.77, phospholipidShare: 1 };
    expect(entrapment(tenMillimolar, PAPER).enclosedVolume).toBeCloseTo(0.0287, 4);
  });

  it("bounds the acid by the share of what is not bilayer", () => {
    const { enclosedVolume, entrapmentBound, entrappedConcentration } = entrapment(
      SOLUTION,
      VESICLE,
    );
    expect(entrapmentBound).toBeGreaterThan(enclosedVolume);
    // Bilayer is some 1 mL for each gram of its lipid.
    expect(enclosedVolume / entrapmentBound).toBeCloseTo(1 - 0.04, 2);
    expect(entrappedConcentration).toBeCloseTo(100 * entrapmentBound, 12);
  });

  it("is in proportion to lecithin and to what of it is phospholipid", () => {
    const { enclosedVolume } = entrapment(SOLUTION, VESICLE);
    expect(
      entrapment({ ...SOLUTION, lecithinConcentration: 30 }, VESICLE).enclosedVolume,
    ).toBeCloseTo(enclosedVolume / 2, 12);
    expect(entrapment({ ...SOLUTION, phospholipidShare: 0.3 }, VESICLE).enclosedVolume).toBeCloseTo(
      enclosedVolume / 2,
      12,
    );
  });

  it("encloses nothing without lecithin", () => {
    const none = entrapment({ ...SOLUTION, lecithinConcentration: 0 }, VESICLE);
    expect(none.entrapmentBound).toBe(0);
    expect(none.lamellarity.fewest).toEqual({ layers: 1, entrapmentBound: 0 });
  });

  it("stays far below what is reported from laboratories, at a home's amounts", () => {
    // Yang et al. (2010), 25 g of lipid a gram of vitamin: 42.1 %; Romano et al. (2024): more than 80 %. seen
    expect(entrapment(SOLUTION, VESICLE).entrapmentBound).toBeLessThan(0.2);
  });

  it("says the bound at every number of layers, from one to as many as fit", () => {
    const { lamellarity, entrapmentBound } = entrapment(SOLUTION, VESICLE);
    expect(lamellarity.fewest).toEqual({ layers: 1, entrapmentBound });
    expect(lamellarity.most.layers).toBe(mostLayers(VESICLE));
    expect(lamellarity.most.entrapmentBound).toBeLessThan(entrapmentBound);
  });

  it("refuses vesicles that take up more of the liquid than balls can", () => {
    const large = { ...VESICLE, outerDiameter: 600e-9 };
    const { quantity, limits } = refusal(() => entrapment(SOLUTION, large));
    expect(quantity).toBe("lecithinConcentration");
    const fits = { ...SOLUTION, lecithinConcentration: limits.max * (1 - 1e-12) };
    expect(() => entrapment(fits, large)).not.toThrow();
    // With the share of bilayer in an outer shell of 4 nm in 300: the water is (296/300)³ of the ball.
    expect(entrapment(fits, large).enclosedVolume).toBeCloseTo(
      DENSEST_PACKING * (296 / 300) ** 3,
      9,
    );
  });

  it("begins with as many layers as make the vesicles few enough for the liquid", () => {
    const large = { ...VESICLE, outerDiameter: 1000e-9, layers: 40 };
    const { fewest, most } = entrapment(SOLUTION, large).lamellarity;
    expect(fewest.layers).toBeGreaterThan(1);
    expect(() => entrapment(SOLUTION, { ...large, layers: fewest.layers })).not.toThrow();
    expect(() => entrapment(SOLUTION, { ...large, layers: fewest.layers - 1 })).toThrow(
      OutOfRangeError,
    );
    expect(most.entrapmentBound).toBeLessThan(fewest.entrapmentBound);
  });

  it.each([
    ["lecithinConcentration", -1],
    ["lecithinConcentration", 401],
    ["lecithinConcentration", Number.NaN],
    ["phospholipidShare", 0],
    ["phospholipidShare", 1.01],
    ["ascorbicAcidConcentration", -1],
    ["ascorbicAcidConcentration", 401],
  ])("refuses a %s of %d", (quantity, value) => {
    expect(refusal(() => entrapment({ ...SOLUTION, [quantity]: value }, VESICLE)).quantity).toBe(
      quantity,
    );
  });

  it("refuses what the geometry refuses", () => {
    expect(refusal(() => entrapment(SOLUTION, { ...VESICLE, layers: 99 })).quantity).toBe("layers");
  });
});
