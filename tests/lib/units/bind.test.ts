import { describe, expect, it } from "vitest";
import { bindUnits } from "../../../lib/units/bind.ts";

describe("bindUnits(text)", () => {
  it.each([
    ["20 % alcohol", "20~% alcohol"],
    ["from 40 % vol on", "from 40~%~vol on"],
    ["120 W/(m² K), at most", "120~W/(m²~K), at most"],
    ["10 to 15 K an hour", "10 to 15~K an hour"],
    ["0.5 g/100 mL.", "0.5~g/100~mL."],
    ["3.5 mm (2 °C)", "3.5~mm (2~°C)"],
    ["2 L and 3 d", "2~L and 3~d"],
    ["40 %\n  vol at 20\n°C", "40~%~vol at 20~°C"],
  ])("binds in “%s”", (text, bound) => {
    expect(bindUnits(text)).toBe(bound.replaceAll("~", "\u00a0"));
  });
  it.each(["1 in 20", "3 good mornings", "2 mLs", "a % of it", "step 3 more", "12 months"])(
    "leaves “%s”",
    (text) => {
      expect(bindUnits(text)).toBe(text);
    },
  );
});
