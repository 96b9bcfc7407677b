import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { biotNumber } from "../../../lib/laws/lumped-cooling.ts";
import {
  attenuationHeldHot,
  characteristicTime,
  fittedAttenuation,
  fullStress,
  heatedRimFactor,
  largestStep,
  meanWallTemperature,
  peakAttenuation,
  peakFarFace,
  rimFactor,
  stagedCooling,
  stressFraction,
  wallTemperature,
  type CooledWall,
} from "../../../lib/laws/thermal-stress.ts";
import { GLASSES, glassValues, PERMISSIBLE_TENSION } from "../../../lib/substances/glass.ts";

const BOROSILICATE = glassValues(GLASSES["borosilicate-3.3"]);
const NOT_BIOT = [0, -1, 0.99e-4, Number.NaN];

/** |a/b − 1| */
function apart(a: number, b: number): number {
  return Math.abs(a / b - 1);
}

/**
 * Conduction through a wall by finite volumes, explicit in time: another way to all the numbers here.
 *
 * Temperatures are 1 at the start; `outside` and, where the inner face is held, `inside` are functions of Fo.
 * @returns largest mean − outer face, and largest inner face − mean
 */
function conduct(
  biot: number,
  until: number,
  outside: (fourier: number) => number,
  inside?: (fourier: number) => number,
): { readonly outer: number; readonly inner: number } {
  const cells = 60;
  const width = 1 / cells;
  // A node on each face, so the outer cells are halves.
  const t = new Float64Array(cells + 1).fill(1);
  const step = 0.25 * width ** 2 * Math.min(1, 2 / (1 + biot * width));
  let outer = 0;
  let inner = 0;
  for (let fourier = 0; fourier < until; fourier += step) {
    let flow = 0;
    let mean = 0;
    for (let i = 0; i <= cells; i++) {
      const here = t[i] as number;
      const next =
        i === cells ? biot * (here - outside(fourier)) : (here - (t[i + 1] as number)) / width;
      const size = i === 0 || i === cells ? width / 2 : width;
      t[i] = i === 0 && inside ? inside(fourier) : here + (step * (flow - next)) / size;
      mean += size * (t[i] as number);
      flow = next;
    }
    outer = Math.max(outer, mean - (t[cells] as number));
    inner = Math.max(inner, (t[0] as number) - mean);
  }
  return { outer, inner };
}

describe("fullStress(glass, step)", () => {
  it.each([
    // E α ΔT / (1 − ν), inputs from property sheets (seen), 100 K. computed
    ["borosilicate 3.3", { modulus: 64e9, expansion: 3.3e-6, poissonRatio: 0.2 }, 26.4e6],
    ["the same, 63 GPa", { modulus: 63e9, expansion: 3.3e-6, poissonRatio: 0.2 }, 25.9875e6],
    ["soda-lime", { modulus: 70e9, expansion: 9e-6, poissonRatio: 0.22 }, 80.769e6],
  ])("of 100 K in %s", (_, glass, stress) => {
    expect(apart(fullStress(glass, 100), stress)).toBeLessThan(1e-4);
  });

  it("has the other sign on heating", () => {
    expect(fullStress(BOROSILICATE, -30)).toBe(-fullStress(BOROSILICATE, 30));
  });

  it.each([-1001, 1001, Number.NaN])("refuses a step of %d K", (step) => {
    expect(() => fullStress(BOROSILICATE, step)).toThrow(
      expect.objectContaining({ name: "OutOfRangeError", quantity: "step", value: step }),
    );
  });

  it.each([
    { modulus: 0.9e9 },
    { modulus: 201e9 },
    { modulus: Number.NaN },
    { poissonRatio: -0.01 },
    { poissonRatio: 0.5 },
    { poissonRatio: Number.NaN },
    { expansion: 0 },
    { expansion: 3.1e-5 },
    { expansion: Number.NaN },
  ])("refuses a glass with %o", (wrong) => {
    expect(() => fullStress({ ...BOROSILICATE, ...wrong }, 10)).toThrow(OutOfRangeError);
    expect(() => largestStep({ ...BOROSILICATE, ...wrong }, 7e6, 1)).toThrow(OutOfRangeError);
  });

  it("answers at both ends", () => {
    expect(fullStress({ modulus: 1e9, poissonRatio: 0, expansion: 1e-8 }, 1000)).toBe(1e4);
    const most = { modulus: 200e9, poissonRatio: 0.49, expansion: 3e-5 };
    expect(fullStress(most, -1000)).toBeLessThan(-1e10);
  });
});

