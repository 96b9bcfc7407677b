import { describe, expect, it } from "vitest";
import { headed } from "../../../components/batch/headed.ts";

describe("headed(title, sentence)", () => {
  it("parts a name from what is said by a colon", () => {
    expect(headed("Cooling", "Ice is short.")).toBe("Cooling: Ice is short.");
  });
  it("adds nothing to a question", () => {
    expect(headed("Does it float?", "It may.")).toBe("Does it float? It may.");
  });
});
