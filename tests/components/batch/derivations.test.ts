import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DERIVED, derivationOf } from "../../../components/batch/derivations.ts";
import { SCHEDULE_CALCULATIONS, scheduleBatch, STAGES } from "../../../lib/batch/schedule.ts";
import { PLAN_CALCULATIONS } from "../../../lib/batch/plan.ts";
import { STAGE_CALCULATIONS } from "../../../lib/batch/stages.ts";
import { isCalculationId, loadGraph } from "../../../lib/calculations/registry.ts";

const content = new URL("../../../content/", import.meta.url);
const graph = await loadGraph();

function read(path: string): string {
  return readFileSync(new URL(path, content), "utf8");
}

/** What a page makes of a heading, as its address after “#”. */
function anchor(heading: string): string {
  return heading
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}\s_-]/gu, "")
    .trim()
    .replaceAll(" ", "-");
}

function anchorsOf(href: string): readonly string[] {
  const [, chapter] = /^\/chapters\/([a-z-]+)\/#/.exec(href) ?? [];
  if (chapter !== undefined)
    return [...read(`chapters/${chapter}.mdx`).matchAll(/^##+ (.+)$/gm)].map(([, heading]) =>
      anchor(heading ?? ""),
    );
  const [, page] = /^\/([a-z-]+)\/#/.exec(href) ?? [];
  return [...read(`pages/${page}.astro`).matchAll(/\bid="([^"]+)"/g)].map(([, id]) => id ?? "");
}

describe("derivationOf(name)", () => {
  it.each(DERIVED)("leads from %s to a place that there is", (name) => {
    const { href = "", text = "" } = derivationOf(name) ?? {};
    expect(anchorsOf(href)).toContain(href.split("#")[1]);
    expect(text).toMatch(/^[A-Z].*[^.]$/);
  });

  it("knows every stage, and every step of an evening by its id", () => {
    for (const stage of STAGES) expect(derivationOf(stage), stage).toBeDefined();
    const scheduled = scheduleBatch(graph, { pulses: 2 });
    for (const { id } of scheduled.ok ? scheduled.steps : [])
      expect(derivationOf(id), id).toBeDefined();
    expect(derivationOf("stint-12")).toEqual(derivationOf("stint"));
  });

  it("knows every calculation that can stand in the way", () => {
    for (const id of [...PLAN_CALCULATIONS, ...STAGE_CALCULATIONS, ...SCHEDULE_CALCULATIONS])
      expect(derivationOf(id), id).toBeDefined();
  });

  it("falls back from a result on its calculation, and gives nothing for what nothing derives", () => {
    expect(derivationOf("hang.weight")).toEqual(derivationOf("hang"));
    expect(derivationOf("moonshine")).toBeUndefined();
  });

  it("names only results that exist", () => {
    for (const name of DERIVED) {
      const [id = "", result] = name.split(".");
      if (result === undefined) continue;
      expect(isCalculationId(id), name).toBe(true);
      expect(Object.keys(graph.get(id).results), name).toContain(result);
    }
  });
});
