import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  evaporate,
  EVAPORATION_LIMITS,
  headspaceEthanol,
  type Hole,
  holeConductance,
  type Liquid,
  type Loss,
  NEAREST_BOILING,
  type Room,
  surfaceAirRatio,
  topUp,
  type Vessel,
} from "../../../lib/laws/evaporation.ts";
import { diffusivity } from "../../../lib/substances/diffusivity.ts";
import { moleFraction } from "../../../lib/substances/ethanol-water.ts";
import { totalPressure } from "../../../lib/substances/ethanol-water-vapour.ts";

const RUNS = { seed: 20252, numRuns: 200 };

/** 60 cm² of surface. */
const DIAMETER = Math.sqrt((4 * 60e-4) / Math.PI);
const OPEN = { diameter: DIAMETER, freeboard: 0.03, cover: { kind: "open" } } as const;
const WARM = { mass: 0.45, massFraction: 0.2, temperature: 40 };
const ROOM = { temperature: 25, humidity: 0.5, pressure: 101_325, airSpeed: 0 };
const COLD = { mass: 0.3, massFraction: 0.4, temperature: 20 };
const COLD_ROOM = { ...ROOM, temperature: 20 };
const HALF_HOUR = 1800;

/** What half an hour would take at the rate of the first second, kg. */
const atFirst = (liquid: Liquid, room: Room, end: "low" | "high", vessel: Vessel = OPEN): Loss => {
  const loss = evaporate(liquid, vessel, room, 1)[end];
  return { ...loss, ethanol: loss.ethanol * HALF_HOUR, water: loss.water * HALF_HOUR };
};
/** The still air over the rim counts as π/8 diameters more of freeboard. */
const FREEBOARD_SHARE = OPEN.freeboard / (OPEN.freeboard + (Math.PI / 8) * DIAMETER);
const withHoles = (hole: Partial<Hole> & { readonly count?: number } = {}): Vessel => ({
  ...OPEN,
  cover: { kind: "holes", count: 1, diameter: 0.001, thickness: 12e-6, ...hole },
});

