import { describe, expect, it } from "vitest";
import { within } from "../../../lib/calculations/within.ts";

describe("within(value, share, below)", () => {
  it("lies the share either way", () => {
    expect(within(40, 0.25)).toEqual({ value: 40, low: 30, high: 50 });
  });

  it("may lie less far below", () => {
    expect(within(40, 0.25, 0.1)).toEqual({ value: 40, low: 36, high: 50 });
  });

  it("keeps low below high for a value below nothing", () => {
    expect(within(-40, 0.25)).toEqual({ value: -40, low: -50, high: -30 });
  });
});
