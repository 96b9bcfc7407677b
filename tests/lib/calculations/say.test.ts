import { describe, expect, it } from "vitest";
import { amount, phrase, type Banded, type Result } from "../../../lib/calculations/calculation.ts";
import {
  firstUnit,
  say,
  show,
  showAmount,
  showText,
  withBandText,
} from "../../../lib/calculations/say.ts";
import { UnknownUnitError } from "../../../lib/units/units.ts";
import { answer } from "../../helpers/small-calculations.ts";

const MASS = answer({ dimension: "mass", units: ["g", "oz"], digits: 4 });
const TEMPERATURE = answer({ dimension: "temperature", units: ["°C", "°F"], digits: 3 });
const COUNT = answer({ dimension: "count", units: ["1"], digits: 3 });
const GAP = "\u00a0";

/** In grams. */
function banded(value: number, below: number, above = below): Banded {
  return { value: value * 1e-3, low: (value - below) * 1e-3, high: (value + above) * 1e-3 };
}

function shown(value: Banded | null, result: Result = MASS, unit = "g"): string {
  const { number, band } = show(value, result, unit);
  return `${number} ${band}`;
}

describe("show(value, result, unit)", () => {
  it.each([
    // Two digits of a half-width that begins with 1 or 2, else one.
    [250.3, 1.2, "250.3", "1.2"],
    [250.3, 2.9, "250.3", "2.9"],
    [250.3, 2.96, "250", "3"],
    [250.3, 4.2, "250", "4"],
    [250.34, 0.42, "250.3", "0.4"],
    [250.346, 0.12, "250.35", "0.12"],
    [1.25, 0.031, "1.25", "0.03"],
    [0, 0.3, "0.0", "0.3"],
    [-250.3, 1.2, "\u2212250.3", "1.2"],
    [250.3, 34, "250", "34"],
  ])("writes %d ± %d with the digits that the band deserves", (value, half, number, band) => {
    expect(show(banded(value, half), MASS, "g")).toEqual({ number, band: `±${GAP}${band}` });
  });

  it("writes both ends where the sides differ by more than a tenth", () => {
    expect(shown(banded(8.1, 0.9, 1.3))).toBe("8.1 7.2 to 9.4");
    expect(shown(banded(8.1, 1.3, 0.9))).toBe("8.1 6.8 to 9.0");
    expect(shown(banded(100, 0, 5))).toBe("100 100 to 105");
  });

  it("writes one half-width, the larger, where they differ by less", () => {
    expect(shown(banded(8.1, 1.2, 1.3))).toBe(`8.1 ±${GAP}1.3`);
    expect(shown(banded(8.1, 1.3, 1.2))).toBe(`8.1 ±${GAP}1.3`);
    // By a tenth of the larger, to the last bit.
    expect(shown({ value: 20, low: 11, high: 30 }, COUNT, "1")).toBe(`20 ±${GAP}10`);
  });

  it("writes none for null", () => {
    expect(show(null, MASS, "g")).toEqual({ number: "none", band: "" });
  });

  it("leaves a band unsaid that is finer than the digits worth printing", () => {
    // 4 digits of 250.3 g: a half-width of 0.025 g.
    expect(shown(banded(250.3, 0.025))).toBe("250.3 ");
    expect(shown(banded(250.3, 0.026))).toBe(`250.300 ±${GAP}0.026`);
  });

  it("writes a sure value with the result's own digits, zeros too", () => {
    expect(shown(banded(250.3, 0))).toBe("250.3 ");
    expect(shown(banded(250, 0))).toBe("250.0 ");
    expect(shown(banded(1 / 3, 0))).toBe("0.3333 ");
    expect(shown(banded(0, 0))).toBe("0 ");
  });

  it("writes a count with no digits to spare", () => {
    expect(shown({ value: 2, low: 2, high: 2 }, COUNT, "1")).toBe("2 ");
    expect(shown({ value: 12, low: 12, high: 12 }, COUNT, "1")).toBe("12 ");
  });

  it("writes a ratio with all its digits, though it comes near a whole number", () => {
    expect(shown({ value: 2.5, low: 2.5, high: 2.5 }, COUNT, "1")).toBe("2.50 ");
    expect(showAmount(2.9996, COUNT, "1")).toBe("3.00");
  });

  it("writes nothing finer than a result is known to, whatever its band and digits would bear", () => {
    const minutes = answer({ dimension: "time", units: ["min", "h"], digits: 3, finest: 60 });
    const at = (value: number, half: number): Banded => ({
      value: value * 60,
      low: (value - half) * 60,
      high: (value + half) * 60,
    });
    expect(shown(at(104.4, 2.2), minutes, "min")).toBe(`104 ±${GAP}2`);
    expect(shown(at(104.4, 2.2), minutes, "h")).toBe(`1.74 ±${GAP}0.04`);
    expect(shown(at(60, 0), minutes, "min")).toBe("60 ");
    expect(shown(at(8.62, 0.4), minutes, "min")).toBe("9 ");
    expect(shown(at(1044, 90), minutes, "min")).toBe(`1044 ±${GAP}90`);
    expect(showAmount(8.62 * 60, minutes, "min")).toBe(`9${GAP}min`);
  });

  it("turns value and band into the unit", () => {
    expect(shown(banded(283.495_231_25, 28.349_523_125), MASS, "oz")).toBe(`10.0 ±${GAP}1.0`);
  });

  it("does not add a scale's zero to the band", () => {
    expect(shown({ value: 20, low: 19.5, high: 20.5 }, TEMPERATURE, "°F")).toBe(`68.0 ±${GAP}0.9`);
  });

  it("groups long numbers alike in value and band", () => {
    expect(shown(banded(123_456, 12_000))).toBe(`123\u202f456 ±${GAP}12\u202f000`);
  });

  it("writes the word that stands for a value, whatever its band", () => {
    const verdict = answer({ ...COUNT, words: ["yes", "no"] });
    expect(show({ value: 1, low: 0, high: 1 }, verdict, "1")).toEqual({ number: "no", band: "" });
  });

  it("refuses a unit that the dimension does not have", () => {
    expect(() => show(banded(1, 0.1), MASS, "mL")).toThrow(UnknownUnitError);
  });
});

