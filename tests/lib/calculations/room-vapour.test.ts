import { describe, expect, it } from "vitest";
import { figureData } from "../../../components/figure/data.ts";
import { figureRows } from "../../../components/figure/figure-rows.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const HOUR = 3600;
/** 100 mL of 40 % vol, all at once. */
const SPILL = {
  spilledMass: 0.03157,
  "room-vapour.solventMassFraction": 1,
  roomVolume: 25,
  airChanges: 0.5 / HOUR,
  evaporationTime: 0,
  roomTemperature: 25,
  airPressure: 101_325,
};

describe("room-vapour", () => {
  it("draws the parts per million that it tells", () => {
    const slow = { ...SPILL, evaporationTime: HOUR };
    const outcome = evaluated("room-vapour", slow);
    const drawn = figureData(graph, graph.get("room-vapour"), "over-time", outcome, slow);
    const { rows } = figureRows(drawn, ({ of }) => of.units[0] as string);
    const highest = Math.max(...rows.map(([, parts]) => Number(parts?.replaceAll(/\s/g, ""))));
    expect(highest / (outcome.values["peakParts"]?.value ?? 0)).toBeCloseTo(1, 1);
  });

  it("makes 670 ppm of 100 mL of spilt spirit, 2 % of the lower limit", () => {
    // A mixed box of 25 m³, 24.45 L/mol. computed
    const v = valuesOf("room-vapour", SPILL);
    expect(v["peakParts"]).toBeCloseTo(670.2, 0);
    expect(v["lowerLimitShare"]).toBeCloseTo(0.020309, 4);
    expect(v["exposureShare"]).toBeCloseTo(0.6702, 3);
    expect(v["timeToClear"]).toBe(0);
    expect(v["airChangesNeeded"]).toBe(0);
  });

  it("keeps the share that it says of a slow source", () => {
    const v = valuesOf("room-vapour", { ...SPILL, evaporationTime: 2 * HOUR });
    expect(v["keptShare"]).toBeCloseTo(-Math.expm1(-1), 9);
    expect(v["keptShare"]! * v["shutConcentration"]!).toBeCloseTo(v["peakConcentration"]!, 12);
    expect(v["changesMeanwhile"]).toBeCloseTo(1, 12);
  });

  it("never clears a shut room, and finds no draught for too sudden a flood", () => {
    const flood = { ...SPILL, spilledMass: 0.5 };
    expect(valuesOf("room-vapour", { ...flood, airChanges: 0 })).not.toHaveProperty("timeToClear");
    const aired = valuesOf("room-vapour", flood);
    expect(aired).not.toHaveProperty("airChangesNeeded");
    // ln(C/C_c)/n with C = 500 g and a tenth of the limit at 155 g.
    expect(aired["timeToClear"]! / HOUR).toBeCloseTo(Math.log(0.5 / 0.15544) / 0.5, 2);
  });

  it("has nothing in the air without alcohol", () => {
    const v = valuesOf("room-vapour", { alcoholStrength: 0 });
    expect(v["peakParts"]).toBe(0);
    expect(v["timeToClear"]).toBe(0);
    expect(cautionsOf("room-vapour", { alcoholStrength: 0 })).toEqual([]);
  });

  it("refuses more than the air takes up, and says how much that is", () => {
    const [refusal] = refusalsOf("room-vapour", { ...SPILL, spilledMass: 10, roomVolume: 5 });
    expect(refusal?.input).toBe("spilledMass");
    expect(refusal?.says).toMatch(/no more than 73\d\sg/);
  });

  it("stops the work at a tenth of the lower limit within the band, not before", () => {
    const cautions = (kg: number) =>
      evaluated("room-vapour", { ...SPILL, spilledMass: kg }).cautions.map(({ say }) =>
        say.join(""),
      );
    const high = (kg: number): number =>
      evaluated("room-vapour", { ...SPILL, spilledMass: kg }).values["lowerLimitShare"]!.high;
    const edge = (0.1 * 0.03157) / high(0.03157);
    expect(high(edge)).toBeCloseTo(0.1, 9);
    expect(cautions(edge * 0.999).join()).not.toMatch(/a tenth of what burns/);
    expect(cautions(edge * 1.001)).toHaveLength(1);
    expect(cautions(edge * 1.001)[0]).toMatch(/may hold more than a tenth of what burns/);
    expect(cautions(0.3)[0]).toMatch(/would hold more than a tenth of what burns/);
  });

  it("speaks of the exposure limit above it, in another sentence, and not before", () => {
    const [under, over] = [0.999, 1.001].map((share) => (SPILL.spilledMass * share) / 0.6702);
    expect(cautionsOf("room-vapour", { ...SPILL, spilledMass: under! })).toEqual([]);
    const notices = evaluated("room-vapour", { ...SPILL, spilledMass: over! }).cautions;
    expect(notices.map(({ caution }) => caution)).toEqual(["ventilation"]);
    expect(notices[0]?.say.join("")).toMatch(/workplaces allow/);
  });
});
