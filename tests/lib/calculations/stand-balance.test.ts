import { describe, expect, it } from "vitest";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";
import { say } from "../../../lib/calculations/say.ts";

const BATCH = {
  baseAhead: 0.16,
  baseBehind: 0.04,
  baseMass: 1.5,
  rodMass: 0.3,
  clampMass: 0.35,
  clampArm: 0.1,
  armLength: 0.25,
  "stand-balance.load": 0.75,
  counterweightMass: 0,
  counterweightArm: 0.04,
  safetyFactor: 1.5,
  pushHeight: 0.45,
};
const with_ = (moved: object) => ({ ...BATCH, ...moved });
const HEAVY = with_({ "stand-balance.load": 1.2, armLength: 0.4 });

describe("stand-balance", () => {
  it("carries what hangs in the bath, as if it hung in air", () => {
    const deep = valuesOf("stand-balance", { immersion: 0.08 });
    const shallow = valuesOf("stand-balance", { immersion: 0.02 });
    expect(deep["tippingMoment"]).toBe(shallow["tippingMoment"]);
    const { hungMass } = valuesOf("hang", {});
    expect(deep["tippingMoment"]).toBeCloseTo(9.80665 * hungMass! * 0.09, 12);
  });

  it("gives the wanted factor once the counterweight needed is laid on", () => {
    const { counterweightNeeded } = valuesOf("stand-balance", HEAVY);
    const laid = { ...HEAVY, counterweightMass: counterweightNeeded! };
    expect(valuesOf("stand-balance", laid)["factor"]).toBeCloseTo(1.5, 12);
    expect(cautionsOf("stand-balance", laid)).toEqual([]);
    expect(cautionsOf("stand-balance", { ...laid, counterweightMass: 1.064 })).toEqual(["tipping"]);
  });

  it("asks for the same counterweight whatever lies there already, and its offer lays it on", () => {
    const { counterweightNeeded } = valuesOf("stand-balance", HEAVY);
    expect(
      valuesOf("stand-balance", { ...HEAVY, counterweightMass: 0.7 })["counterweightNeeded"],
    ).toBe(counterweightNeeded);
    const { "stand-balance.load": load, ...rest } = HEAVY;
    const offer = graph.get("stand-balance").offers?.[0];
    expect(offer?.take({ ...rest, load })).toEqual({ counterweightMass: counterweightNeeded });
    const hopeless = offer?.take({ ...rest, load: 60, armLength: 1.5 });
    expect(Array.isArray(hopeless)).toBe(true);
  });

  it("tips at the push it says, and needs none where it falls by itself", () => {
    const { restoringMoment, tippingMoment, pushToTip } = valuesOf("stand-balance", BATCH);
    expect(pushToTip! * 0.45 + tippingMoment!).toBeCloseTo(restoringMoment!, 12);
    expect(valuesOf("stand-balance", HEAVY)["pushToTip"]).toBe(0);
  });

  it("says none where nothing hangs out past the base", () => {
    const inside = valuesOf("stand-balance", with_({ armLength: 0.16 }));
    expect(inside).not.toHaveProperty("factor");
    expect(inside["tippingMoment"]).toBe(0);
    expect(cautionsOf("stand-balance", with_({ armLength: 0.16 }))).toEqual([]);
  });

  it("counts a clamp that hangs out too", () => {
    const out = valuesOf("stand-balance", with_({ clampArm: 0.2 }));
    expect(out["tippingMoment"]).toBeCloseTo(9.80665 * (0.75 * 0.09 + 0.35 * 0.04), 12);
  });

  it("falls backwards where the counterweight hangs out behind and the beaker is off", () => {
    // Behind: 1.5 × 0.10 + 0.3 × 0.04 + 0.35 × 0.14 = 0.211 kg m against 3 × 0.10. computed
    const batch = with_({ counterweightMass: 3, counterweightArm: 0.14 });
    const { factorBehind } = valuesOf("stand-balance", batch);
    expect(factorBehind).toBeCloseTo(0.211 / 0.3, 12);
    const { cautions } = evaluated("stand-balance", batch);
    expect(cautions.map(({ caution }) => caution)).toEqual(["tipping"]);
    expect(say(cautions[0]!.say)).toMatch(/backwards/);
  });

  it("speaks up below the wanted factor, and not at it", () => {
    const { factor } = valuesOf("stand-balance", BATCH);
    const at = (safetyFactor: number) => cautionsOf("stand-balance", with_({ safetyFactor }));
    expect(at(factor!)).toEqual([]);
    expect(at(factor! * (1 + 1e-6))).toEqual(["tipping"]);
  });

  it.each([
    [HEAVY, /tips over/],
    [with_({ safetyFactor: 4 }), /you want 4/],
  ])("says what to do: %o", (batch, says) => {
    const [notice] = evaluated("stand-balance", batch).cautions;
    expect(say(notice!.say)).toMatch(says);
  });

  it.each([
    ["counterweightArm", { counterweightArm: -0.05 }, /side of the bath/],
    ["clampArm", { clampArm: 0.3 }, /past the beaker/],
    ["baseAhead", { baseAhead: 0 }, /must be/],
    ["armLength", { armLength: 0 }, /must be/],
    ["baseMass", { baseMass: 0 }, /must be/],
  ])("refuses %s in plain words: %o", (input, moved, says) => {
    const refusals = refusalsOf("stand-balance", with_(moved));
    expect(refusals.map((refusal) => refusal.input)).toEqual([input]);
    expect(refusals[0]?.says).toMatch(says);
  });
});
