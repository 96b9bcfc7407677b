import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  bubbleRise,
  hadamardRybczynskiSpeed,
  resonance,
  resonanceRadius,
  stokesSpeed,
  WATER_TENSION,
  type Surface,
} from "../../../lib/laws/bubble.ts";

const WATER = { viscosity: 1.002e-3, density: 998.2 };
const AIR = 1.204;
const AIR_VISCOSITY = 1.82e-5;
const bubble = (micrometres: number) => ({ diameter: micrometres * 1e-6, density: AIR });

function refusal(run: () => unknown): OutOfRangeError {
  try {
    run();
  } catch (error) {
    if (error instanceof OutOfRangeError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

/** Within a share of the published figure. */
function expectNear(ours: number, published: number, share: number): void {
  expect(Math.abs(ours / published - 1)).toBeLessThan(share);
}

describe("stokesSpeed(sphere, liquid)", () => {
  it("agrees with a school's worked example", () => {
    // A physics exercise: radius 0.1 mm, 0.0035 Pa s, 1000 kg/m³, g 9.8, gas neglected; printed 6.2e-3. seen
    const ours = stokesSpeed({ diameter: 2e-4, density: 1 }, { viscosity: 0.0035, density: 1000 });
    expectNear(ours, 0.006222, 0.005);
  });

  it("gives a 100 µm bubble in water 5.421 mm/s, and a millimetre in syrup 5.551", () => {
    // The formula, water at 20 °C; 0.1 Pa s and 1020 kg/m³. computed
    expectNear(stokesSpeed(bubble(100), WATER), 5.421e-3, 0.002);
    expectNear(stokesSpeed(bubble(1000), { viscosity: 0.1, density: 1020 }), 5.551e-3, 0.002);
  });

  it("creams an oil drop", () => {
    // 100 µm, oil of 920 kg/m³: 0.42519 mm/s. computed
    expectNear(stokesSpeed({ diameter: 1e-4, density: 920 }, WATER), 0.42519e-3, 0.001);
  });

  it("grows with the square of the diameter, and lets what is heavier sink", () => {
    expect(stokesSpeed(bubble(20), WATER) / stokesSpeed(bubble(10), WATER)).toBeCloseTo(4, 12);
    expect(stokesSpeed({ diameter: 1e-5, density: 1650 }, WATER)).toBeLessThan(0);
    expect(stokesSpeed({ diameter: 1e-5, density: 998.2 }, WATER)).toBeCloseTo(0, 12);
  });

  it("ends at 122.8 µm in water", () => {
    // Re 1 by Stokes: d = (18 μ²/(g ρ (ρ − ρ_g)))^(1/3). computed
    const { quantity, limits } = refusal(() => stokesSpeed(bubble(200), WATER));
    expect(quantity).toBe("bubbleDiameter");
    expectNear(limits.max, 122.8e-6, 0.002);
    expect(() => stokesSpeed(bubble(limits.max * 1e6 * (1 - 1e-9)), WATER)).not.toThrow();
    expect(() => stokesSpeed(bubble(limits.max * 1e6 * (1 + 1e-9)), WATER)).toThrow();
    // What sinks too fast is refused as well.
    expect(() => stokesSpeed({ diameter: 2e-4, density: 2000 }, WATER)).toThrow(OutOfRangeError);
  });

  it.each([
    ["bubbleDiameter", { diameter: 9e-8, density: AIR }, WATER],
    ["bubbleDiameter", { diameter: Number.NaN, density: AIR }, WATER],
    ["density", { diameter: 1e-5, density: 0.9 }, WATER],
    ["density", { diameter: 1e-5, density: 2001 }, WATER],
    ["viscosity", bubble(10), { ...WATER, viscosity: 9e-5 }],
    ["viscosity", bubble(10), { ...WATER, viscosity: 101 }],
    ["liquidDensity", bubble(10), { ...WATER, density: 499 }],
    ["liquidDensity", bubble(10), { ...WATER, density: Number.NaN }],
  ])("refuses a %s out of range", (quantity, sphere, liquid) => {
    expect(refusal(() => stokesSpeed(sphere, liquid)).quantity).toBe(quantity);
  });
});

describe("hadamardRybczynskiSpeed(sphere, liquid, innerViscosity)", () => {
  it("gives a clean 100 µm bubble in water 8.131 mm/s, or 8.06 with the air's viscosity", () => {
    // The formula, water at 20 °C. computed
    expectNear(hadamardRybczynskiSpeed(bubble(100), WATER, 0), 8.131e-3, 0.002);
    expectNear(hadamardRybczynskiSpeed(bubble(100), WATER, AIR_VISCOSITY), 8.06e-3, 0.002);
  });

  it("gives a clean millimetre in syrup 8.325 mm/s", () => {
    // 0.1 Pa s, 1020 kg/m³. computed
    const syrup = { viscosity: 0.1, density: 1020 };
    expectNear(hadamardRybczynskiSpeed(bubble(1000), syrup, AIR_VISCOSITY), 8.325e-3, 0.002);
  });

  it("creams a drop of thick oil hardly faster than a rigid one", () => {
    // 100 µm, 920 kg/m³, 0.06 Pa s: 0.42753 mm/s. computed
    const drop = { diameter: 1e-4, density: 920 };
    expectNear(hadamardRybczynskiSpeed(drop, WATER, 0.06), 0.42753e-3, 0.001);
  });

  it("is 1.5, 1.2 and 1 times Stokes for an inside of none, the same and far more viscosity", () => {
    // Hadamard (1911), Rybczynski (1911). memory
    const stokes = stokesSpeed(bubble(10), WATER);
    const ratio = (inner: number) => hadamardRybczynskiSpeed(bubble(10), WATER, inner) / stokes;
    expect(ratio(0)).toBeCloseTo(1.5, 12);
    expect(ratio(WATER.viscosity)).toBeCloseTo(1.2, 12);
    expect(ratio(100)).toBeCloseTo(1, 5);
  });

  it("ends at 107.27 µm in water, sooner than the slower rigid bubble", () => {
    // Re 1: d = (12 μ²/(g ρ (ρ − ρ_g)))^(1/3). computed
    const { limits } = refusal(() => hadamardRybczynskiSpeed(bubble(200), WATER, 0));
    expectNear(limits.max, 107.27e-6, 0.002);
  });

  it.each([-1e-9, 101, Number.NaN])("refuses an inner viscosity of %d", (inner) => {
    expect(refusal(() => hadamardRybczynskiSpeed(bubble(10), WATER, inner)).quantity).toBe(
      "innerViscosity",
    );
  });

  it("refuses a liquid without viscosity", () => {
    const none = { ...WATER, viscosity: 0 };
    expect(() => hadamardRybczynskiSpeed(bubble(10), none, 0)).toThrow(/^viscosity must/);
  });
});

describe("bubbleRise(bubbleDiameter, liquid, depth, surface)", () => {
  const speed = (micrometres: number, surface: Surface) =>
    bubbleRise(micrometres * 1e-6, WATER, 0.1, surface).speed;

  it("slows a rigid 200 µm bubble to 16.231 mm/s, where Stokes would promise 21.7", () => {
    // Schiller & Naumann. computed
    expectNear(speed(200, "rigid"), 16.231e-3, 0.002);
    expectNear((9.80665 * 2e-4 ** 2 * (998.2 - 1.2)) / 18 / 1.002e-3, 21.684e-3, 0.002);
  });

  it("slows a rigid 100 µm bubble by 8 %", () => {
    // Schiller & Naumann: 4.96 mm/s. computed
    expectNear(speed(100, "rigid"), 4.96e-3, 0.002);
  });

  it("follows the creeping laws for small bubbles", () => {
    expectNear(speed(5, "rigid"), stokesSpeed(bubble(5), WATER), 0.005);
    expectNear(speed(5, "mobile"), hadamardRybczynskiSpeed(bubble(5), WATER, 0), 0.005);
    expect(speed(0.2, "mobile") / speed(0.2, "rigid")).toBeCloseTo(1.5, 3);
  });

  it("leaves a clean bubble with the drag of its two published ends", () => {
    // C_d Re: 16 (1 + Re/8) creeping, 48 (1 − 2.21/√Re) fast; between, the drag balances the buoyancy. memory
    const dragOf = (micrometres: number) => {
      const { speed, reynolds } = bubbleRise(micrometres * 1e-6, WATER, 0, "mobile");
      const drag = (4 * 9.80665 * micrometres * 1e-6 * (998.2 - 1.2)) / (3 * 998.2 * speed ** 2);
      return [drag * reynolds, reynolds] as const;
    };
    const [slow, small] = dragOf(20);
    expect(slow).toBeCloseTo(16 * (1 + small / 8), 1);
    const [fast, large] = dragOf(450);
    expectNear(fast, 48 * (1 - 2.21 / Math.sqrt(large)), 0.12);
  });

  it.each([100, 300, 450])("balances the drag as published at %d µm", (micrometres) => {
    const diameter = micrometres * 1e-6;
    const buoyancy = (speed: number) =>
      (4 * 9.80665 * diameter * (998.2 - 1.2)) / (3 * 998.2 * speed ** 2);
    // Schiller & Naumann; Mei, Klausner & Lawrence. memory
    const rigid = bubbleRise(diameter, WATER, 0, "rigid");
    const rigidDrag = (24 / rigid.reynolds) * (1 + 0.15 * rigid.reynolds ** 0.687);
    expect(buoyancy(rigid.speed) / rigidDrag).toBeCloseTo(1, 9);
    const { speed, reynolds } = bubbleRise(diameter, WATER, 0, "mobile");
    const inner = 8 / reynolds + 0.5 * (1 + 3.315 / Math.sqrt(reynolds));
    expect(buoyancy(speed) / ((16 / reynolds) * (1 + 1 / inner))).toBeCloseTo(1, 9);
  });

  it("meets the standard drag of a sphere near a Reynolds number of 100", () => {
    // Clift, Grace & Weber (1978), standard drag curve: 1.09 at Re 100. memory
    const { speed, reynolds } = bubbleRise(0.945e-3, WATER, 0, "rigid");
    expect(Math.abs(reynolds - 100)).toBeLessThan(2);
    const drag = (4 * 9.80665 * 0.945e-3 * (998.2 - 1.2)) / (3 * 998.2 * speed ** 2);
    expectNear(drag, 1.09, 0.015);
  });

  it("takes the depth over the speed, and no time at the surface", () => {
    const { speed, time } = bubbleRise(1e-4, WATER, 0.1, "rigid");
    expect(time * speed).toBeCloseTo(0.1, 12);
    expect(bubbleRise(1e-4, WATER, 0, "rigid").time).toBe(0);
  });

  it("gives the Reynolds number of its speed", () => {
    const { speed, reynolds } = bubbleRise(3e-4, WATER, 0.1, "rigid");
    expect(reynolds).toBeCloseTo((998.2 * speed * 3e-4) / 1.002e-3, 9);
  });

  it("is faster for a larger bubble, a clean one and a thinner liquid", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-7, max: 3e-4, noNaN: true }),
        fc.double({ min: 1e-3, max: 90, noNaN: true }),
        fc.double({ min: 700, max: 1300, noNaN: true }),
        (diameter, viscosity, density) => {
          const liquid = { viscosity, density };
          const rigid = bubbleRise(diameter, liquid, 0.1, "rigid");
          const mobile = bubbleRise(diameter, liquid, 0.1, "mobile");
          expect(mobile.speed).toBeGreaterThan(rigid.speed);
          expect(mobile.speed).toBeLessThan(3 * rigid.speed);
          expect(bubbleRise(1.01 * diameter, liquid, 0.1, "rigid").speed).toBeGreaterThan(
            rigid.speed,
          );
          const thick = { viscosity: 1.01 * viscosity, density };
          expect(bubbleRise(diameter, thick, 0.1, "mobile").speed).toBeLessThan(mobile.speed);
        },
      ),
      { seed: 1933, numRuns: 300 },
    );
  });

  it("refuses a clean bubble that is no longer round, and says how large it may be", () => {
    const { quantity, limits } = refusal(() => bubbleRise(1e-3, WATER, 0.1, "mobile"));
    expect(quantity).toBe("bubbleDiameter");
    const { reynolds } = bubbleRise(limits.max * (1 - 1e-9), WATER, 0.1, "mobile");
    expect(reynolds).toBeCloseTo(100, 5);
    // A covered one is slower and may be larger, up to a millimetre.
    expect(bubbleRise(1e-3, WATER, 0.1, "rigid").reynolds).toBeLessThan(800);
    expect(() => bubbleRise(1.001e-3, WATER, 0.1, "rigid")).toThrow(OutOfRangeError);
  });

  it.each([
    ["bubbleDiameter", 9e-8, WATER, 0.1],
    ["bubbleDiameter", Number.NaN, WATER, 0.1],
    ["viscosity", 1e-4, { ...WATER, viscosity: 0 }, 0.1],
    ["liquidDensity", 1e-4, { ...WATER, density: 2001 }, 0.1],
    ["depth", 1e-4, WATER, -0.01],
    ["depth", 1e-4, WATER, 1.01],
    ["depth", 1e-4, WATER, Number.NaN],
  ])("refuses a %s out of range", (quantity, diameter, liquid, depth) => {
    expect(refusal(() => bubbleRise(diameter, liquid, depth, "rigid")).quantity).toBe(quantity);
  });
});