describe("largestStep(glass, permissible, attenuation)", () => {
  it("at 7 MPa and an instant change is 26.5 K", () => {
    // EN 1595, 7 MPa (seen), σ (1 − ν) / (E α). computed
    expect(apart(largestStep(BOROSILICATE, 7e6, 1), 26.515)).toBeLessThan(1e-3);
  });

  it.each([
    // Callister & Rethwisch, problems 19.D3 and 19.D4, which leave (1 − ν) out, as for a rod. seen
    ["soda-lime", 69e6, 69e9, 9e-6, 111.11],
    ["borosilicate", 70e6, 69e9, 3.3e-6, 307.42],
  ])("is a textbook's for %s without (1 − ν)", (_, strength, modulus, expansion, step) => {
    const rod = { modulus, expansion, poissonRatio: 0 };
    expect(apart(largestStep(rod, strength, 1), step)).toBeLessThan(1e-3);
    // A wall is held both ways along its surface: a fifth less for ν = 0.2.
    const wall = { ...rod, poissonRatio: 0.2 };
    expect(largestStep(wall, strength, 1) / step).toBeCloseTo(0.8, 4);
  });

  it("times the conductivity is a textbook's thermal shock resistance", () => {
    // Callister & Rethwisch, problem 19.D4: σ k / (E α) of soda-lime, 188.89 W/m. seen
    const rod = { modulus: 69e9, expansion: 9e-6, poissonRatio: 0 };
    expect(apart(1.7 * largestStep(rod, 69e6, 1), 188.89)).toBeLessThan(1e-3);
  });

  it.each([
    // Exact series, wall 1.5 mm cooled on one face, k 1.2, ρ 2230, c 830: K and s at 7 MPa. computed
    [1000, 110.14, 0.6],
    [5000, 51.346, 0.2146],
    [20_000, 36.795, 0.0644],
  ])("of a beaker in a film of %d W/(m² K) is %d K, peak at %d s", (film, step, time) => {
    const { attenuation, fourier } = peakAttenuation(biotNumber(film, 0.0015, 1.2));
    expect(apart(largestStep(BOROSILICATE, 7e6, attenuation), step)).toBeLessThan(1e-3);
    expect(apart(fourier * characteristicTime(BOROSILICATE, 0.0015), time)).toBeLessThan(0.01);
  });

  it("undoes fullStress", () => {
    expect(fullStress(BOROSILICATE, largestStep(BOROSILICATE, 7e6, 0.3)) * 0.3).toBeCloseTo(7e6, 3);
  });

  it.each([0, 2.1e10, Number.NaN])("refuses %d Pa", (stress) => {
    expect(() => largestStep(BOROSILICATE, stress, 1)).toThrow(OutOfRangeError);
  });

  it.each([0, 1.01, Number.NaN])("refuses a share of %d", (attenuation) => {
    expect(() => largestStep(BOROSILICATE, 7e6, attenuation)).toThrow(OutOfRangeError);
  });
});

describe("heatedRimFactor(poissonRatio)", () => {
  /** Edge stress of the bending that the profile holds, over the stress in the insulated face: 6 M / far. */
  function bendingShare(biot: number): number {
    const { fourier } = peakFarFace(biot);
    const steps = 400;
    let moment = 0;
    for (let i = 0; i < steps; i++) {
      const x = (i + 0.5) / steps;
      moment += (stressFraction(biot, fourier, x) * (x - 0.5)) / steps;
    }
    return Math.abs((6 * moment) / stressFraction(biot, fourier, 0));
  }

  it.each([0.01, 1, 20, 1e5])("holds the bending of the exact profile at Bi %d", (biot) => {
    const nu = 0.2;
    const exact = 1 - nu + bendingShare(biot) * Math.sqrt((1 - nu ** 2) / 3);
    expect(heatedRimFactor(nu)).toBeGreaterThanOrEqual(exact * (1 - 1e-3));
    expect(apart(heatedRimFactor(nu), exact)).toBeLessThan(0.02);
  });

  it("counts 1.5 for a parabola, the profile of slow heating", () => {
    expect(bendingShare(0.001)).toBeCloseTo(1.5, 2);
  });

  it.each([-0.01, 0.5, Number.NaN])("refuses a Poisson ratio of %d", (poissonRatio) => {
    expect(() => heatedRimFactor(poissonRatio)).toThrow(OutOfRangeError);
  });
});

