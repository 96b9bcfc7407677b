import { describe, expect, it } from "vitest";
import { fullStress, stressFraction, wallTemperature } from "../../../lib/laws/thermal-stress.ts";
import { GLASSES, glassValues } from "../../../lib/substances/glass.ts";
import { cautionsOf, evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATCH = {
  glass: "borosilicate-3.3",
  temperatureStep: 100,
  wallThickness: 1.5e-3,
  heatTransferCoefficient: 1000,
  permissibleStress: 7e6,
  cooledFaces: "one",
};
const with_ = (moved: object) => ({ ...BATCH, ...moved });
const INFINITE = 1e9;

describe("thermal-stress", () => {
  it("takes the top of heat transfer for a face that changes at once", () => {
    // E α ΔT / (1 − ν) for E 64 GPa, α 3.3e-6, ν 0.2, 100 K. computed
    const values = valuesOf("thermal-stress", with_({ heatTransferCoefficient: INFINITE }));
    expect(values["stress"]).toBeCloseTo(26.4e6, -2);
    expect(values["attenuation"]).toBe(1);
    expect(values["timeOfPeak"]).toBe(0);
    expect(values).not.toHaveProperty("biot");
    const almost = valuesOf("thermal-stress", with_({ heatTransferCoefficient: INFINITE / 1e3 }));
    expect(almost["stress"]! / 26.4e6).toBeCloseTo(1, 1);
    expect(almost["biot"]).toBeGreaterThan(1000);
  });

  it("reaches what is allowed at the largest step, at the rim and away from it", () => {
    const { largestStep, largestStepAtRim } = valuesOf("thermal-stress", BATCH);
    const away = valuesOf("thermal-stress", with_({ temperatureStep: largestStep }));
    expect(away["stress"]).toBeCloseTo(7e6, 2);
    const rim = valuesOf("thermal-stress", with_({ temperatureStep: largestStepAtRim }));
    expect(rim["rimStress"]).toBeCloseTo(7e6, 2);
    expect(rim["largestTension"]).toBe(rim["rimStress"]);
    expect(away["safetyFactor"]).toBeCloseTo(1, 9);
  });

  it("presses the heated face and pulls at the other, about half as hard as cooling would", () => {
    const cooled = valuesOf("thermal-stress", BATCH);
    const heated = valuesOf("thermal-stress", with_({ temperatureStep: -100 }));
    expect(heated["stress"]).toBeCloseTo(-cooled["stress"]!, 6);
    expect(heated["farFaceStress"]).toBeGreaterThan(0);
    expect(heated["farFaceStress"]! / cooled["stress"]!).toBeCloseTo(0.49, 2);
    expect(heated["wallTension"]).toBe(heated["farFaceStress"]);
    expect(heated["rimStress"]).toBeLessThan(0);
  });

  it.each([10, 1000, 20_000, INFINITE])(
    "bounds a heated wall’s rim, closely, at %d W/(m² K)",
    (film) => {
      // The rim bears (1 − ν) of the face’s tension and √((1 − ν²)/3) of the bending share of the profile,
      // here summed over the wall at many times.
      const values = valuesOf(
        "thermal-stress",
        with_({ temperatureStep: -100, heatTransferCoefficient: film }),
      );
      const nu = values["poissonRatioInUse"]!;
      const biot = values["biot"] ?? Infinity;
      const slices = 100;
      const atRim = (fourier: number): number => {
        let bending = 0;
        for (let i = 0; i < slices; i++) {
          const x = (i + 0.5) / slices;
          bending -= (6 * wallTemperature(biot, fourier, x) * (x - 0.5)) / slices;
        }
        const far = -stressFraction(biot, fourier, 0);
        return (1 - nu) * far + Math.sqrt((1 - nu ** 2) / 3) * bending;
      };
      const times = Array.from({ length: 150 }, (_, i) => 0.05 * 1.02 ** i);
      const most = Math.max(...times.map(atRim)) * -values["fullStress"]!;
      const ratio = values["largestTension"]! / most;
      expect(ratio).toBeGreaterThan(1);
      expect(ratio).toBeLessThan(1.02);
    },
  );

  it("takes the rim’s factor for a straight slope where contents hold the other face", () => {
    const cold = valuesOf("thermal-stress", with_({ temperatureStep: -100, cooledFaces: "full" }));
    expect(cold["largestTension"]).toBeCloseTo(cold["rimFactor"]! * cold["farFaceStress"]!, 6);
  });

  it("counts half the wall where both faces are cooled", () => {
    const both = valuesOf("thermal-stress", with_({ cooledFaces: "both" }));
    const thin = valuesOf("thermal-stress", with_({ wallThickness: 0.75e-3 }));
    expect(both["biot"]).toBe(thin["biot"]);
    expect(both["stress"]).toBe(thin["stress"]);
  });

  it("pulls harder where contents keep the other face warm, and does not pass", () => {
    const held = valuesOf("thermal-stress", with_({ cooledFaces: "full" }));
    expect(held["stress"]).toBeGreaterThan(valuesOf("thermal-stress", BATCH)["stress"]!);
    expect(held).not.toHaveProperty("timeOfPeak");
    // At a Biot number of 1.25 nothing exceeds the steady slope between the faces, whose middle is half way.
    const glass = glassValues(GLASSES["borosilicate-3.3"]);
    expect(held["stress"]).toBeCloseTo(fullStress(glass, (100 * 1.25) / 2.25) / 2, 0);
    expect(held["farFaceStress"]).toBeCloseTo(-held["stress"]!, 0);
  });

  it("uses own values only where the glass is one’s own", () => {
    const moved = { elasticModulus: 100e9, expansion: 6e-6 };
    expect(valuesOf("thermal-stress", with_(moved))).toEqual(valuesOf("thermal-stress", BATCH));
    const own = valuesOf("thermal-stress", with_({ ...moved, glass: "own" }));
    expect(own["fullStress"]).toBeCloseTo(
      fullStress({ modulus: 100e9, expansion: 6e-6, poissonRatio: 0.2 }, 100),
      3,
    );
  });

  it("bands a glass by the spread of its sources", () => {
    const { rimFactor, expansionInUse } = evaluated("thermal-stress", BATCH).values;
    expect(expansionInUse).toEqual({ value: 3.3e-6, low: 3.2e-6, high: 3.4e-6 });
    expect(rimFactor!.low).toBeLessThan(rimFactor!.value);
    const own = evaluated("thermal-stress", with_({ glass: "own" })).values["rimFactor"]!;
    expect(own.low).toBe(own.high);
  });

  it("has no safety factor where nothing is pulled", () => {
    expect(valuesOf("thermal-stress", with_({ temperatureStep: 0 }))).not.toHaveProperty(
      "safetyFactor",
    );
  });

  it("warns from what is allowed at the rim on, and not before", () => {
    const { largestStepAtRim } = valuesOf("thermal-stress", BATCH);
    const at = (share: number) =>
      cautionsOf("thermal-stress", with_({ temperatureStep: largestStepAtRim! * share }));
    expect(at(1 - 1e-6)).toEqual([]);
    expect(at(1 + 1e-6)).toEqual(["glass"]);
  });

  it("blames heat transfer where a wall conducts too well for the formula", () => {
    const metal = with_({ glass: "own", conductivity: 400, heatTransferCoefficient: 2 });
    expect(refusalsOf("thermal-stress", metal).map(({ input }) => input)).toEqual([
      "heatTransferCoefficient",
    ]);
  });
});