describe("evaporate(liquid, vessel, room, duration)", () => {
  it("is at least what diffuses through the freeboard and the air over the rim", () => {
    // Stefan's law with the formulas of this notebook, first rate held, no end over the rim: 0.46123 g of
    // ethanol and 0.37702 g of water from 20 % mass at 40 °C; 0.21692 g and 0.055899 g from 40 % mass at 20
    // °C. computed
    const warm = atFirst(WARM, ROOM, "low");
    expect(Math.abs(warm.ethanol * 1000 - 0.46123 * FREEBOARD_SHARE)).toBeLessThan(0.0005);
    expect(Math.abs(warm.water * 1000 - 0.37702 * FREEBOARD_SHARE)).toBeLessThan(0.0005);
    const cold = atFirst(COLD, COLD_ROOM, "low");
    expect(Math.abs(cold.ethanol * 1000 - 0.21692 * FREEBOARD_SHARE)).toBeLessThan(0.0005);
    expect(Math.abs(cold.water * 1000 - 0.055899 * FREEBOARD_SHARE)).toBeLessThan(0.0005);
  });

  it("is at most what rises from a beaker filled to the brim", () => {
    // Horizontal surface facing up, Sh = 0.54 Ra^¼: 4.0189 g of ethanol and 2.7477 g of water. computed
    const { ethanol, water } = atFirst(WARM, ROOM, "high");
    expect(Math.abs(ethanol * 1000 - 4.0189)).toBeLessThan(0.002);
    expect(Math.abs(water * 1000 - 2.7477)).toBeLessThan(0.002);
  });

  it("slows down as the ethanol leaves: the strength is 19.41 % mass after half an hour", () => {
    // With the first rate held it would be 19.399 %. computed
    const { high } = evaporate(WARM, OPEN, ROOM, HALF_HOUR);
    expect(high.massFraction).toBeGreaterThan(0.19399);
    expect(high.massFraction).toBeLessThan(0.19415);
    expect(high.ethanol).toBeLessThan(atFirst(WARM, ROOM, "high").ethanol);
  });

  it("has half the free convection where the air at the surface is heavier", () => {
    // Nearly equal densities make both weak: a draught of ordinary room air is what counts.
    const still = evaporate(COLD, OPEN, COLD_ROOM, HALF_HOUR).high;
    const draught = evaporate(COLD, OPEN, { ...COLD_ROOM, airSpeed: 0.2 }, HALF_HOUR).high;
    expect(draught.ethanol / still.ethanol).toBeGreaterThan(2);
  });

  it("goes with the root of a strong draught", () => {
    const at = (airSpeed: number): number =>
      atFirst(COLD, { ...COLD_ROOM, airSpeed }, "high").ethanol;
    expect(at(0.8) / at(0.2)).toBeCloseTo(2, 4);
  });

  it("takes less from each square centimetre the longer the draught's way over it", () => {
    // Sh = 0.664 Re^½ Sc^⅓: a speed that goes with d^−½, over an area that goes with d².
    const at = (diameter: number): number =>
      atFirst(COLD, { ...COLD_ROOM, airSpeed: 1 }, "high", { ...OPEN, diameter }).ethanol;
    expect(at(0.2) / at(0.05)).toBeCloseTo(4 ** 1.5, 3);
  });

  it("favours the vapour that diffuses faster less in a draught than in still air", () => {
    // D^⅔ against D.
    const favoured = (end: "low" | "high"): number => {
      const { ethanol, water } = atFirst(COLD, { ...COLD_ROOM, airSpeed: 1 }, end);
      return water / ethanol;
    };
    const speeds = diffusivity("water", 20, 101_325) / diffusivity("ethanol", 20, 101_325);
    expect(favoured("low") / favoured("high")).toBeCloseTo(Math.cbrt(speeds), 3);
  });

  it("does the same in two halves as in one", () => {
    const whole = evaporate(WARM, OPEN, ROOM, 2 * HALF_HOUR);
    for (const end of ["low", "high"] as const) {
      const first = evaporate(WARM, OPEN, ROOM, HALF_HOUR)[end];
      const then = evaporate({ ...WARM, ...first }, OPEN, ROOM, HALF_HOUR)[end];
      expect(then.massFraction).toBeCloseTo(whole[end].massFraction, 8);
      expect(first.ethanol + then.ethanol).toBeCloseTo(whole[end].ethanol, 9);
    }
  });

  it("takes twice as much from twice the mass in twice the time", () => {
    const once = evaporate(WARM, OPEN, ROOM, HALF_HOUR).high;
    const twice = evaporate({ ...WARM, mass: 0.9 }, OPEN, ROOM, 2 * HALF_HOUR).high;
    expect(twice.massFraction).toBeCloseTo(once.massFraction, 9);
    expect(twice.ethanol / once.ethanol).toBeCloseTo(2, 7);
  });

  it("leaves water behind, and at last nothing", () => {
    const { low, high } = evaporate({ ...COLD, mass: 0.05 }, OPEN, ROOM, 20 * 86_400);
    expect(low.massFraction).toBeLessThan(1e-6);
    expect(low.mass).toBeGreaterThan(0);
    expect(high.mass).toBe(0);
    expect(high.ethanol).toBeCloseTo(0.02, 12);
    expect(high.water).toBeCloseTo(0.03, 12);
  });

  it("takes up water from humid air when the liquid is cold", () => {
    const { low, high } = evaporate({ ...COLD, temperature: 5 }, OPEN, ROOM, HALF_HOUR);
    for (const loss of [low, high]) {
      expect(loss.water).toBeLessThan(0);
      expect(loss.ethanol).toBeGreaterThan(0);
    }
  });

  it("keeps pure water in balance with air of its own temperature and full of moisture", () => {
    const { high } = evaporate(
      { mass: 0.3, massFraction: 0, temperature: 20 },
      OPEN,
      { ...COLD_ROOM, humidity: 1 },
      86_400,
    );
    expect(high.ethanol).toBe(0);
    expect(high.water).toBeCloseTo(0, 12);
  });

  it("loses nothing in no time and under a lid", () => {
    const closed = { ...OPEN, cover: { kind: "closed" } } as const;
    for (const { low, high } of [
      evaporate(WARM, OPEN, ROOM, 0),
      evaporate(WARM, closed, ROOM, 86_400),
    ])
      for (const loss of [low, high]) {
        expect(loss).toMatchObject({ ethanol: 0, mass: 0.45, massFraction: 0.2 });
        expect(loss.water).toBeCloseTo(0, 15);
      }
  });

  it("lets 4 to 9 mg in an hour through a hole of 1 mm", () => {
    // Both mouths in still air, without the drag of the vapour (7 %): 4.2341 mg. computed
    const { low, high } = evaporate(WARM, withHoles(), ROOM, 3600);
    const drag = 101_325 / 94_438;
    expect(Math.abs((low.ethanol * 1e6) / (4.2341 * drag) - 1)).toBeLessThan(0.015);
    expect(high.ethanol / low.ethanol).toBeGreaterThan(1.9);
    expect(high.ethanol / low.ethanol).toBeLessThan(2.1);
  });

  it("lets no more through a pierced film than without it", () => {
    const open = evaporate(WARM, OPEN, ROOM, HALF_HOUR);
    for (const count of [1, 30, 1000]) {
      const widest = DIAMETER / Math.sqrt(count);
      for (const diameter of [widest / 10, widest * 0.999]) {
        const covered = evaporate(WARM, withHoles({ count, diameter }), ROOM, HALF_HOUR);
        expect(covered.low.ethanol).toBeLessThan(open.low.ethanol);
        expect(covered.high.ethanol).toBeLessThanOrEqual(open.high.ethanol);
        expect(covered.low.ethanol).toBeLessThan(covered.high.ethanol);
      }
    }
  });

  it("balances, stays between nothing and all, and keeps its ends in order", () => {
    const between = (limits: { readonly min: number; readonly max: number }) =>
      fc.double({ min: limits.min, max: limits.max, noNaN: true });
    const { mass, massFraction, temperature, diameter, freeboard, duration } = EVAPORATION_LIMITS;
    const { roomTemperature, humidity, pressure, airSpeed } = EVAPORATION_LIMITS;
    const cases = fc.record({
      liquid: fc.record({
        mass: between(mass),
        massFraction: between(massFraction),
        temperature: between({ ...temperature, max: 60 }),
      }),
      vessel: fc.record({
        diameter: between(diameter),
        freeboard: between(freeboard),
        cover: fc.constant({ kind: "open" } as const),
      }),
      room: fc.record({
        temperature: between(roomTemperature),
        humidity: between(humidity),
        pressure: between({ ...pressure, min: 80e3 }),
        airSpeed: between(airSpeed),
      }),
      duration: between(duration),
    });
    fc.assert(
      fc.property(cases, ({ liquid, vessel, room, duration }) => {
        const { low, high } = evaporate(liquid, vessel, room, duration);
        expect(low.ethanol).toBeLessThanOrEqual(high.ethanol + 1e-8 * liquid.mass);
        for (const loss of [low, high]) {
          expect(loss.ethanol).toBeGreaterThanOrEqual(0);
          expect(loss.ethanol).toBeLessThanOrEqual(liquid.mass * liquid.massFraction * (1 + 1e-12));
          expect(loss.water).toBeLessThanOrEqual(
            liquid.mass * (1 - liquid.massFraction) * (1 + 1e-12),
          );
          expect(loss.massFraction).toBeGreaterThanOrEqual(0);
          expect(loss.massFraction).toBeLessThanOrEqual(1);
          const sum = loss.ethanol + loss.water + loss.mass;
          expect(Math.abs(sum - liquid.mass)).toBeLessThanOrEqual(
            1e-12 * (liquid.mass + loss.mass),
          );
        }
      }),
      RUNS,
    );
  });

  it("loses more ethanol the longer it stands and the warmer it is", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 3600, noNaN: true }),
        fc.integer({ min: 5, max: 60 }),
        (time, t) => {
          const here = evaporate({ ...WARM, temperature: t }, OPEN, ROOM, time);
          const longer = evaporate({ ...WARM, temperature: t }, OPEN, ROOM, time * 1.1);
          const warmer = evaporate({ ...WARM, temperature: t + 1 }, OPEN, ROOM, time);
          expect(longer.low.ethanol).toBeGreaterThan(here.low.ethanol);
          expect(longer.high.ethanol).toBeGreaterThan(here.high.ethanol);
          expect(warmer.low.ethanol).toBeGreaterThan(here.low.ethanol);
          expect(here.low.ethanol).toBeLessThan(here.high.ethanol);
        },
      ),
      RUNS,
    );
  });

  it("refuses a liquid near boiling and says how warm it may be", () => {
    const hot = { ...WARM, massFraction: 0.5, temperature: 85 };
    const refused = (): unknown => evaporate(hot, OPEN, ROOM, 60);
    let max = Number.NaN;
    try {
      refused();
    } catch (error) {
      if (!(error instanceof OutOfRangeError)) throw error;
      expect(error.quantity).toBe("temperature");
      max = error.limits.max;
    }
    expect(totalPressure(moleFraction(0.5), max) / ROOM.pressure).toBeCloseTo(NEAREST_BOILING, 9);
    const warmest = { ...hot, temperature: max - 1e-6 };
    expect(evaporate(warmest, OPEN, ROOM, 60).high.ethanol).toBeGreaterThan(0);
  });

  it.each([
    ["mass", { ...WARM, mass: 0 }, OPEN, ROOM, 60],
    ["mass", { ...WARM, mass: 21 }, OPEN, ROOM, 60],
    ["massFraction", { ...WARM, massFraction: -0.1 }, OPEN, ROOM, 60],
    ["massFraction", { ...WARM, massFraction: Number.NaN }, OPEN, ROOM, 60],
    ["temperature", { ...WARM, temperature: -0.1 }, OPEN, ROOM, 60],
    ["temperature", { ...WARM, temperature: 90.1 }, OPEN, ROOM, 60],
    ["diameter", WARM, { ...OPEN, diameter: 0 }, ROOM, 60],
    ["diameter", WARM, { ...OPEN, diameter: 0.31 }, ROOM, 60],
    ["freeboard", WARM, { ...OPEN, freeboard: -0.001 }, ROOM, 60],
    ["freeboard", WARM, { ...OPEN, freeboard: 0.6 }, ROOM, 60],
    ["roomTemperature", WARM, OPEN, { ...ROOM, temperature: 41 }, 60],
    ["humidity", WARM, OPEN, { ...ROOM, humidity: 1.1 }, 60],
    ["pressure", WARM, OPEN, { ...ROOM, pressure: 59e3 }, 60],
    ["airSpeed", WARM, OPEN, { ...ROOM, airSpeed: -1 }, 60],
    ["duration", WARM, OPEN, ROOM, -1],
    ["duration", WARM, OPEN, ROOM, 31 * 86_400],
    ["duration", WARM, OPEN, ROOM, Number.NaN],
    ["count", WARM, withHoles({ count: 0 }), ROOM, 60],
    ["count", WARM, withHoles({ count: 1001 }), ROOM, 60],
    ["diameter", WARM, withHoles({ diameter: 0 }), ROOM, 60],
    ["diameter", WARM, withHoles({ diameter: DIAMETER * 1.001 }), ROOM, 60],
    ["diameter", WARM, withHoles({ count: 100, diameter: DIAMETER / 9.99 }), ROOM, 60],
    ["thickness", WARM, withHoles({ thickness: -1e-6 }), ROOM, 60],
  ] as const)("refuses a wrong %s", (quantity, liquid, vessel, room, duration) => {
    const refused = (): unknown => evaporate(liquid, vessel, room, duration);
    expect(refused).toThrow(OutOfRangeError);
    expect(refused).toThrow(expect.objectContaining({ quantity }));
  });
});