describe("rimFactor(poissonRatio)", () => {
  it.each([
    // Timoshenko & Goodier, thin cylinder with a free end: 25 % for ν = 0.3 (memory); digits computed
    [0.2, 1.36569],
    [0.3, 1.25076],
  ])("for ν = %d is %d", (poissonRatio, factor) => {
    expect(apart(rimFactor(poissonRatio), factor)).toBeLessThan(1e-4);
  });

  it("is what shell bending gives when the edge moment is taken away", () => {
    const { modulus: E, poissonRatio: nu } = BOROSILICATE;
    const [radius, wall, far] = [0.045, 0.0015, 10e6];
    const moment = (far * wall ** 2) / 6;
    const stiffness = (E * wall ** 3) / (12 * (1 - nu ** 2));
    const beta = ((3 * (1 - nu ** 2)) / (radius * wall) ** 2) ** 0.25;
    const outwards = moment / (2 * beta ** 2 * stiffness);
    expect(((1 - nu) * far + (E * outwards) / radius) / far).toBeCloseTo(rimFactor(nu), 12);
  });

  it.each([-0.01, 0.5, Number.NaN])("refuses ν = %d", (poissonRatio) => {
    expect(() => rimFactor(poissonRatio)).toThrow(OutOfRangeError);
  });
});

describe("characteristicTime(glass, length)", () => {
  it("of a beaker's wall is 3.47 s", () => {
    // L² ρ c / k for 1.5 mm, k 1.2, ρ 2230, c 830 (seen). computed
    expect(apart(characteristicTime(BOROSILICATE, 0.0015), 3.47)).toBeLessThan(5e-3);
  });

  it("is four times as long for a wall twice as thick", () => {
    const ratio = characteristicTime(BOROSILICATE, 0.004) / characteristicTime(BOROSILICATE, 0.002);
    expect(ratio).toBeCloseTo(4, 12);
  });

  it.each([
    { conductivity: 0 },
    { density: 499 },
    { density: Number.NaN },
    { specificHeat: 5001 },
    { specificHeat: Number.NaN },
  ])("refuses a glass with %o", (wrong) => {
    expect(() => characteristicTime({ ...BOROSILICATE, ...wrong }, 0.0015)).toThrow(
      OutOfRangeError,
    );
  });

  it.each([0, 0.11, Number.NaN])("refuses %d m", (length) => {
    expect(() => characteristicTime(BOROSILICATE, length)).toThrow(OutOfRangeError);
  });
});

