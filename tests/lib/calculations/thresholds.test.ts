import { describe, expect, it } from "vitest";
import { flashesFrom } from "../../../lib/calculations/thresholds.ts";
import { flashPoint } from "../../../lib/laws/flash-point.ts";

describe("flashesFrom(massFraction)", () => {
  it("is the low edge of the flash point", () => {
    expect(flashesFrom(0.333)).toBe(flashPoint(0.333)?.low);
    expect(flashesFrom(1)).toBeLessThan(13);
  });

  it("is out of reach for water", () => {
    expect(flashesFrom(0)).toBe(Infinity);
  });
});
