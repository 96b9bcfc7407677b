import { describe, expect, it } from "vitest";
import { AVOGADRO } from "../../../lib/laws/vesicle.ts";
import {
  AREA_PER_LIPID,
  BILAYER_THICKNESS,
  FLUID_FROM,
  LIPID_MOLAR_MASS,
  MEASURED_CAPTURED_VOLUME,
  PHOSPHOLIPID_SHARE,
  REPORTED_ENTRAPMENT,
} from "../../../lib/substances/lecithin.ts";

describe("PHOSPHOLIPID_SHARE", () => {
  // Szuhaj, Bailey's Industrial Oil and Fat Products (2005) Table 17: PC 16, PE 14, PI 10. seen (quoted)
  // EFSA (2017), summarised: PC 21, PE 22, PI 10, PA 12 of de-oiled soy, one table with PI 19. seen (quoted)
  // EFSA J. 15 (2017) 4742: PC 13 to 17, PE 4 to 8, PI 11 to 15. memory
  it.each([
    ["soyFluid", 16 + 14 + 10, 16 + 14 + 10],
    ["soyDeoiled", 20 + 22 + 10 + 12, 23 + 22 + 19],
    ["sunflowerFluid", 13 + 4 + 11, 17 + 8 + 15],
  ] as const)("holds the published sums of %s", (kind, low, high) => {
    expect(PHOSPHOLIPID_SHARE[kind].low).toBeLessThanOrEqual(low / 100);
    expect(PHOSPHOLIPID_SHARE[kind].high).toBeGreaterThanOrEqual(high / 100);
  });

  it("is more once the oil is out, and never all of it", () => {
    for (const [fluid, deoiled] of [
      ["soyFluid", "soyDeoiled"],
      ["sunflowerFluid", "sunflowerDeoiled"],
    ] as const)
      expect(PHOSPHOLIPID_SHARE[deoiled].low).toBeGreaterThanOrEqual(
        PHOSPHOLIPID_SHARE[fluid].high,
      );
    for (const { high } of Object.values(PHOSPHOLIPID_SHARE)) expect(high).toBeLessThan(1);
  });
});

describe("the bilayer's figures", () => {
  it("hold those of dipalmitoyl-PC, whose area is twice its volume over its thickness", () => {
    // Nagle & Tristram-Nagle, Int. J. Mol. Sci. 13 (2012) 11610, Table 1, 50 °C: V 1.232 nm³, D 3.85 nm, A
    // 0.64 nm². seen. Saturated chains pack a little closer than the unsaturated ones of the band.
    expect((2 * 1.232) / 3.85).toBeCloseTo(0.64, 3);
    expect(AREA_PER_LIPID.low).toBeGreaterThan(0.64e-18);
    expect(BILAYER_THICKNESS.low).toBe(3.85e-9);
    expect(BILAYER_THICKNESS.high).toBeGreaterThan(4.65e-9);
  });

  it("agree with how much room a gram takes", () => {
    // Hydrated phosphatidylcholine, 0.98 mL/g. memory
    const room = (area: number, thickness: number, mass: number) =>
      (area * thickness * AVOGADRO) / 2 / mass;
    expect(room(AREA_PER_LIPID.low, BILAYER_THICKNESS.low, LIPID_MOLAR_MASS.high)).toBeLessThan(
      0.98e-3,
    );
    expect(room(AREA_PER_LIPID.high, BILAYER_THICKNESS.high, LIPID_MOLAR_MASS.low)).toBeGreaterThan(
      0.98e-3,
    );
  });

  it("have a molar mass between palmitoyl-linoleoyl and dilinoleoyl", () => {
    // C 12.011, H 1.008, N 14.007, O 15.999, P 30.974. computed; 782.1 and 758.075 g/mol
    const mass = (carbon: number, hydrogen: number) =>
      carbon * 12.011 + hydrogen * 1.008 + 14.007 + 8 * 15.999 + 30.974;
    expect(mass(44, 80)).toBeCloseTo(782.1, 1);
    expect(1000 * LIPID_MOLAR_MASS.high).toBeCloseTo(mass(44, 80), 0);
    expect(1000 * LIPID_MOLAR_MASS.low).toBeCloseTo(mass(42, 80), 0);
  });

  it("are fluid in a fridge, but for saturated chains", () => {
    const { dipalmitoyl, ...plant } = FLUID_FROM;
    for (const temperature of Object.values(plant)) expect(temperature).toBeLessThan(0);
    expect(dipalmitoyl).toBeGreaterThan(40);
  });
});

describe("the measured figures", () => {
  it.each([
    ["captured volumes", MEASURED_CAPTURED_VOLUME],
    ["entrapments", REPORTED_ENTRAPMENT],
  ])("of %s are ranges with a source", (_, figures) => {
    for (const { low, high, source, conditions } of Object.values(figures)) {
      expect(low).toBeLessThanOrEqual(high);
      expect(source + conditions).toMatch(/\d/);
    }
  });
});