describe("withBandText(shown)", () => {
  it("sets the band behind the number, both ends of it in brackets", () => {
    expect(withBandText({ number: "250.3", band: "± 1.2" })).toBe("250.3 ± 1.2");
    expect(withBandText({ number: "96", band: "29 to 323" })).toBe("96 (29 to 323)");
    expect(withBandText({ number: "96", band: "" })).toBe("96");
  });
});

describe("showText(value, result, unit, plain)", () => {
  it("is number, band and unit, or without the band", () => {
    const value = banded(250.3, 1.2);
    expect(showText(value, MASS, "g")).toBe(`250.3 ±${GAP}1.2${GAP}g`);
    expect(showText(value, MASS, "g", true)).toBe(`250.3${GAP}g`);
  });

  it("is a word alone, without a unit", () => {
    expect(showText(null, { ...MASS, none: "never" }, "g")).toBe("never");
    const verdict = { ...MASS, words: ["yes", "no"] };
    expect(showText({ value: 0, low: 0, high: 1 }, verdict, "g")).toBe("yes");
  });
});

describe("showAmount(value, result, unit)", () => {
  it("writes number and unit on one line", () => {
    expect(showAmount(0.25, MASS, "g")).toBe(`250.0${GAP}g`);
    expect(showAmount(0.028_349_523_125, MASS, "oz")).toBe(`1.000${GAP}oz`);
  });

  it("writes a count bare", () => {
    expect(showAmount(3, COUNT, "1")).toBe("3");
  });
});

describe("say(phrase, unitOf)", () => {
  const sentence = phrase`Take ${amount(0.25, MASS)} at ${amount(20, TEMPERATURE)}.`;

  it("takes the first unit offered where the reader chose none", () => {
    expect(firstUnit(MASS)).toBe("g");
    expect(say(sentence)).toBe(`Take 250${GAP}g at 20${GAP}°C.`);
  });

  it("takes the reader's unit for each kind of amount", () => {
    const choose = ({ dimension }: { dimension: string }) => (dimension === "mass" ? "oz" : "°F");
    expect(say(sentence, choose)).toBe(`Take 8.818${GAP}oz at 68${GAP}°F.`);
  });

  it("gives two digits at least", () => {
    expect(say([amount(0.012_345, { ...MASS, digits: 1 })])).toBe(`12${GAP}g`);
    expect(say([amount(0.012_345_6, { ...MASS, digits: 5 })])).toBe(`12.346${GAP}g`);
  });

  it("is empty for an empty phrase", () => {
    expect(say([])).toBe("");
  });
});