describe("wallTemperature(biot, fourier, position)", () => {
  it("agrees with a worked example of an insulated wall", () => {
    // Incropera et al., Fundamentals of Heat and Mass Transfer, Example 5.4: inputs seen, the book's 42.9 and
    // 45.2 °C, −7400 W/m², −2.73 × 10⁷ J/m from rounded constants recalled; digits from the exact root. computed
    const [biot, fourier] = [0.31299, 5.64];
    const celsius = (share: number): number => 60 + share * (-20 - 60);
    const face = celsius(wallTemperature(biot, fourier, 1));
    expect(apart(celsius(wallTemperature(biot, fourier, 0)), 43.02)).toBeLessThan(1e-3);
    expect(apart(face, 45.36)).toBeLessThan(1e-3);
    expect(apart(500 * (face - 60), -7318)).toBeLessThan(1e-3);
    const heat =
      7832 * 434 * Math.PI * 0.04 * (-20 - 60) * (1 - meanWallTemperature(biot, fourier));
    expect(apart(heat, -27.255e6)).toBeLessThan(1e-3);
  });

  it.each([
    // Incropera et al., Table 5.1, first root and constant. memory; digits computed
    [0.1, 0.3111, 1.0161],
    [1, 0.8603, 1.1191],
    [10, 1.4289, 1.262],
  ])("falls late by the first mode of a table, Bi = %d", (biot, root, size) => {
    const [early, late] = [3, 3.1].map((at) => wallTemperature(biot, at, 0)) as [number, number];
    const z = Math.sqrt(Math.log(early / late) / 0.1);
    expect(Math.abs(z - root)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(early * Math.exp(z ** 2 * 3) - size)).toBeLessThanOrEqual(1e-4);
    expect(wallTemperature(biot, 3, 1) / early).toBeCloseTo(Math.cos(z), 9);
  });

  it("does not jump where one form takes over from the other", () => {
    for (const biot of [1e-4, 0.1, 1, 30, 1e4, Infinity])
      for (const x of [0, 0.5, 0.9, 1]) {
        // Far less apart than the temperature moves in this time anyway.
        const before = wallTemperature(biot, 0.01 - 1e-15, x);
        expect(Math.abs(wallTemperature(biot, 0.01, x) - before)).toBeLessThan(4e-12);
      }
  });

  it("is a known error function when the surface changes at once", () => {
    // Abramowitz & Stegun, Table 7.1: erf 0.5 = 0.5204998778. memory
    expect(wallTemperature(Infinity, 0.0004, 1 - 0.02)).toBeCloseTo(0.5204998778, 10);
  });

  it("starts at 1, and at 0 in a surface that changes at once", () => {
    expect(wallTemperature(5, 0, 1)).toBe(1);
    expect(wallTemperature(Infinity, 0, 0.99)).toBe(1);
    expect(wallTemperature(Infinity, 0, 1)).toBe(0);
    expect(meanWallTemperature(Infinity, 0)).toBe(1);
  });

  it("ends at 0", () => {
    expect(wallTemperature(1, 1e6, 0)).toBe(0);
    expect(meanWallTemperature(1, 1e6)).toBe(0);
  });

  it.each(NOT_BIOT)("refuses Bi = %d", (biot) => {
    expect(() => wallTemperature(biot, 1, 0)).toThrow(OutOfRangeError);
    expect(() => meanWallTemperature(biot, 1)).toThrow(OutOfRangeError);
  });

  it.each([-1e-9, 1.1e6, Number.NaN])("refuses Fo = %d", (fourier) => {
    expect(() => wallTemperature(1, fourier, 0)).toThrow(OutOfRangeError);
    expect(() => meanWallTemperature(1, fourier)).toThrow(OutOfRangeError);
  });

  it.each([-0.01, 1.01, Number.NaN])("refuses x = %d", (position) => {
    expect(() => wallTemperature(1, 1, position)).toThrow(OutOfRangeError);
  });
});

describe("meanWallTemperature(biot, fourier)", () => {
  it.each([0.002, 0.3])("is the average of wallTemperature at Fo = %d", (fourier) => {
    // Simpson's rule on 400 pieces.
    for (const biot of [0.05, 3, Infinity]) {
      let sum = 0;
      for (let i = 0; i <= 400; i++) {
        const weight = i === 0 || i === 400 ? 1 : i % 2 ? 4 : 2;
        sum += (weight * wallTemperature(biot, fourier, i / 400)) / 1200;
      }
      expect(meanWallTemperature(biot, fourier)).toBeCloseTo(sum, 8);
    }
  });
});

describe("stressFraction(biot, fourier, position)", () => {
  it("balances over the wall: tension here is compression there", () => {
    expect(stressFraction(2, 0.13, 1)).toBeGreaterThan(0);
    expect(stressFraction(2, 0.13, 0)).toBeLessThan(0);
  });

  it("is largest where the peaks are said to be", () => {
    for (const biot of [0.01, 1, 44, 46, 1e3]) {
      const { attenuation, fourier } = peakAttenuation(biot);
      expect(stressFraction(biot, fourier, 1)).toBeCloseTo(attenuation, 11);
      for (const moved of [0.9, 1.1])
        expect(stressFraction(biot, moved * fourier, 1)).toBeLessThan(attenuation);
      const far = peakFarFace(biot);
      expect(-stressFraction(biot, far.fourier, 0)).toBeCloseTo(far.attenuation, 11);
    }
  });
});

