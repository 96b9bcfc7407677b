import { describe, expect, it } from "vitest";
import { differenceTexts, isOwn, readingsSay } from "../../../components/gear/gear-text.ts";
import { differsFromGear, gearFrom } from "../../../lib/batch/gear.ts";
import { EMPTY_BATCH, type Batch } from "../../../lib/batch/record.ts";
import type { Rows } from "../../../lib/calculations/calculation.ts";
import { firstUnit } from "../../../lib/calculations/say.ts";
import { graph, valuesOf } from "../../helpers/calculations.ts";

const GEAR_ID = "0a1b2c3d";
const batchWith = (values: Batch["values"]): Batch => ({ ...EMPTY_BATCH, values });
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

describe("isOwn(graph, values, kind, key)", () => {
  it("is true of what was entered, whatever its value", () => {
    expect(isOwn(graph, { readability: 1e-4 }, "scale", "readability")).toBe(true);
    expect(isOwn(graph, { readability: 1e-4 }, "scale", "linearity")).toBe(false);
  });

  it("is true of what follows from something of the same gear", () => {
    const log = [
      [0, 4],
      [3600, 5],
    ];
    const key = "storage-loss.temperature";
    expect(isOwn(graph, {}, "fridge", key)).toBe(false);
    expect(isOwn(graph, { meanActivationEnergy: 8e4 }, "fridge", key)).toBe(false);
    expect(isOwn(graph, { fridgeLog: log }, "fridge", key)).toBe(true);
  });
});

describe("differenceTexts(graph, differences, name, unitFor)", () => {
  it("says of each kind of input what is here and what is in the gear", () => {
    const rows = [[0, 20, 20, 1]];
    const gear = gearFrom(
      batchWith({ ratedPower: 80, knownFrom: "readings", heatReadings: rows }),
      "bath",
      "Deep",
      GEAR_ID,
    );
    const batch = batchWith({ ratedPower: 120, "sonication.powerToBath": 30 });
    expect(
      differenceTexts(graph, differsFromGear(batch, gear), "Deep", firstUnit).map(plain),
    ).toEqual([
      "What is known of the bath: the demonstration’s here, my own readings in “Deep”",
      "Rated ultrasonic power: 120 W here, 80 W in “Deep”",
      "Your readings of liquid and bath: the demonstration’s here, readings (1) in “Deep”",
      "Power to the bath: 30 W here, worked out in “Deep”",
    ]);
  });
});

describe("readingsSay(graph, evening, rows, unitFor)", () => {
  const readings = graph.get("heat-fit").inputs["readings"];
  const rows = readings?.default as Rows;
  const evening = batchWith({ roomTemperature: 21, batchVolume: 0.4e-3 });

  it("tells the powers that the calculation of the fit gives, with their standard errors", () => {
    const said = readingsSay(graph, evening, rows, firstUnit);
    const fit = valuesOf("heat-fit", {
      ...evening.values,
      heatReadings: rows,
      readingRoom: 21,
    });
    const liquid = (fit["powerToLiquid"] ?? 0).toFixed(2);
    const error = (fit["powerToLiquidError"] ?? 0).toFixed(2);
    expect(plain(said.text)).toContain("From 31 readings in a room of 21 °C:");
    expect(plain(said.text)).toContain(`to the liquid ${liquid} W (standard error ${error} W)`);
    const heat = valuesOf("heat-capacity", evening.values);
    expect(said).toMatchObject({
      ok: true,
      evening: { liquid: heat["liquidHeatCapacity"], bath: heat["bathHeatCapacity"], room: 21 },
    });
  });

  it("does not fit with what an earlier evening’s beaker took up", () => {
    const pinned = batchWith({ ...evening.values, "heat-fit.liquidHeatCapacity": 500 });
    expect(readingsSay(graph, pinned, rows, firstUnit)).toEqual(
      readingsSay(graph, evening, rows, firstUnit),
    );
  });

  it("refuses in the fit’s own words", () => {
    expect(readingsSay(graph, evening, rows.slice(0, 3), firstUnit)).toEqual({
      ok: false,
      text: expect.stringMatching(/^There are too few readings for a fit/),
    });
    const still = rows
      .slice(0, 8)
      .map(([time, ...others]) => [time ?? 0, ...others.slice(0, 2), 0]);
    expect(readingsSay(graph, evening, still, firstUnit)).toEqual({
      ok: false,
      text: expect.stringMatching(/^The bath never runs/),
    });
  });
});