describe("holeConductance(hole, diffusivity, mouths)", () => {
  it("is 1.26e-8 m³/s for 1 mm in a thin film", () => {
    // The same formula elsewhere. computed
    const hole = { diameter: 0.001, thickness: 12e-6 };
    expect(Math.abs(holeConductance(hole, 1.279786e-5) / 1.2605e-8 - 1)).toBeLessThan(0.001);
  });

  it("is 2 D r for a hole in a film without thickness, and D A / L for a long tube", () => {
    expect(holeConductance({ diameter: 0.002, thickness: 0 }, 1e-5)).toBeCloseTo(2e-8, 20);
    const tube = holeConductance({ diameter: 1e-5, thickness: 0.05 }, 1e-5);
    expect(tube / ((1e-5 * (Math.PI / 4) * 1e-10) / 0.05)).toBeCloseTo(1, 3);
  });

  it("doubles in a thin film when one end is swept", () => {
    const hole = { diameter: 0.002, thickness: 0 };
    expect(holeConductance(hole, 1e-5, 1) / holeConductance(hole, 1e-5, 2)).toBeCloseTo(2, 12);
  });

  it("refuses what is out of range", () => {
    for (const diameter of [0, 0.31, Number.NaN])
      expect(() => holeConductance({ diameter, thickness: 0 }, 1e-5)).toThrow(OutOfRangeError);
    for (const thickness of [-1e-6, 0.06, Number.NaN])
      expect(() => holeConductance({ diameter: 0.001, thickness }, 1e-5)).toThrow(OutOfRangeError);
    for (const diffusivity of [0, -1, Number.NaN])
      expect(() => holeConductance({ diameter: 0.001, thickness: 0 }, diffusivity)).toThrow(
        OutOfRangeError,
      );
  });
});