describe("peakAttenuation(biot)", () => {
  it.each([
    // Exact series with 400 terms, plate cooled on both faces or insulated on one. computed
    [0.1, 0.030879, 0.4145],
    [0.5, 0.125606, 0.2558],
    [1, 0.208258, 0.1922],
    [1.25, 0.240741, 0.1729],
    [2, 0.316595, 0.1346],
    [10, 0.593508, 0.0421],
  ])("for Bi = %d is %d at Fo = %d", (biot, psi, at) => {
    const { attenuation, fourier } = peakAttenuation(biot);
    expect(apart(attenuation, psi)).toBeLessThan(5e-4);
    expect(apart(fourier, at)).toBeLessThan(0.01);
  });

  it("gives a beaker's wall 6.36 MPa at a step of 100 K", () => {
    // Exact series, 1.5 mm, h 1000 W/(m² K), k 1.2 W/(m K), E 64 GPa, ν 0.2. computed
    const { attenuation } = peakAttenuation(biotNumber(1000, 0.0015, 1.2));
    expect(apart(attenuation * fullStress(BOROSILICATE, 100), 6.3555e6)).toBeLessThan(1e-3);
  });

  it.each([1.25, 20])("agrees with finite volumes for Bi = %d", (biot) => {
    const found = conduct(biot, 0.5, () => 0);
    expect(apart(found.outer, peakAttenuation(biot).attenuation)).toBeLessThan(1e-3);
    expect(apart(found.inner, peakFarFace(biot).attenuation)).toBeLessThan(1e-3);
  });

  it("tends to Bi/3 for a small Bi", () => {
    // Exact series: limit 1/3, and 0.329973 at Bi = 0.01. computed
    expect(apart(peakAttenuation(1e-4).attenuation / 1e-4, 1 / 3)).toBeLessThan(5e-4);
    expect(apart(peakAttenuation(0.01).attenuation / 0.01, 0.329973)).toBeLessThan(5e-4);
    // The second mode is gone when the first has barely begun: Fo = ln(6/Bi)/π².
    expect(peakAttenuation(1e-4).fourier).toBeCloseTo(Math.log(6e4) / Math.PI ** 2, 3);
  });

  it("tends to 1 for a large Bi, the peak to Fo = 1/(2 Bi)", () => {
    expect(peakAttenuation(Infinity)).toEqual({ attenuation: 1, fourier: 0 });
    const { attenuation, fourier } = peakAttenuation(1e6);
    // For u = √(Bi/2) ≫ 1: 1 − 2 √(2/(π Bi)) + 1/Bi.
    expect(1 - attenuation).toBeCloseTo(2 * Math.sqrt(2e-6 / Math.PI) - 1e-6, 8);
    expect(apart(2e6 * fourier, 1)).toBeLessThan(1e-5);
    for (const biot of [1e12, 1e200, Number.MAX_VALUE])
      expect(peakAttenuation(biot).attenuation).toBeGreaterThan(0.999998);
  });

  it("rises with Bi, without a jump between the two forms", () => {
    let last = 0;
    for (let power = -4; power <= 6; power += 0.05) {
      const { attenuation } = peakAttenuation(10 ** power);
      expect(attenuation).toBeGreaterThan(last);
      last = attenuation;
    }
    const [below, above] = [peakAttenuation(45 * (1 - 1e-12)), peakAttenuation(45)];
    expect(apart(above.attenuation, below.attenuation)).toBeLessThan(1e-11);
    expect(apart(above.fourier, below.fourier)).toBeLessThan(1e-8);
  });

  it.each(NOT_BIOT)("refuses Bi = %d", (biot) => {
    expect(() => peakAttenuation(biot)).toThrow(OutOfRangeError);
  });
});

