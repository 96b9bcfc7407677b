import { describe, expect, it } from "vitest";
import { figureData } from "../../../components/figure/data.ts";
import { SERVING_LIMITS } from "../../../lib/laws/serving.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const CONTENTS = {
  "serving.ascorbicAcidConcentration": 100,
  "serving.lecithinConcentration": 60,
  "serving.alcoholStrength": 0.12,
  "serving.bottleVolume": 0.25e-3,
};

describe("serving", () => {
  it("weighs the alcohol of published measures", () => {
    // UK Chief Medical Officers: 25 mL at 40 % vol is 10 mL of pure alcohol, 7.89 g. seen
    const unit = valuesOf("serving", {
      ...CONTENTS,
      servingVolume: 25e-6,
      "serving.alcoholStrength": 0.4,
    });
    expect(unit["ethanolVolume"]).toBeCloseTo(10e-6, 12);
    expect(unit["ethanolMass"]).toBeCloseTo(7.89e-3, 5);
  });

  it("takes each part of the serving from its share of the liquid", () => {
    // By hand: 10 mL of 100 g/L, 60 g/L and 12 % vol.
    const values = valuesOf("serving", {
      ...CONTENTS,
      servingVolume: 10e-6,
      "serving.entrapment": 0.2,
    });
    expect(values["ascorbicAcidMass"]).toBeCloseTo(1e-3, 12);
    expect(values["lecithinMass"]).toBeCloseTo(0.6e-3, 12);
    expect(values["enclosedMass"]).toBeCloseTo(0.2e-3, 12);
    // Institute of Medicine (2000): 2000 mg a day. seen
    expect(values["shareOfUpperIntake"]).toBeCloseTo(0.5, 12);
    expect(values["servingsPerBottle"]).toBe(25);
    // And what a label says of 100 mL.
    expect(values["ascorbicAcidIn100mL"]).toBeCloseTo(10e-3, 12);
    expect(values["lecithinIn100mL"]).toBeCloseTo(6e-3, 12);
    expect(values["strength"]).toBe(0.12);
  });

  it("follows what was really weighed in", () => {
    const planned = valuesOf("serving", {});
    const more = valuesOf("serving", {
      "composition.ascorbicAcidMass": 0.055,
    });
    const ratio = more["ascorbicAcidMass"]! / planned["ascorbicAcidMass"]!;
    // A tenth more acid, in a little more liquid.
    expect(ratio).toBeGreaterThan(1.09);
    expect(ratio).toBeLessThan(1.1);
    expect(more["ethanolMass"]).toBeLessThan(planned["ethanolMass"]!);
  });

  it("is as unsure as the measure it is poured with, and more", () => {
    const { ascorbicAcidMass } = evaluated("serving", CONTENTS).values;
    // 5 % of a measuring cup, doubled.
    expect(ascorbicAcidMass!.high / ascorbicAcidMass!.value).toBeCloseTo(1.1, 9);
  });

  it("holds no acid and no alcohol where the liquid has none", () => {
    const values = valuesOf("serving", {
      ...CONTENTS,
      "serving.ascorbicAcidConcentration": 0,
      "serving.alcoholStrength": 0,
    });
    expect(values).toMatchObject({ ascorbicAcidMass: 0, ethanolMass: 0, shareOfUpperIntake: 0 });
  });

  it("refuses a serving larger than what is in the bottle", () => {
    expect(refusalsOf("serving", { ...CONTENTS, servingVolume: 0.25e-3 })).toEqual([]);
    const refused = refusalsOf("serving", { ...CONTENTS, servingVolume: 0.251e-3 });
    expect(refused).toMatchObject([
      { input: "servingVolume", says: expect.stringContaining("to 250") },
    ]);
  });

  it("takes what may be inside from the vesicles of the same liquid, and no more", () => {
    const { enclosedMass, ascorbicAcidMass } = valuesOf("serving", {});
    const { entrapmentBound } = valuesOf("entrapment", {});
    expect(enclosedMass! / ascorbicAcidMass!).toBeCloseTo(entrapmentBound!, 12);
    // Typed in, it is a guess, doubted by half of itself: a factor of e² up, what the cup is off aside.
    const typed = evaluated("serving", { ...CONTENTS, "serving.entrapment": 0.2 }).values;
    const { value, low, high } = typed["enclosedMass"]!;
    expect(low).toBeGreaterThan(0);
    expect(high / value).toBeGreaterThan(2);
  });

  it.each([
    ["servingVolume", "servingVolume", SERVING_LIMITS.servingVolume],
    ["entrapment", "serving.entrapment", SERVING_LIMITS.entrapment],
  ] as const)("takes a %s up to its ends and refuses what lies beyond", (name, key, limits) => {
    const { min, max } = limits;
    const batch = { ...CONTENTS, "serving.bottleVolume": 0.02 };
    for (const value of [min, max])
      expect(refusalsOf("serving", { ...batch, [key]: value })).toEqual([]);
    for (const value of [min - 1e-8, max * 1.01, Number.NaN])
      expect(refusalsOf("serving", { ...batch, [key]: value })).toMatchObject([{ input: name }]);
  });

  it("warns from a serving that holds a whole day’s upper level, and not before", () => {
    const at = (servingVolume: number) => cautionsOf("serving", { ...CONTENTS, servingVolume });
    expect(at(19.99e-6)).toEqual([]);
    expect(at(20.01e-6)).toEqual(["upper-intake"]);
  });

  it("draws the line through the serving, and the upper level where it is", () => {
    const batch = { ...CONTENTS, servingVolume: 10e-6 };
    const outcome = evaluated("serving", batch);
    const data = figureData(graph, graph.get("serving"), "acid-by-serving", outcome, batch);
    if (!("lines" in data)) throw new Error("a curve was expected");
    expect(data.marks).toEqual([{ x: 10e-6, y: 1e-3, label: "yours" }]);
    expect(data.rules).toEqual([{ y: 2e-3, label: "upper level for a day" }]);
    expect(data.lines[0]?.points.at(-1)?.[1]).toBeGreaterThan(2e-3);
    const [, low, high] = data.bands?.[0]?.points.at(-1) ?? [];
    // 5 % of a measuring cup, doubled, either way.
    expect(high! / low!).toBeCloseTo(1.1 / 0.9, 6);
  });
});