const SOUND = { frequency: 40e3, pressure: 101_325, liquidDensity: 998.207, depth: 0 };

describe("resonanceRadius(sound, polytropicExponent, surfaceTension)", () => {
  it("is Minnaert's at 40 kHz", () => {
    // Minnaert (1933): 82.15477 µm with 1.4, 69.433454 µm with 1. computed
    expect(1e6 * resonanceRadius(SOUND, 1.4, 0)).toBeCloseTo(82.15477, 4);
    expect(1e6 * resonanceRadius(SOUND, 1, 0)).toBeCloseTo(69.433454, 4);
  });

  it("is 0.7 % more with water's surface tension", () => {
    // (2π f R)² ρ = 3γ (p + 2σ/R) − 2σ/R: 82.696808 µm. computed
    expect(1e6 * resonanceRadius(SOUND, 1.4, WATER_TENSION)).toBeCloseTo(82.696808, 4);
  });

  it("goes with 1/f, and with the root of the pressure at its depth", () => {
    const radius = (changed: Partial<typeof SOUND>) =>
      resonanceRadius({ ...SOUND, liquidDensity: 1000, pressure: 1e5, ...changed }, 1.4, 0);
    expect(radius({ frequency: 20e3 }) / radius({})).toBeCloseTo(2, 12);
    expect(radius({ pressure: 4e5 }) / radius({})).toBeCloseTo(2, 12);
    expect(radius({ depth: 1 })).toBeCloseTo(radius({ pressure: 1e5 + 9806.65 }), 15);
  });

  it("satisfies its equation, also where tension is most of it", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e3, max: 1e7, noNaN: true }),
        fc.double({ min: 1e4, max: 1e6, noNaN: true }),
        fc.double({ min: 1, max: 5 / 3, noNaN: true }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (frequency, pressure, exponent, tension) => {
          const sound = { ...SOUND, frequency, pressure };
          const radius = resonanceRadius(sound, exponent, tension);
          const swing = 998.207 * (2 * Math.PI * frequency * radius) ** 2;
          const inside = pressure + (2 * tension) / radius;
          expect(swing / (3 * exponent * inside - (2 * tension) / radius)).toBeCloseTo(1, 10);
        },
      ),
      { seed: 40_000, numRuns: 500 },
    );
  });

  it.each([
    ["frequency", 999],
    ["frequency", 1.1e7],
    ["frequency", Number.NaN],
    ["pressure", 9999],
    ["pressure", 1.1e6],
    ["liquidDensity", 499],
    ["depth", -0.1],
    ["depth", 1.1],
  ])("refuses a %s of %d", (quantity, value) => {
    const sound = { ...SOUND, [quantity]: value };
    expect(refusal(() => resonanceRadius(sound, 1.4, 0)).quantity).toBe(quantity);
  });

  it.each([0.9, 1.7, Number.NaN])("refuses a polytropic exponent of %d", (exponent) => {
    expect(() => resonanceRadius(SOUND, exponent, 0)).toThrow(OutOfRangeError);
  });

  it.each([-0.01, 0.11, Number.NaN])("refuses a surface tension of %d", (tension) => {
    expect(() => resonanceRadius(SOUND, 1.4, tension)).toThrow(OutOfRangeError);
  });
});

describe("resonance(sound)", () => {
  it("goes from a bubble that keeps its temperature to one that keeps its heat, with tension", () => {
    // As above. computed
    const { value, low, high } = resonance(SOUND);
    expect(1e6 * low).toBeCloseTo(69.433454, 4);
    expect(1e6 * value).toBeCloseTo(82.15477, 4);
    expect(1e6 * high).toBeCloseTo(82.696808, 4);
  });
});
