import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  calibrated,
  differsFromGear,
  forgetGear,
  GEAR_KEYS,
  GEAR_KINDS,
  gearFrom,
  readGear,
  useGear,
  withReadings,
  writeGear,
  type Gear,
  type GearKind,
} from "../../../lib/batch/gear.ts";
import { EVENING_KEYS } from "../../../lib/batch/log.ts";
import { EMPTY_BATCH, readRecord, writeRecord, type Batch } from "../../../lib/batch/record.ts";
import { keyOf } from "../../../lib/calculations/graph.ts";
import { graph, valuesOf } from "../../helpers/calculations.ts";

const GEAR_ID = "0a1b2c3d";
const OWNED = GEAR_KINDS.flatMap((kind) => GEAR_KEYS[kind]);
const ALL_KEYS = [...graph.calculations.values()].flatMap((calculation) =>
  Object.keys(calculation.inputs).map((input) => keyOf(calculation, input)),
);

const finite = fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => (x === 0 ? 0 : x));
const value = fc.oneof(
  finite,
  fc.string({ maxLength: 20 }),
  fc.array(fc.array(fc.option(finite), { maxLength: 4 }), { maxLength: 4 }),
);
const stray = fc.stringMatching(/^[a-z][a-zA-Z0-9]{0,20}(\.[a-z][a-zA-Z0-9]{0,20})?$/);
const key = fc.oneof(fc.constantFrom(...OWNED), fc.constantFrom(...ALL_KEYS), stray);
const shownIn = fc.oneof(
  key,
  fc.constantFrom("heatReadings.liquidTemperature", "fridgeLog.time", "powerToLiquid"),
);
const of = <T>(keys: fc.Arbitrary<string>, values: fc.Arbitrary<T>) =>
  fc.dictionary(keys, values, { maxKeys: 30, noNullPrototype: true });
const name = fc.string({ maxLength: 40 });
const kind = fc.constantFrom(...GEAR_KINDS);
const batches = fc.record(
  {
    name,
    values: of(key, value),
    units: of(shownIn, fc.constantFrom("g", "kg", "cm")),
    notes: fc.string({ maxLength: 20 }),
    gear: fc.dictionary(kind, name, { noNullPrototype: true }),
  },
  { requiredKeys: ["name", "values", "units", "notes"], noNullPrototype: true },
) satisfies fc.Arbitrary<Batch>;
const pieces: fc.Arbitrary<Gear> = fc
  .tuple(kind, name, batches)
  .map(([of, called, batch]) => gearFrom(batch, of, called, GEAR_ID));
const runs = { seed: 11, numRuns: 300 };

const batchWith = (values: Batch["values"], units: Batch["units"] = {}): Batch => ({
  ...EMPTY_BATCH,
  values,
  units,
});

describe("GEAR_KEYS", () => {
  it("gives a key to one kind at most", () => {
    expect(OWNED).toEqual([...new Set(OWNED)]);
  });

  it("names only keys of calculations", () => {
    expect(OWNED.filter((owned) => !ALL_KEYS.includes(owned))).toEqual([]);
  });

  it("names nothing that belongs to one evening", () => {
    expect(OWNED.filter((owned) => EVENING_KEYS.includes(owned))).toEqual([]);
  });
});

describe("readGear(text)", () => {
  it("reads back whatever was written, exactly", () => {
    fc.assert(
      fc.property(pieces, (gear) => {
        expect(readGear(writeGear(gear))).toEqual({ ok: true, gear });
      }),
      runs,
    );
  });

  it.each([
    ["a batch", writeRecord(EMPTY_BATCH), /another kind/],
    ["no text of ours", "hello", /damaged or of another kind/],
    ["a text too long", "x".repeat(300_000), /too long/],
    ["a newer version", '{"format":"bilayer-bench-gear","version":2,"gear":{}}', /newer version/],
  ])("refuses %s in plain words", (_, text, sentence) => {
    const read = readGear(text);
    expect(read.ok ? "" : read.message).toMatch(sentence);
  });

  it.each([
    ["kind", { kind: "kettle" }],
    ["id", { id: "../x" }],
    ["values.bathLength", { values: { bathLength: null } }],
  ])("says where it is damaged: %s", (where, change) => {
    const gear = gearFrom(EMPTY_BATCH, "bath", "Mine", GEAR_ID);
    const text = writeGear({ ...gear, ...change } as unknown as Gear);
    expect(readGear(text)).toMatchObject({
      ok: false,
      message: expect.stringContaining(`damaged at “gear.${where}”`),
    });
  });

  it("is not a batch to the reader of batches", () => {
    expect(readRecord(writeGear(gearFrom(EMPTY_BATCH, "bath", "Mine", GEAR_ID))).ok).toBe(false);
  });
});

