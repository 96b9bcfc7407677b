import { expect, it } from "vitest";
import { AIR_DENSITY } from "../../../lib/substances/air.ts";

it("AIR_DENSITY is the conventional one", () => {
  // OIML D 28 and R 111: 1.2 kg/m³. seen
  expect(AIR_DENSITY).toBe(1.2);
});