describe("surfaceAirRatio(massFraction, temperature, room)", () => {
  it("is below 1 over a warm weak mixture and above 1 over a cool strong one", () => {
    // 1.132 over 1.1767 and 1.2132 over 1.1986 kg/m³. computed
    expect(surfaceAirRatio(0.2, 40, ROOM)).toBeCloseTo(1.132 / 1.1767, 3);
    expect(surfaceAirRatio(0.4, 20, COLD_ROOM)).toBeCloseTo(1.2132 / 1.1986, 3);
  });

  it("is 1.034 over pure ethanol at 20 °C in dry air", () => {
    // 5.86 kPa of a vapour 1.59 times as heavy as air. computed
    const dry = { ...COLD_ROOM, humidity: 0 };
    expect(surfaceAirRatio(1, 20, dry)).toBeCloseTo(1 + (5.861 / 101.325) * 0.5907, 4);
  });

  it("is 1 over water in moist air of its temperature", () => {
    expect(surfaceAirRatio(0, 20, { ...COLD_ROOM, humidity: 1 })).toBeCloseTo(1, 12);
  });

  it("refuses a boiling liquid", () => {
    expect(() => surfaceAirRatio(0.5, 85, ROOM)).toThrow(OutOfRangeError);
  });
});

describe("headspaceEthanol(massFraction, temperature, volume)", () => {
  it.each([
    // Ideal gas in balance, 250 mL over 20 % mass, mg. computed
    [20, 7.6513],
    [40, 22.768],
  ])("at %d °C is %d mg in a quarter of a litre", (temperature, milligrams) => {
    const found = headspaceEthanol(0.2, temperature, 250e-6) * 1e6;
    expect(Math.abs(found / milligrams - 1)).toBeLessThan(0.002);
  });

  it("is nothing over water or in no space, and refuses what is out of range", () => {
    expect(headspaceEthanol(0, 20, 1e-3)).toBe(0);
    expect(headspaceEthanol(0.2, 20, 0)).toBe(0);
    for (const volume of [-1e-6, 0.11, Number.NaN])
      expect(() => headspaceEthanol(0.2, 20, volume)).toThrow(OutOfRangeError);
    for (const temperature of [-1, 91, Number.NaN])
      expect(() => headspaceEthanol(0.2, temperature, 1e-3)).toThrow(OutOfRangeError);
  });
});

describe("topUp(ethanol, spiritMassFraction)", () => {
  it("brings back what was lost", () => {
    const { high } = evaporate(WARM, OPEN, ROOM, HALF_HOUR);
    const spirit = topUp(high.ethanol, 0.333);
    const ethanol = high.mass * high.massFraction + spirit * 0.333;
    expect(ethanol).toBeCloseTo(WARM.mass * WARM.massFraction, 12);
  });

  it("answers at its edges and refuses what lies past them", () => {
    expect(topUp(0, 0.4)).toBe(0);
    expect(topUp(0.1, 1)).toBe(0.1);
    for (const ethanol of [-1e-9, 20.1, Number.NaN])
      expect(() => topUp(ethanol, 0.4)).toThrow(OutOfRangeError);
    for (const fraction of [0, 0.009, 1.01, Number.NaN])
      expect(() => topUp(0.01, fraction)).toThrow(OutOfRangeError);
  });
});
