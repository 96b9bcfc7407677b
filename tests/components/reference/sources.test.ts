import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CALCULATION_IDS, REGISTRY } from "../../../lib/calculations/registry.ts";

const content = new URL("../../../content/", import.meta.url);

function read(path: string): string {
  return readFileSync(new URL(path, content), "utf8");
}

interface Source {
  readonly id: string;
  readonly cite: string;
  readonly how: string;
}

const sources = JSON.parse(read("sources.json")) as readonly Source[];
const sourceIds = new Set(sources.map(({ id }) => id));

/** Caution id → the source ids of its frontmatter. */
const cautions = new Map(
  readdirSync(new URL("cautions/", content))
    .filter((file) => file.endsWith(".mdx"))
    .map((file) => {
      const list = /^sources:\s*\[([^\]]*)\]/m.exec(read(`cautions/${file}`))?.[1] ?? "";
      const ids = list.split(",").map((id) => id.trim());
      return [file.replace(/\.mdx$/, ""), ids.filter((id) => id !== "")] as const;
    }),
);

function duplicates(ids: readonly string[]): readonly string[] {
  return ids.filter((id, i) => ids.indexOf(id) !== i);
}

describe("content/sources.json", () => {
  it("names each source once", () => {
    expect(duplicates(sources.map(({ id }) => id))).toEqual([]);
  });
  it("says of each how it was consulted", () => {
    const unsaid = sources.filter(
      ({ cite, how }) =>
        cite === "" || !["seen", "memory", "computed", "common practice"].includes(how),
    );
    expect(unsaid).toEqual([]);
  });
});

describe("calculations", () => {
  it.each(CALCULATION_IDS)("%s names only sources and cautions that exist", async (id) => {
    const calculation = await REGISTRY[id]();
    expect(calculation.sources.filter((source) => !sourceIds.has(source))).toEqual([]);
    const named = (calculation.cautions ?? []).map(({ caution }) => caution);
    expect(named.filter((caution) => !cautions.has(caution))).toEqual([]);
  });
});

describe("cautions", () => {
  it.each([...cautions])("%s names at least one source, and only those that exist", (_, ids) => {
    expect(ids).not.toEqual([]);
    expect(ids.filter((id) => !sourceIds.has(id))).toEqual([]);
  });
  it.each([...cautions.keys()])("%s says what can happen, what to do and who says so", (id) => {
    const leads = [...read(`cautions/${id}.mdx`).matchAll(/^\*\*(.+?)\*\*/gm)].map((m) => m[1]);
    expect(leads).toEqual(["What can happen.", "What to do.", "Who says so."]);
  });
});

describe("content/glossary/terms.json", () => {
  const terms = JSON.parse(read("glossary/terms.json")) as readonly {
    readonly id: string;
    readonly definition: string;
  }[];
  it("explains each term once", () => {
    expect(duplicates(terms.map(({ id }) => id))).toEqual([]);
    expect(terms.filter(({ definition }) => definition === "")).toEqual([]);
  });
});
