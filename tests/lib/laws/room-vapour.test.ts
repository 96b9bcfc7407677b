import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { EXPLOSIVE_LIMITS } from "../../../lib/laws/flash-point.ts";
import {
  ALARM_SHARE,
  EXPOSURE_LIMIT,
  ROOM_LIMITS,
  roomVapour,
  timeToClear,
} from "../../../lib/laws/room-vapour.ts";
import { ethanolSaturationPressure } from "../../../lib/substances/vapour-pressure.ts";

const RUNS = { seed: 20254, numRuns: 500 };
const HOUR = 3600;
const ROOM = { volume: 25, airChanges: 0.5 / HOUR, temperature: 25, pressure: 101_325 };
const SHUT = { ...ROOM, airChanges: 0 };
/** 100 mL of 40 % vol, at once. */
const SPILL = { ethanol: 0.03157, duration: 0 };
const ALARM = ALARM_SHARE * EXPLOSIVE_LIMITS.lower;
/** Enough to pass a tenth of the lower limit in that room. */
const MUCH = { ethanol: 0.5, duration: HOUR };

describe("roomVapour(source, room, exposureLimit)", () => {
  it("makes 670 ppm of 100 mL of spilt spirit, 2 % of the lower limit", () => {
    // A mixed box of 25 m³, 24.45 L/mol. computed
    const { peak, shareOfLowerLimit } = roomVapour(SPILL, ROOM);
    expect(Math.abs((peak * 1e6) / 670.2 - 1)).toBeLessThan(0.001);
    expect(Math.abs((shareOfLowerLimit * 100) / 2.0309 - 1)).toBeLessThan(0.001);
  });

  it.each([
    // A steady source of 8.0378 g/h in the same box, ppm. computed
    [0.5, 75.489],
    [2, 215.73],
    [100, 341.27],
  ])("after %d h of a steady source is %d ppm", (hours, ppm) => {
    const source = { ethanol: 8.0378e-3 * hours, duration: hours * HOUR };
    expect(Math.abs((roomVapour(source, ROOM).peak * 1e6) / ppm - 1)).toBeLessThan(0.001);
  });

  it("makes 1884 mg/m³ of 1000 ppm at 25 °C", () => {
    // NIOSH Pocket Guide prints 1.89 mg/m³ for 1 ppm, with 46.1 g/mol. seen
    const source = { ethanol: 1884.2e-6 * ROOM.volume, duration: 0 };
    expect(Math.abs(roomVapour(source, SHUT).shareOfExposureLimit - 1)).toBeLessThan(0.001);
  });

  it("keeps all of it in a shut room, however slow the source", () => {
    const quick = roomVapour(SPILL, SHUT);
    const slow = roomVapour({ ...SPILL, duration: 86_400 }, SHUT);
    expect(slow.peak).toBe(quick.peak);
    expect(roomVapour(MUCH, SHUT)).toMatchObject({ clearOfFire: null, clearOfExposure: null });
  });

  it("is the limit of hardly any air changes", () => {
    const hardly = roomVapour(MUCH, { ...ROOM, airChanges: 1e-12 });
    expect(hardly.peak / roomVapour(MUCH, SHUT).peak).toBeCloseTo(1, 8);
  });

  it("names the air changes that keep the peak at a tenth of the lower limit", () => {
    const { airChangesNeeded, clearOfFire } = roomVapour(MUCH, ROOM);
    expect(clearOfFire).toBeGreaterThan(0);
    const aired = roomVapour(MUCH, { ...ROOM, airChanges: airChangesNeeded ?? Number.NaN });
    expect(aired.peak / ALARM).toBeCloseTo(1, 9);
  });

  it("names them for far too much, where all but one over the changes is gone", () => {
    const flood = { ethanol: 14.08 * 0.622, duration: 7862.4 };
    const room = { volume: 29.971, airChanges: 1 / HOUR, temperature: 21.24, pressure: 60_660 };
    const { airChangesNeeded } = roomVapour(flood, room);
    const { peak } = roomVapour(flood, { ...room, airChanges: airChangesNeeded ?? Number.NaN });
    expect(peak / ALARM).toBeCloseTo(1, 9);
  });

  it("needs none for little, and finds none for a spill that is too much", () => {
    expect(roomVapour(SPILL, ROOM)).toMatchObject({
      airChangesNeeded: 0,
      clearOfFire: 0,
      clearOfExposure: 0,
    });
    expect(roomVapour({ ethanol: 0.5, duration: 0 }, ROOM).airChangesNeeded).toBeNull();
  });

  it("falls to the exposure limit in the time that it says", () => {
    const { peak, clearOfExposure } = roomVapour(MUCH, ROOM);
    const later = peak * Math.exp(-ROOM.airChanges * (clearOfExposure ?? Number.NaN));
    expect(later / EXPOSURE_LIMIT).toBeCloseTo(1, 12);
    const other = roomVapour(MUCH, ROOM, 500e-6);
    expect(other.shareOfExposureLimit).toBeCloseTo(peak / 500e-6, 10);
    expect(other.clearOfExposure).toBeGreaterThan(clearOfExposure ?? Number.NaN);
  });

  it("falls with volume and air changes and rises with the ethanol", () => {
    const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        within(1e-4, 0.2),
        within(0, 86_400),
        within(5, 900),
        within(0, 0.02),
        (ethanol, duration, volume, airChanges) => {
          const room = { ...ROOM, volume, airChanges };
          const { peak } = roomVapour({ ethanol, duration }, room);
          expect(peak).toBeGreaterThan(0);
          expect(roomVapour({ ethanol: ethanol * 1.1, duration }, room).peak).toBeCloseTo(
            peak * 1.1,
            12,
          );
          expect(
            roomVapour({ ethanol, duration }, { ...room, volume: volume * 1.1 }).peak,
          ).toBeLessThan(peak);
          expect(
            roomVapour({ ethanol, duration }, { ...room, airChanges: airChanges + 1e-4 }).peak,
          ).toBeLessThanOrEqual(peak);
        },
      ),
      RUNS,
    );
  });

  it("refuses more vapour than the air takes up and says how much that is", () => {
    const refused = (): unknown => roomVapour({ ethanol: 10, duration: 0 }, ROOM);
    const most = (ethanolSaturationPressure(25) * 25 * 0.046068) / (8.314462618 * 298.15);
    expect(refused).toThrow(
      expect.objectContaining({
        quantity: "ethanol",
        limits: { min: 0, max: expect.closeTo(most, 9) as number, unit: "kg" },
      }) as Error,
    );
    expect(roomVapour({ ethanol: most * 0.9999, duration: 0 }, ROOM).peak).toBeCloseTo(0.0777, 3);
    expect(() => roomVapour({ ethanol: most * 1.0001, duration: 0 }, ROOM)).toThrow(
      OutOfRangeError,
    );
  });

  it.each([
    ["ethanol", { ...SPILL, ethanol: -1e-9 }, ROOM],
    ["ethanol", { ...SPILL, ethanol: 21 }, ROOM],
    ["ethanol", { ...SPILL, ethanol: Number.NaN }, ROOM],
    ["duration", { ...SPILL, duration: -1 }, ROOM],
    ["duration", { ...SPILL, duration: 31 * 86_400 }, ROOM],
    ["volume", SPILL, { ...ROOM, volume: 0 }],
    ["volume", SPILL, { ...ROOM, volume: 1001 }],
    ["airChanges", SPILL, { ...ROOM, airChanges: -1e-9 }],
    ["airChanges", SPILL, { ...ROOM, airChanges: 1 }],
    ["temperature", SPILL, { ...ROOM, temperature: 41 }],
    ["pressure", SPILL, { ...ROOM, pressure: 0 }],
  ] as const)("refuses a wrong %s", (quantity, source, room) => {
    const refused = (): unknown => roomVapour(source, room);
    expect(refused).toThrow(OutOfRangeError);
    expect(refused).toThrow(expect.objectContaining({ quantity }));
  });

  it.each([0, 1.1, Number.NaN])("refuses an exposure limit of %d", (limit) => {
    expect(() => roomVapour(SPILL, ROOM, limit)).toThrow(/^exposureLimit must/);
  });
});

