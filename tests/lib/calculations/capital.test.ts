import { describe, expect, it } from "vitest";
import { capital } from "../../../lib/calculations/capital.ts";

describe("capital(text)", () => {
  it("sets the first letter in a capital and leaves the rest as it is", () => {
    expect(capital("scale of the kitchen, 0.1 g")).toBe("Scale of the kitchen, 0.1 g");
    expect(capital("pH paper")).toBe("PH paper");
    expect(capital("é")).toBe("É");
  });

  it("leaves a text without a first letter alone", () => {
    expect(capital("")).toBe("");
    expect(capital("2 bottles")).toBe("2 bottles");
  });
});
