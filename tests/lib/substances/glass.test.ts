import { describe, expect, it } from "vitest";
import { GLASSES, glassValues, PERMISSIBLE_TENSION } from "../../../lib/substances/glass.ts";

const every = Object.entries(GLASSES).flatMap(([name, glass]) =>
  Object.entries(glass).map(([property, values]) => ({ name, property, ...values })),
);

describe("GLASSES", () => {
  it.each(every)(
    "$name: $property lies in its band and says its source",
    ({ low, value, high, source }) => {
      expect(low).toBeGreaterThan(0);
      expect(low).toBeLessThanOrEqual(value);
      expect(value).toBeLessThanOrEqual(high);
      expect(source).toMatch(/\b(seen|memory)\b/);
    },
  );

  it("holds what the sheets on borosilicate 3.3 print", () => {
    const { modulus, expansion, conductivity, density, specificHeat } = GLASSES["borosilicate-3.3"];
    // Property sheets citing ISO 7991 and EN 1595: 63 (tubing) and 64 GPa (pressed, floated). seen
    expect([modulus.low, modulus.high]).toEqual([63e9, 64e9]);
    // The same: (3.3 ± 0.1) × 10⁻⁶/K, 2.23 g/cm³, 1.2 W/(m K). seen
    expect([expansion.value, density.value, conductivity.value]).toEqual([3.3e-6, 2230, 1.2]);
    // An open data record of a floated 3.3 glass: 3.25 × 10⁻⁶/K. seen
    expect(expansion.low).toBeLessThanOrEqual(3.25e-6);
    // Process-plant handbooks: 800 to 900 J/(kg K). memory
    expect([specificHeat.low, specificHeat.high]).toEqual([800, 900]);
  });

  it("gives borosilicate a diffusivity that a database prints", () => {
    const { conductivity, density, specificHeat } = glassValues(GLASSES["borosilicate-3.3"]);
    const diffusivity = conductivity / (density * specificHeat);
    // Material property database, borosilicate glass: 0.56 to 0.66 mm²/s. seen
    expect(diffusivity).toBeGreaterThan(0.56e-6);
    expect(diffusivity).toBeLessThan(0.66e-6);
  });

  it.each([
    // Callister & Rethwisch, Materials Science and Engineering, Appendix B. seen
    ["soda-lime", 69e9, 9e-6, 1.7],
    ["fused-silica", 73e9, 4e-7, 1.4],
  ] as const)(
    "holds a textbook's %s within its bands",
    (name, modulus, expansion, conductivity) => {
      const glass = GLASSES[name];
      for (const [property, value] of [
        [glass.modulus, modulus],
        [glass.expansion, expansion],
        [glass.conductivity, conductivity],
      ] as const) {
        expect(property.low).toBeLessThanOrEqual(value);
        expect(property.high).toBeGreaterThanOrEqual(value);
      }
    },
  );

  it("holds an open data record of fused silica", () => {
    // refractiveindex.info, fused silica (CC0). seen
    expect(glassValues(GLASSES["fused-silica"])).toMatchObject({
      density: 2203,
      modulus: 73.1e9,
      poissonRatio: 0.17,
      expansion: 5.5e-7,
      conductivity: 1.38,
    });
  });
});

describe("PERMISSIBLE_TENSION", () => {
  it("is 70 bar", () => {
    // EN 1595 K/S, quoted on a borosilicate 3.3 property sheet. seen
    expect(PERMISSIBLE_TENSION).toBe(70 * 1e5);
  });
});

describe("glassValues(glass)", () => {
  it("takes the middle value of every property", () => {
    const glass = GLASSES["soda-lime"];
    const values = glassValues(glass);
    expect(Object.keys(values).sort()).toEqual(Object.keys(glass).sort());
    for (const [property, { value }] of Object.entries(glass))
      expect(values).toHaveProperty(property, value);
  });
});
