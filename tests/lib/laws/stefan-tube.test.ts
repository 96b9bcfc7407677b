import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  GAS_CONSTANT,
  stagnantAirFactor,
  stefanFlux,
  stefanMassRate,
} from "../../../lib/laws/stefan-tube.ts";

const MMHG = 133.322;
const TUBE = { diffusivity: 1.2253e-5, length: 0.1, temperature: 25, pressure: 101_325 };

describe("stefanFlux(tube, atSurface, outside)", () => {
  it("dries water from a narrow tube as in the textbook", () => {
    // Geankoplis, Transport Processes and Separation Process Principles, example 6.2-2: 1.595e-7 kmol/(m²
    // s). seen (inputs), memory (printed answer)
    const tube = {
      diffusivity: 0.25e-4,
      length: 0.1524,
      temperature: 293 - 273.15,
      pressure: 101_325,
    };
    const flux = stefanFlux(tube, 17.54 * MMHG, 0);
    expect(Math.abs(flux / 1.595e-4 - 1)).toBeLessThan(0.002);
  });

  it("gives the diffusivity of toluene back from a falling level", () => {
    // A mass-transfer textbook, example 2.21: 8.05e-6 m²/s; 303 K, 57 mmHg, 820 kg/m³, 275 h, 20 to 77.5 mm.
    // seen The flux goes with one over the length, so the mean length gives the mean flux.
    const [from, to] = [0.02, 0.0775];
    const tube = {
      ...TUBE,
      diffusivity: 8.05e-6,
      length: (from + to) / 2,
      temperature: 29.85,
      pressure: 101_300,
    };
    const fallen = (stefanFlux(tube, 57 * MMHG, 0) * 0.092 * 275 * 3600) / 820;
    expect(Math.abs(fallen / (to - from) - 1)).toBeLessThan(0.005);
  });

  it("gives the diffusivity of carbon tetrachloride in oxygen", () => {
    // Bird, Stewart & Lightfoot, Transport Phenomena, example 18.2-2: 6.36e-6 m²/s printed, 6.28e-6 from the
    // inputs. memory
    const tube = { diffusivity: 6.28e-6, length: 0.171, temperature: -0.15, pressure: 755 * MMHG };
    const evaporated = stefanFlux(tube, 33 * MMHG, 0) * 0.82e-4 * 36_000 * 0.1538;
    expect(Math.abs(evaporated / (0.0208e-6 * 1590) - 1)).toBeLessThan(0.01);
  });

  it("is 4.05e-4 mol/(m² s) for pure ethanol in a tube of 10 cm", () => {
    // The formula elsewhere. computed
    expect(Math.abs(stefanFlux(TUBE, 7876.4, 0) / 4.05279e-4 - 1)).toBeLessThan(0.001);
  });

  it("is plain diffusion for a trace, and changes sign with the ends", () => {
    const plain = TUBE.diffusivity / (TUBE.length * GAS_CONSTANT * 298.15);
    expect(stefanFlux(TUBE, 1e-6, 0) / (plain * 1e-6)).toBeCloseTo(1, 10);
    expect(stefanFlux(TUBE, 0, 5000)).toBeCloseTo(-stefanFlux(TUBE, 5000, 0), 15);
    expect(stefanFlux(TUBE, 3000, 3000)).toBe(0);
  });

  it("adds up along the tube", () => {
    // What passes two halves one after the other is what passes the whole.
    const half = { ...TUBE, length: TUBE.length / 2 };
    const between = TUBE.pressure - Math.sqrt((TUBE.pressure - 40e3) * TUBE.pressure);
    expect(stefanFlux(half, 40e3, between)).toBeCloseTo(stefanFlux(half, between, 0), 12);
    expect(stefanFlux(half, between, 0)).toBeCloseTo(stefanFlux(TUBE, 40e3, 0), 12);
  });

  it.each([
    ["diffusivity", [0, -1e-5, 2e-3]],
    ["length", [0, -1, 11]],
    ["temperature", [-51, 201]],
    ["pressure", [0, 49e3, 501e3]],
  ] as const)("refuses a wrong %s", (name, values) => {
    for (const value of [...values, Number.NaN])
      expect(() => stefanFlux({ ...TUBE, [name]: value }, 5000, 0)).toThrow(OutOfRangeError);
  });
});

describe("stagnantAirFactor(pressure, atSurface, outside)", () => {
  it("is the pressure over the logarithmic mean of the air's", () => {
    const [p, p1, p2] = [101_325, 30e3, 2e3];
    const mean = (p1 - p2) / Math.log((p - p2) / (p - p1));
    expect(stagnantAirFactor(p, p1, p2)).toBeCloseTo(p / mean, 12);
    expect(stagnantAirFactor(p, p2, p1)).toBeCloseTo(p / mean, 12);
  });

  it("is 1 without vapour and grows without bound towards boiling", () => {
    expect(stagnantAirFactor(101_325, 0, 0)).toBe(1);
    expect(stagnantAirFactor(101_325, 5000, 5000)).toBeCloseTo(101_325 / 96_325, 14);
    expect(stagnantAirFactor(101_325, 101_324.8, 0)).toBeGreaterThan(13);
  });

  it.each([
    [101_325, 101_325, 0],
    [101_325, -1, 0],
    [101_325, 0, 101_325],
    [101_325, 0, -1],
    [101_325, Number.NaN, 0],
    [101_325, 0, Number.NaN],
    [Number.NaN, 0, 0],
  ])("refuses %d, %d and %d Pa", (pressure, atSurface, outside) => {
    expect(() => stagnantAirFactor(pressure, atSurface, outside)).toThrow(OutOfRangeError);
  });
});

describe("stefanMassRate(tube, atSurface, outside, area, molarMass)", () => {
  it("is the flux times area and molar mass", () => {
    const rate = stefanMassRate(TUBE, 7876.4, 0, 1e-4, 0.046068);
    expect(rate).toBeCloseTo(stefanFlux(TUBE, 7876.4, 0) * 1e-4 * 0.046068, 18);
  });

  it("refuses no area and no mass", () => {
    for (const area of [0, -1, 1.1, Number.NaN])
      expect(() => stefanMassRate(TUBE, 5000, 0, area, 0.046)).toThrow(OutOfRangeError);
    for (const molarMass of [0, -1, 46, Number.NaN])
      expect(() => stefanMassRate(TUBE, 5000, 0, 1e-4, molarMass)).toThrow(OutOfRangeError);
  });
});