describe("useGear(batch, gear)", () => {
  it("gives a batch that the same gear can be made from again", () => {
    fc.assert(
      fc.property(batches, pieces, (batch, gear) => {
        const used = useGear(batch, gear);
        expect(gearFrom(used, gear.kind, gear.name, gear.id)).toEqual(gear);
        expect(differsFromGear(used, gear)).toEqual([]);
      }),
      runs,
    );
  });

  it("does no more the second time than the first", () => {
    fc.assert(
      fc.property(batches, pieces, (batch, gear) => {
        const used = useGear(batch, gear);
        expect(useGear(used, gear)).toEqual(used);
      }),
      runs,
    );
  });

  it("moves nothing that is not the gear’s own", () => {
    fc.assert(
      fc.property(batches, pieces, (batch, gear) => {
        const { values, units, gear: names, ...rest } = useGear(batch, gear);
        const { values: before, units: unitsBefore, gear: namesBefore, ...restBefore } = batch;
        const others = (all: object, own: (key: string) => boolean): object =>
          Object.fromEntries(Object.entries(all).filter(([key]) => !own(key)));
        const own = (key: string): boolean => GEAR_KEYS[gear.kind].includes(key);
        expect(others(values, own)).toEqual(others(before, own));
        const ownUnit = (key: string): boolean => own(key.split(".")[0] ?? "");
        expect(others(units, ownUnit)).toEqual(others(unitsBefore, ownUnit));
        expect(rest).toEqual(restBefore);
        expect(names).toEqual({ ...namesBefore, [gear.kind]: gear.name });
      }),
      runs,
    );
  });

  it("takes nothing from a piece of gear that is not of its kind", () => {
    const odd: Gear = {
      id: GEAR_ID,
      kind: "scale",
      name: "",
      values: { readability: 1e-3, batchVolume: 1 },
      units: { batchVolume: "L" },
    };
    const used = useGear(EMPTY_BATCH, odd);
    expect(used.values).toEqual({ readability: 1e-3 });
    expect(used.units).toEqual({});
  });

  it("leaves at its default what the gear does not know, rather than as another’s", () => {
    const other = batchWith({ vesselMass: 0.4, beakerVolume: 1e-3, batchVolume: 3e-4 });
    const mine = gearFrom(batchWith({ vesselMass: 0.2 }), "vessel", "Low", GEAR_ID);
    expect(useGear(other, mine).values).toEqual({ vesselMass: 0.2, batchVolume: 3e-4 });
  });
});

describe("gearFrom(batch, kind, name, id)", () => {
  it("takes the units that its numbers are shown in, columns of readings too, and no others", () => {
    const units = { bathLength: "cm", "heatReadings.time": "min", vesselMass: "g" };
    const gear = gearFrom({ ...EMPTY_BATCH, units }, "bath", "Small", GEAR_ID);
    expect(gear.units).toEqual({ bathLength: "cm", "heatReadings.time": "min" });
  });
});

describe("forgetGear(batch, kind)", () => {
  it("takes the name out and no number", () => {
    const gear = gearFrom(batchWith({ vesselMass: 0.2 }), "vessel", "Low", GEAR_ID);
    const scale = gearFrom(batchWith({ readability: 1e-3 }), "scale", "Flat", GEAR_ID);
    const both = useGear(useGear(EMPTY_BATCH, gear), scale);
    const one = forgetGear(both, "vessel");
    expect(one).toEqual({ ...both, gear: { scale: "Flat" } });
    expect(forgetGear(one, "scale")).toStrictEqual(batchWith(both.values));
  });
});

