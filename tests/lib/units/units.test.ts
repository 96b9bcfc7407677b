import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  fromSI,
  siUnit,
  toSI,
  UnknownUnitError,
  unitOf,
  UNITS,
  type Dimension,
} from "../../../lib/units/units.ts";

const dimensions = Object.keys(UNITS) as Dimension[];
const every = dimensions.flatMap((dimension) =>
  Object.keys(UNITS[dimension]).map((unit) => [dimension, unit] as const),
);

describe("toSI(shown, dimension, unit) and fromSI", () => {
  it.each(every)("undo each other for %s in %s", (dimension, unit) => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter((x) => Math.abs(x) > 1e-6),
        (x) => {
          // Beside the offset of a temperature scale a small number keeps fewer digits of its own.
          const size = Math.abs(x) + Math.abs(toSI(0, dimension, unit));
          const there = fromSI(toSI(x, dimension, unit), dimension, unit);
          const back = toSI(fromSI(x, dimension, unit), dimension, unit);
          expect(Math.abs(there - x)).toBeLessThanOrEqual(1e-12 * size);
          expect(Math.abs(back - x)).toBeLessThanOrEqual(1e-12 * size);
        },
      ),
      { seed: 1, numRuns: 200 },
    );
  });

  // Exact by definition: NIST Handbook 44, Appendix C; a gallon of 231 cubic inches is 128 fl oz. memory
  it.each([
    ["mass", "lb", 0.45359237],
    ["mass", "oz", 0.45359237 / 16],
    ["mass", "mg", 1e-6],
    ["volume", "fl oz", (231 * 0.0254 ** 3) / 128],
    ["volume", "L", 1e-3],
    ["volume", "mL", 1e-6],
    ["strength", "% vol", 0.01],
    ["strength", "US proof", 0.005],
    ["density", "g/mL", 1000],
    ["concentration", "g/100 mL", 10],
    ["specificVolume", "mL/g", 1e-3],
  ] as const)("count one %s in %s as it is defined", (dimension, unit, si) => {
    expect(toSI(1, dimension, unit) / si).toBeCloseTo(1, 12);
  });

  it.each([
    [32, 0],
    [212, 100],
    [68, 20],
    [-40, -40],
    [60, 140 / 9],
  ])("put %d °F at %d °C", (fahrenheit, celsius) => {
    expect(toSI(fahrenheit, "temperature", "°F")).toBeCloseTo(celsius, 12);
    expect(fromSI(celsius, "temperature", "°F")).toBeCloseTo(fahrenheit, 12);
  });

  it("leave the offset out of a temperature difference", () => {
    expect(toSI(9, "temperatureDifference", "°F")).toBeCloseTo(5, 12);
    expect(toSI(0, "temperatureDifference", "°F")).toBe(0);
  });
});

describe("UNITS", () => {
  it.each(dimensions)("%s begins with its SI unit", (dimension) => {
    expect(toSI(1, dimension, siUnit(dimension))).toBe(1);
  });

  it.each(every)("%s in %s has a name, a factor above nothing and lower-case aliases", (d, u) => {
    const unit = unitOf(d, u);
    expect(unit.factor).toBeGreaterThan(0);
    if (u !== "1") expect(unit.name).not.toBe("");
    for (const alias of unit.aliases ?? []) expect(alias).toBe(alias.toLowerCase());
    for (const alias of unit.aliases ?? []) expect(alias).not.toMatch(/\s/);
  });

  it.each(dimensions)("%s spells no two units alike", (dimension) => {
    const spelled = Object.keys(UNITS[dimension]).flatMap((id) => {
      const { symbol, aliases = [] } = unitOf(dimension, id);
      const plain = (text: string): string => text.toLowerCase().replaceAll(/\s/g, "");
      return [...new Set([plain(id), plain(symbol), ...aliases])];
    });
    expect(spelled.filter((text, i) => spelled.indexOf(text) !== i)).toEqual([]);
  });
});

describe("unitOf(dimension, id)", () => {
  it.each(["furlong", "toString", "", "G"])("refuses “%s”, listing what there is", (id) => {
    expect(() => unitOf("mass", id)).toThrow(UnknownUnitError);
    expect(() => unitOf("mass", id)).toThrow(/kg, g, mg/);
  });
});