describe("peakFarFace(biot)", () => {
  it.each([
    // Exact series, heated on one face, far face insulated. computed
    [1.25, 0.11736, 0.2529],
    [5, 0.218234, 0.1695],
  ])("for Bi = %d is %d at Fo = %d", (biot, psi, at) => {
    const { attenuation, fourier } = peakFarFace(biot);
    expect(apart(attenuation, psi)).toBeLessThan(5e-4);
    expect(apart(fourier, at)).toBeLessThan(0.01);
  });

  it("is within 1.2 % of a published fit", () => {
    // Lu & Fleck, Acta Mater. 46 (1998) 4755: 0.3085 / (1 + 2/Bi). memory; the difference, computed
    for (const biot of [0.5, 1.25, 5, 20])
      expect(apart(0.3085 / (1 + 2 / biot), peakFarFace(biot).attenuation)).toBeLessThan(0.012);
    // The same: 0.3085 for an instant change.
    expect(peakFarFace(Infinity).attenuation).toBeCloseTo(0.3085, 4);
  });

  it("comes later than that of the cooled face, and is about half as large", () => {
    expect(apart(peakFarFace(1e-4).attenuation / 1e-4, 1 / 6)).toBeLessThan(5e-4);
    for (const biot of [1e-4, 0.1, 1.25, 5]) {
      const [near, far] = [peakAttenuation(biot), peakFarFace(biot)];
      expect(far.fourier).toBeGreaterThan(near.fourier);
      expect(Math.abs(far.attenuation / near.attenuation - 0.5)).toBeLessThan(0.05);
    }
  });

  it.each(NOT_BIOT)("refuses Bi = %d", (biot) => {
    expect(() => peakFarFace(biot)).toThrow(OutOfRangeError);
  });
});

describe("attenuationHeldHot(biot)", () => {
  it.each([0.5, 5, 20])("agrees with finite volumes for Bi = %d", (biot) => {
    const found = conduct(
      biot,
      3,
      () => 0,
      () => 1,
    );
    expect(apart(found.outer, attenuationHeldHot(biot))).toBeLessThan(1e-3);
  });

  it.each([
    // The series in 30 digits, its coefficients by quadrature. computed
    [5, 0.47867726659],
    [20, 0.69279883044],
    [30, 0.74184332027],
  ])("for Bi = %d is %d", (biot, psi) => {
    expect(attenuationHeldHot(biot)).toBeCloseTo(psi, 10);
  });

  it("is the steady slope's tension for a small Bi", () => {
    for (const biot of [1e-4, 0.1, 1, 2])
      expect(attenuationHeldHot(biot)).toBeCloseTo(biot / (2 * (1 + biot)), 12);
  });

  it("is never less than with an insulated face, and rises without a jump", () => {
    let last = 0;
    for (let power = -4; power <= 6; power += 0.02) {
      const held = attenuationHeldHot(10 ** power);
      expect(held).toBeGreaterThanOrEqual(peakAttenuation(10 ** power).attenuation);
      expect(held).toBeGreaterThan(last);
      last = held;
    }
    // The far face is out of reach here, but not quite.
    expect(apart(attenuationHeldHot(45 * (1 - 1e-12)), attenuationHeldHot(45))).toBeLessThan(1e-9);
    expect(attenuationHeldHot(Infinity)).toBe(1);
  });

  it.each(NOT_BIOT)("refuses Bi = %d", (biot) => {
    expect(() => attenuationHeldHot(biot)).toThrow(OutOfRangeError);
  });
});

describe("fittedAttenuation(biot)", () => {
  it.each([
    // 1/ψ = 1.5 + 3.25/Bi − 0.5 exp(−16/Bi), Kingery (1955). formula memory, value computed
    [0.1, 0.02941],
    [0.5, 0.125],
    [1, 0.21053],
    [2, 0.32002],
    [10, 0.58003],
  ])("for Bi = %d is %d", (biot, psi) => {
    expect(apart(fittedAttenuation(biot), psi)).toBeLessThan(1e-3);
  });

  it.each([
    // The fit against the exact plate, %. computed
    [0.1, -4.75],
    [0.5, -0.48],
    [1, 1.09],
    [2, 1.08],
    [5, -1.72],
    [10, -2.27],
    [100, 6.28],
  ])("for Bi = %d is %d per cent off", (biot, error) => {
    const off = 100 * (fittedAttenuation(biot) / peakAttenuation(biot).attenuation - 1);
    expect(Math.abs(off - error)).toBeLessThanOrEqual(0.1);
  });

  it("gives a beaker 6.44 MPa with the whole wall in Bi, 3.94 with half of it", () => {
    // Wall 1.5 mm, h 1000, k 1.2, 100 K. computed
    const full = fullStress(BOROSILICATE, 100);
    expect(apart(full * fittedAttenuation(1.25), 6.439e6)).toBeLessThan(5e-3);
    expect(apart(full * fittedAttenuation(0.625), 3.94e6)).toBeLessThan(5e-3);
  });

  it("is 1 for an infinite Bi", () => {
    expect(fittedAttenuation(Infinity)).toBe(1);
  });

  it.each(NOT_BIOT)("refuses Bi = %d", (biot) => {
    expect(() => fittedAttenuation(biot)).toThrow(OutOfRangeError);
  });
});