describe("timeToClear(volumeFraction, level, airChanges)", () => {
  it("leaves 406.5 ppm of 670.2 after an hour and 149.54 after three", () => {
    // Half an air change an hour. computed
    expect(timeToClear(670.2e-6, 406.5e-6, 0.5 / HOUR)).toBeCloseTo(HOUR, -1);
    expect(timeToClear(670.2e-6, 149.54e-6, 0.5 / HOUR)).toBeCloseTo(3 * HOUR, -1);
  });

  it("is ln 2 of an air change for a half", () => {
    expect(timeToClear(0.02, 0.01, 1 / HOUR)).toBeCloseTo(HOUR * Math.LN2, 8);
  });

  it("is no time below the level and no end in a shut room", () => {
    expect(timeToClear(0.01, 0.01, 0)).toBe(0);
    expect(timeToClear(0.02, 0.01, 0)).toBeNull();
  });

  it("refuses what is out of range", () => {
    for (const share of [-1e-9, 1.1, Number.NaN])
      expect(() => timeToClear(share, 0.01, 1e-4)).toThrow(OutOfRangeError);
    for (const level of [0, 1.1, Number.NaN])
      expect(() => timeToClear(0.02, level, 1e-4)).toThrow(OutOfRangeError);
    for (const changes of [-1e-9, ROOM_LIMITS.airChanges.max * 1.01, Number.NaN])
      expect(() => timeToClear(0.02, 0.01, changes)).toThrow(OutOfRangeError);
  });
});
