import { made, setText } from "../shell/elements.ts";
import type { TextTable } from "./table-rows.ts";

/** Makes a table show these rows: text by text where it has as many, for a new row costs more than a new number. */
export function fillTable(table: HTMLTableElement, { head, rows }: Omit<TextTable, "title">): void {
  const wanted = [head, ...rows];
  const shown = Array.from(table.querySelectorAll("tr"), ({ children }) => Array.from(children));
  const fits =
    shown.length === wanted.length && shown.every((cells, i) => cells.length === wanted[i]?.length);
  if (fits) {
    shown.forEach((cells, i) => cells.forEach((cell, j) => setText(cell, wanted[i]?.[j] ?? "")));
    return;
  }
  table
    .querySelector("thead")
    ?.replaceChildren(made("tr", {}, ...head.map((text) => made("th", { scope: "col" }, text))));
  table
    .querySelector("tbody")
    ?.replaceChildren(
      ...rows.map(([first = "", ...others]) =>
        made(
          "tr",
          {},
          made("th", { scope: "row" }, first),
          ...others.map((text) => made("td", {}, text)),
        ),
      ),
    );
}