describe("stagedCooling(wall, hot, final, permissible, left)", () => {
  const empty: CooledWall = {
    glass: BOROSILICATE,
    thickness: 0.0015,
    film: 5000,
    inside: "empty",
  };
  const full: CooledWall = { ...empty, inside: { timeConstant: 5 } };

  it("needs one step where the whole drop keeps to the stress", () => {
    const drop = largestStep(BOROSILICATE, 7e6, peakAttenuation(6.25).attenuation);
    const [only, ...more] = stagedCooling(empty, 20 + 0.999 * drop, 20, PERMISSIBLE_TENSION);
    expect(more).toEqual([]);
    expect(only?.stress).toBeCloseTo(0.999 * 7e6, 2);
    expect(stagedCooling(empty, 20 + 1.001 * drop, 20, PERMISSIBLE_TENSION)).toHaveLength(2);
  });

  it("leads from hot to final in equal steps within the stress", () => {
    for (const inside of ["empty", "surroundings", { timeConstant: 600 }] as const)
      for (const film of [50, 5000, Infinity]) {
        const steps = stagedCooling({ ...empty, inside, film }, 150, 0, 7e6);
        expect(steps[0]?.from).toBe(150);
        expect(steps.at(-1)?.to).toBe(0);
        for (const [i, { from, to, hold, stress }] of steps.entries()) {
          expect(from - to).toBeCloseTo(150 / steps.length, 9);
          expect(from).toBe(i ? steps[i - 1]?.to : 150);
          expect(hold).toBeGreaterThan(0);
          expect(stress).toBeGreaterThan(0);
          expect(stress).toBeLessThanOrEqual(7e6);
        }
      }
  });

  it("holds an empty wall until its far face is within the share of the surroundings", () => {
    for (const left of [0.01, 0.05, 0.2]) {
      const [first] = stagedCooling(empty, 95, 5, 7e6, left);
      const fourier = (first?.hold ?? 0) / characteristicTime(BOROSILICATE, 0.0015);
      expect(apart(wallTemperature(6.25, fourier, 0), left)).toBeLessThan(1e-5);
    }
  });

  it("adds to each later step what all steps before it have left", () => {
    for (const left of [0.05, 0.2]) {
      const [first, second] = stagedCooling(empty, 150, 0, 7e6, left);
      const hold = first!.hold / characteristicTime(BOROSILICATE, 0.0015);
      let among = peakAttenuation(6.25).attenuation;
      for (let k = 1; k < 40; k++) among += stressFraction(6.25, k * hold, 1);
      const more = second!.stress / first!.stress;
      expect(apart(more, among / peakAttenuation(6.25).attenuation)).toBeLessThan(1e-4);
    }
  });

  it("counts half the wall when the surroundings wet both faces", () => {
    const both = stagedCooling({ ...empty, inside: "surroundings" }, 60, 20, 7e6);
    expect(both).toEqual(stagedCooling({ ...empty, thickness: 0.00075 }, 60, 20, 7e6));
  });

  it("counts on contents that stay hot: half as much again in slow water", () => {
    const slow = { ...empty, film: 100 };
    const [bare, filled] = [slow, { ...slow, inside: full.inside }].map(
      (wall) => stagedCooling(wall, 95, 5, 7e6)[0]?.stress ?? 0,
    ) as [number, number];
    const stress = fullStress(BOROSILICATE, 90);
    expect(bare).toBeCloseTo(stress * peakAttenuation(0.125).attenuation, 3);
    expect(filled).toBeCloseTo(stress * attenuationHeldHot(0.125), 3);
    expect(filled / bare).toBeGreaterThan(1.4);
  });

  it("waits for the contents, or for the wall if that is slower", () => {
    const slow = stagedCooling({ ...empty, inside: { timeConstant: 600 } }, 95, 5, 7e6);
    expect(slow[0]?.hold).toBeCloseTo(600 * Math.log(20), 6);
    const quick = stagedCooling({ ...empty, inside: { timeConstant: 1 } }, 95, 5, 7e6);
    expect(quick[0]?.hold).toBe(stagedCooling(empty, 95, 5, 7e6)[0]?.hold);
  });

  it("bounds the stress that finite volumes find, without waste", () => {
    for (const film of [1000, 5000, 20_000])
      for (const wall of [empty, full])
        for (const left of [0.05, 0.2]) {
          const [hot, final] = [250, 0];
          const steps = stagedCooling({ ...wall, film }, hot, final, 7e6, left);
          const biot = biotNumber(film, 0.0015, 1.2);
          const second = 1 / characteristicTime(BOROSILICATE, 0.0015);
          const hold = (steps[0]?.hold ?? 0) * second;
          const scale = (celsius: number): number => (celsius - final) / (hot - final);
          const outside = (fourier: number): number =>
            scale((steps[Math.floor(fourier / hold)] ?? { to: final }).to);
          // Contents that follow the surroundings as they are told to.
          const excess = (fourier: number): number => {
            const before = Math.floor(fourier / hold);
            let warmer = 0;
            for (let i = 0; i <= Math.min(before, steps.length - 1); i++)
              warmer += Math.exp(-(fourier - i * hold) / (5 * second));
            return warmer / steps.length;
          };
          const inside =
            wall === full ? (fourier: number) => outside(fourier) + excess(fourier) : undefined;
          // The second step has a first behind it; later ones repeat it.
          const { outer } = conduct(biot, Math.min(2, steps.length) * hold, outside, inside);
          const stress = outer * fullStress(BOROSILICATE, hot - final);
          const bound = steps.at(-1)?.stress ?? 0;
          expect(stress).toBeLessThanOrEqual(1.001 * bound);
          expect(stress).toBeGreaterThan(0.75 * bound);
        }
  });

  it("has nothing to do when it is there already", () => {
    expect(stagedCooling(empty, 20, 20, 7e6)).toEqual([]);
  });

  it("refuses more than 50 steps, and says how many it would take", () => {
    const wall = { ...empty, film: Infinity };
    const each = 0.05 * largestStep(BOROSILICATE, 7e6, 1);
    // What is left of the step before adds some 3 %.
    expect(stagedCooling(wall, 48 * each, 0, 0.05 * 7e6)).toHaveLength(50);
    expect(() => stagedCooling(wall, 49 * each, 0, 0.05 * 7e6)).toThrow(
      expect.objectContaining({ name: "OutOfRangeError", quantity: "steps", value: 51 }),
    );
  });

  it.each([
    ["hot", 301, 20, 7e6, 0.05],
    ["hot", Number.NaN, 20, 7e6, 0.05],
    ["final", 95, 96, 7e6, 0.05],
    ["final", 95, -51, 7e6, 0.05],
    ["final", 95, Number.NaN, 7e6, 0.05],
    ["stress", 95, 20, 0, 0.05],
    ["stress", 95, 20, Number.NaN, 0.05],
    ["left", 95, 20, 7e6, 0.0009],
    ["left", 95, 20, 7e6, 0.21],
    ["left", 95, 20, 7e6, Number.NaN],
  ])("refuses %s of %d, %d °C, %d Pa, %d", (quantity, hot, final, permissible, left) => {
    expect(() => stagedCooling(empty, hot, final, permissible, left)).toThrow(
      expect.objectContaining({ name: "OutOfRangeError", quantity }),
    );
  });

  it.each([
    ["thickness", { thickness: 1.9e-4 }],
    ["thickness", { thickness: Number.NaN }],
    ["biot", { film: 0 }],
    ["coefficient", { film: Number.NaN }],
    ["timeConstant", { inside: { timeConstant: 0.9 } }],
    ["timeConstant", { inside: { timeConstant: Number.NaN } }],
    ["biot", { film: 0.1, thickness: 2e-4 }],
    ["conductivity", { glass: { ...BOROSILICATE, conductivity: Number.NaN } }],
    ["density", { glass: { ...BOROSILICATE, density: Number.NaN } }],
    ["modulus", { glass: { ...BOROSILICATE, modulus: Number.NaN } }],
  ])("refuses a wall whose %s is out of range: %o", (quantity, wrong) => {
    expect(() => stagedCooling({ ...empty, ...wrong }, 95, 20, 7e6)).toThrow(
      expect.objectContaining({ name: "OutOfRangeError", quantity }),
    );
  });
});
