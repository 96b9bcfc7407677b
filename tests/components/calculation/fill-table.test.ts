import { parseHTML } from "linkedom";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { fillTable } from "../../../components/calculation/fill-table.ts";

let table: HTMLTableElement;

beforeEach(() => {
  const { document, Text } = parseHTML(
    "<!doctype html><html><body><table><caption>Masses</caption><thead><tr><th>Old</th></tr></thead><tbody></tbody></table></body></html>",
  );
  vi.stubGlobal("document", document);
  vi.stubGlobal("Text", Text);
  table = document.querySelector("table") as unknown as HTMLTableElement;
});
afterEach(() => void vi.unstubAllGlobals());

const HEAD = ["What", "Mass"];

function shown(): readonly string[] {
  return Array.from(table.querySelectorAll("tr"), (row) => row.innerHTML);
}

describe("fillTable(table, { head, rows })", () => {
  it("names columns and rows, and keeps the caption", () => {
    fillTable(table, { head: HEAD, rows: [["Water", "310 g"]] });
    expect(shown()).toEqual([
      '<th scope="col">What</th><th scope="col">Mass</th>',
      '<th scope="row">Water</th><td>310 g</td>',
    ]);
    expect(table.querySelector("caption")?.textContent).toBe("Masses");
  });

  it("keeps its rows where there are as many, with all texts new", () => {
    fillTable(table, { head: HEAD, rows: [["Water", "310 g"]] });
    const row = table.querySelector("tbody tr");
    fillTable(table, { head: ["What", "Volume"], rows: [["Spirit", "122 mL"]] });
    expect(table.querySelector("tbody tr")).toBe(row);
    expect(shown()).toEqual([
      '<th scope="col">What</th><th scope="col">Volume</th>',
      '<th scope="row">Spirit</th><td>122 mL</td>',
    ]);
  });

  it.each([
    ["more rows", HEAD, [["Water", "310 g"], ["Spirit", "122 g"]]], // prettier-ignore
    ["no rows", HEAD, []],
    ["more columns", [...HEAD, "Volume"], [["Water", "310 g", "311 mL"]]],
  ])("takes %s than before", (_, head, rows) => {
    fillTable(table, { head: HEAD, rows: [["Acid", "60 g"]] });
    fillTable(table, { head, rows });
    expect(
      Array.from(table.querySelectorAll("tr"), (row) =>
        Array.from(row.children, (cell) => cell.textContent),
      ),
    ).toEqual([head, ...rows]);
  });
});
