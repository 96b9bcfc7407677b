import { describe, expect, it } from "vitest";
import { GEAR_SECTIONS } from "../../../components/gear/sections.ts";
import { GEAR_KEYS, GEAR_KINDS } from "../../../lib/batch/gear.ts";
import { keyOf } from "../../../lib/calculations/graph.ts";
import { graph } from "../../helpers/calculations.ts";

const keysOf = ({ first, more }: (typeof GEAR_SECTIONS)[number]): readonly string[] =>
  [...first, ...more.flatMap(({ groups }) => groups)].flatMap(({ calculation, inputs }) =>
    inputs.map((input) => keyOf(graph.get(calculation), input)),
  );

describe("GEAR_SECTIONS", () => {
  it("asks for every kind once, in order", () => {
    expect(GEAR_SECTIONS.map(({ kind }) => kind)).toEqual(GEAR_KINDS);
  });

  it.each(GEAR_SECTIONS)("asks under $title only for what belongs to it, and once", (section) => {
    const keys = keysOf(section);
    expect(keys.filter((key) => !GEAR_KEYS[section.kind].includes(key))).toEqual([]);
    expect(keys).toEqual([...new Set(keys)]);
  });

  it.each(GEAR_SECTIONS)("asks under $title for every number that no link gives", (section) => {
    const unlinked = GEAR_KEYS[section.kind].filter((key) => !key.includes("."));
    expect(unlinked.filter((key) => !keysOf(section).includes(key))).toEqual([]);
  });
});
