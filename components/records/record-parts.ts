import { made } from "../shell/elements.ts";

/** A button that says what it does, and on which record. */
export function button(act: string, text: string, id?: string): HTMLButtonElement {
  return made(
    "button",
    { type: "button", "data-act": act, ...(id !== undefined && { "data-id": id }) },
    text,
  );
}

type Cell = Node | string;

/** Rows that belong together, under a title of their own. */
export interface RowGroup {
  readonly title: string;
  readonly rows: readonly (readonly Cell[])[];
}

/** A table in groups of rows, that scrolls by itself where it is wider than the page. */
export function table(
  name: string,
  head: readonly string[],
  groups: readonly RowGroup[],
): HTMLElement {
  const cells = (row: readonly Cell[]): HTMLElement[] =>
    row.map((cell, i) => (i === 0 ? made("th", { scope: "row" }, cell) : made("td", {}, cell)));
  return made(
    "div",
    { class: "scroll", tabindex: "0", role: "region", "aria-label": name },
    made(
      "table",
      {},
      made("thead", {}, made("tr", {}, ...head.map((text) => made("th", { scope: "col" }, text)))),
      ...groups.map(({ title, rows }) =>
        made(
          "tbody",
          {},
          made(
            "tr",
            { class: "group" },
            made("th", { scope: "rowgroup", colspan: String(head.length) }, title),
          ),
          ...rows.map((row) => made("tr", {}, ...cells(row))),
        ),
      ),
    ),
  );
}
