import { describe, expect, it } from "vitest";
import { OBSTACLE_CALCULATIONS, survey } from "../../../lib/batch/obstacles.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";

const graph = await loadGraph(OBSTACLE_CALCULATIONS);

describe("survey(graph, values)", () => {
  it("finds nothing in the way of the demonstration, only what wants care", () => {
    const { obstacles } = survey(graph, {});
    expect(obstacles.map(({ id, care }) => [id, care])).toEqual([["recipe flammable", true]]);
  });

  it("asks each calculation once, and none whose answer is known already", () => {
    const evening = graph.evaluate("evening", {});
    const now = survey(graph, {}, (id) => (id === "evening" ? evening : undefined));
    expect(now.outcomeOf("evening")).toBe(evening);
    expect(now.outcomeOf("sonication")).toBe(now.outcomeOf("sonication"));
    expect(now.outcomeOf("sonication")).toEqual(graph.evaluate("sonication", {}));
  });

  it("gives a caution its name, and a refusal its input, never both", () => {
    const { obstacles } = survey(graph, {
      restTime: 300,
      stints: 4,
      coolTarget: 15,
      surroundings: "air",
    });
    const of = (id: string) => obstacles.find((obstacle) => obstacle.id === id);
    expect(of("sonication ceiling")).toMatchObject({ caution: "ceiling" });
    expect(of("sonication ceiling")).not.toHaveProperty("input");
    expect(of("cooling refuses targetTemperature")).toMatchObject({ input: "targetTemperature" });
    expect(of("cooling refuses targetTemperature")?.caution).toBeUndefined();
  });

  it("names each thing once, under the calculation that is at fault", () => {
    const { obstacles } = survey(graph, { alcoholStrength: 0.5 });
    expect(obstacles.filter(({ care }) => !care).map(({ id }) => id)).toEqual([
      "recipe refuses alcoholStrength",
    ]);
  });
});