describe("differsFromGear(batch, gear)", () => {
  it("names what was changed, added and taken back, with both values", () => {
    const gear = gearFrom(
      batchWith({ bathLength: 0.24, bathWidth: 0.135, heatReadings: [[0, 20, null, 1]] }),
      "bath",
      "Small",
      GEAR_ID,
    );
    const batch = batchWith({
      bathLength: 0.25,
      bathHeight: 0.1,
      heatReadings: [[0, 20, null, 1]],
      vesselMass: 1,
    });
    expect(differsFromGear(batch, gear)).toEqual([
      { key: "bathLength", batch: 0.25, gear: 0.24 },
      { key: "bathWidth", batch: undefined, gear: 0.135 },
      { key: "bathHeight", batch: 0.1, gear: undefined },
    ]);
  });
});

describe("withReadings(evening, rows)", () => {
  it("leaves nothing in force of what was known of the bath before", () => {
    const rows = [[0, 20, 20, 1]];
    const before = {
      batchVolume: 0.5e-3,
      ratedPower: 80,
      roomTemperature: 26,
      readingRoom: 17,
      "bath-heat.liquidHeatCapacity": 1000,
      "heat-fit.bathHeatCapacity": 9000,
      "sonication.exchangeConductance": 4,
    };
    expect(withReadings(before, rows)).toEqual({
      batchVolume: 0.5e-3,
      ratedPower: 80,
      roomTemperature: 26,
      knownFrom: "readings",
      heatReadings: rows,
      readingRoom: 26,
    });
  });
});

describe("calibrated(gear, rows, evening)", () => {
  const { default: demonstration } = graph.get("heat-fit").inputs["readings"] ?? {};
  const rows = demonstration as readonly (readonly (number | null)[])[];
  const evening = batchWith({ batchVolume: 0.5e-3, ratedPower: 120 });
  const capacity = valuesOf("heat-capacity", evening.values);
  const bath = gearFrom(
    { ...evening, values: { ...evening.values, "sonication.powerToLiquid": 9 } },
    "bath",
    "Small",
    GEAR_ID,
  );
  const known = calibrated(bath, rows, {
    liquid: capacity["liquidHeatCapacity"] ?? 0,
    bath: capacity["bathHeatCapacity"] ?? 0,
    room: 26,
  });
  const powers = (values: Batch["values"]) => {
    const { powerToLiquid, powerToBath, exchangeConductance } = valuesOf("bath-heat", values);
    return { powerToLiquid, powerToBath, exchangeConductance };
  };

  it("has the powers that the readings gave on their evening", () => {
    const that = {
      ...evening.values,
      knownFrom: "readings",
      heatReadings: rows,
      readingRoom: 26,
    };
    const next = useGear(EMPTY_BATCH, known).values;
    expect(powers(next)).toEqual(powers(that));
    expect(valuesOf("heat-fit", next)["powerToLiquid"]).toBeCloseTo(
      powers(that).powerToLiquid ?? 0,
      6,
    );
  });

  it("gives the same powers in a warmer or colder room than that evening’s", () => {
    const { values } = useGear(EMPTY_BATCH, known);
    expect(powers({ ...values, roomTemperature: 17 })).toEqual(powers(values));
    expect(powers({ ...values, readingRoom: 17 })).not.toEqual(powers(values));
  });

  it("gives a larger batch the same powers, and a slower rise", () => {
    const next = useGear(batchWith({ batchVolume: 0.9e-3, beakerVolume: 2e-3 }), known).values;
    const same = useGear(EMPTY_BATCH, known).values;
    expect(powers(next)).toEqual(powers(same));
    const end = (values: Batch["values"]) =>
      valuesOf("sonication", values)["endLiquidTemperature"] ?? 0;
    expect(end(next)).toBeLessThan(end(same));
  });

  it("keeps the rest of the bath, and lets powers that were typed in give way", () => {
    expect(known).toMatchObject({ id: bath.id, name: "Small", values: { ratedPower: 120 } });
    expect(known.values).not.toHaveProperty(["sonication.powerToLiquid"]);
  });

  it.each(["vessel", "scale"] satisfies GearKind[])(
    "knows nothing that belongs to a %s",
    (kind) => {
      const strange = Object.keys(known.values).filter((key) => GEAR_KEYS[kind].includes(key));
      expect(strange).toEqual([]);
    },
  );
});
