import { compareBatches, type ComparedRow } from "../../lib/batch/compare.ts";
import { deviationsOf } from "../../lib/batch/deviations.ts";
import { FACT_GROUPS, factsOf, type Fact, type FactGroup } from "../../lib/batch/facts.ts";
import { typedOver } from "../../lib/batch/otherwise.ts";
import { scheduleBatch } from "../../lib/batch/schedule.ts";
import type { Quantity } from "../../lib/calculations/calculation.ts";
import { entryText } from "../../lib/calculations/entry.ts";
import type { Graph } from "../../lib/calculations/graph.ts";
import { batchVolume } from "../../lib/calculations/quantities/batch.ts";
import { spiritStrength } from "../../lib/calculations/quantities/spirit.ts";
import { say, type UnitChoice } from "../../lib/calculations/say.ts";
import { nameOf } from "../bench/bench-text.ts";
import { derivationOf } from "../batch/derivations.ts";
import { widthIn } from "../figure/canvas.ts";
import { made } from "../shell/elements.ts";
import { siteLink } from "../shell/root.ts";
import type { Recorded } from "./kept-records.ts";
import { button, table, type RowGroup } from "./record-parts.ts";
import {
  count,
  entryLine,
  GROUP_TITLES,
  sideTitles,
  summaryOf,
  temperatureFigure,
  titleIn,
  valueText,
} from "./records-text.ts";

/** What one look at the records needs. */
export interface Look {
  readonly graph: Graph;
  readonly unitFor: UnitChoice;
}

/** What can be asked for otherwise, each with its field. */
export const OTHERWISE: readonly Quantity[] = [batchVolume, spiritStrength];

function heading(text: string): HTMLElement {
  return made("h2", { tabindex: "-1", "data-heading": true }, text);
}

function back(): HTMLElement {
  return made("p", { class: "no-print" }, made("a", { href: "#all" }, "All records"));
}

/** What a number is called, leading to where it is derived; a stage leads to the words of its derivation. */
function linked(from: string | undefined, text?: string): Node | string {
  const found = from === undefined ? undefined : derivationOf(from);
  if (!found) return text ?? "";
  return siteLink(found.href, text ?? found.text);
}

/** One record, whole. */
export function recordView(
  { graph, unitFor }: Look,
  record: Recorded,
  open: boolean,
  repeated: Recorded | undefined,
): readonly Node[] {
  return [
    back(),
    heading(titleIn(record)),
    made("p", {}, summaryOf(record, unitFor), open ? " · open now" : ""),
    ...(repeated
      ? [
          made(
            "p",
            {},
            "Again what was done in ",
            made("a", { href: `#record=${repeated.id}` }, titleIn(repeated)),
          ),
        ]
      : []),
    actions(record, open),
    otherwiseForm({ graph, unitFor }, record),
    renameForm(record),
    ...deviations({ graph, unitFor }, record),
    made("div", { "data-figure": true }),
    ...factTables({ graph, unitFor }, record),
    ...logOf({ graph, unitFor }, record),
  ];
}

function actions({ id, log }: Recorded, open: boolean): HTMLElement {
  return made(
    "div",
    { class: "buttons no-print", role: "group", "aria-label": "This record" },
    ...(open ? [] : [button("open", "Open it", id)]),
    button("again", "Again", id),
    button("file", "Save as a file", id),
    ...(log && log.length > 0 ? [button("csv", "Save its log as a table (CSV)", id)] : []),
    button("print", "Print it"),
    button("remove", "Remove it", id),
  );
}

function otherwiseForm({ graph, unitFor }: Look, record: Recorded): HTMLElement {
  const over = typedOver(graph, record.values).map(({ label }) => label.toLowerCase());
  const fields = OTHERWISE.flatMap((of) => {
    const unit = unitFor(of);
    const known = record.values[of.name];
    const value = entryText(of, typeof known === "number" ? known : of.default, unit, false);
    const field = `otherwise-${of.name}`;
    return [
      made(
        "div",
        { class: "field" },
        made("label", { for: field }, `${of.label}, ${unit}`),
        made("input", {
          id: field,
          name: of.name,
          inputmode: "decimal",
          autocomplete: "off",
          value,
          "aria-describedby": `${field}-fault`,
        }),
        made("p", { class: "fault", id: `${field}-fault`, hidden: true }),
      ),
    ];
  });
  return made(
    "details",
    { class: "no-print" },
    made("summary", {}, "Again at another size, or with another spirit"),
    made(
      "form",
      { "data-form": "otherwise", "data-id": record.id, novalidate: true },
      ...fields,
      ...(over.length > 0
        ? [
            made(
              "p",
              { class: "small" },
              `Worked out anew, because it was typed in for the old size: ${[...new Set(over)].join("; ")}.`,
            ),
          ]
        : []),
      made("button", {}, "Plan it"),
    ),
  );
}

function renameForm({ id, name }: Recorded): HTMLElement {
  return made(
    "details",
    { class: "no-print" },
    made("summary", {}, "Give it another name"),
    made(
      "form",
      { "data-form": "rename", "data-id": id, novalidate: true },
      made("label", { for: "record-name" }, "Name of this batch"),
      made("input", {
        id: "record-name",
        name: "name",
        maxlength: "120",
        autocomplete: "off",
        value: name,
      }),
      made("button", {}, "Give it this name"),
    ),
  );
}

/** Groups that are told twice: as planned, and by what was weighed. */
const BOTH: readonly FactGroup[] = ["recipe", "planned"];
const ONCE = FACT_GROUPS.filter((group) => !BOTH.includes(group) && group !== "weighed");

function factTables({ graph, unitFor }: Look, record: Recorded): readonly Node[] {
  const facts = factsOf(graph, record);
  const text = (fact: Fact | undefined): string =>
    fact ? valueText(fact.value, fact, unitFor) : "–";
  const weighed = new Map(
    facts.flatMap((fact) => (fact.group === "weighed" ? [[fact.id, fact] as const] : [])),
  );
  const groupsOf = (
    groups: readonly FactGroup[],
    cells: (fact: Fact) => readonly string[],
  ): readonly RowGroup[] =>
    groups.flatMap((group) => {
      const own = facts.filter((fact) => fact.group === group);
      const rows = own.map((fact) => [linked(fact.from, fact.label), ...cells(fact)]);
      return rows.length > 0 ? [{ title: GROUP_TITLES[group], rows }] : [];
    });
  const both = groupsOf(BOTH, (fact) => [text(fact), text(weighed.get(`composition.${fact.id}`))]);
  const once = groupsOf(ONCE, (fact) => [text(fact)]);
  return [
    made("h3", {}, "Planned, and by what was weighed"),
    table("Planned, and by what was weighed", ["What", "Planned", "Weighed"], both),
    ...(once.length > 0
      ? [made("h3", {}, "The evening"), table("The evening", ["What", "Noted"], once)]
      : []),
  ];
}

function deviations({ graph, unitFor }: Look, record: Recorded): readonly Node[] {
  if (!record.planned) return [];
  const found = deviationsOf(graph, record);
  return [
    made("h3", {}, "Otherwise than planned"),
    found.length === 0
      ? made("p", {}, "Nothing so far: all that was noted went as planned.")
      : made(
          "ul",
          { class: "otherwise" },
          ...found.map(({ derivation, say: phrase }) =>
            made("li", {}, say(phrase, unitFor), " ", linked(derivation)),
          ),
        ),
  ];
}

function logOf({ graph, unitFor }: Look, { log = [], planned, values }: Recorded): readonly Node[] {
  if (log.length === 0) return [];
  const schedule = scheduleBatch(graph, planned ?? values);
  const steps = schedule.ok ? schedule.steps : [];
  const lines = log.map((entry) =>
    made(
      "li",
      {},
      entryLine(entry, (step) => nameOf(step, steps), unitFor),
    ),
  );
  return [
    made(
      "details",
      {},
      made("summary", {}, `The whole log, ${count(log.length, "entry", "entries")}`),
      made("ul", { class: "log" }, ...lines),
    ),
  ];
}

/** Draws liquid and bath against time, if there is enough to draw. */
export async function drawTemperatures(
  place: HTMLElement,
  record: Recorded,
  unitFor: UnitChoice,
): Promise<void> {
  const data = temperatureFigure(record);
  if (!data) return;
  const { drawFigure } = await import("../figure/draw.ts");
  const title = "Liquid and bath as they were read";
  const width = widthIn(place.clientWidth);
  const svg = drawFigure(data, title, { document, width, unitOf: (axis) => unitFor(axis.of) });
  place.replaceChildren(
    made("figure", {}, made("figcaption", {}, made("strong", {}, `${title}.`)), svg),
  );
}

/** Two records side by side. */
export function compareView(
  { graph, unitFor }: Look,
  one: Recorded,
  other: Recorded,
): readonly Node[] {
  const rows = compareBatches(graph, one, other);
  const apart = rows.filter(({ differs }) => differs);
  const alike = rows.filter(({ differs }) => !differs);
  const head = ["What", ...sideTitles([one, other], unitFor)];
  const line = (row: ComparedRow): (Node | string)[] => [
    linked(row.from, row.label),
    ...(["one", "other"] as const).map(
      (side) =>
        valueText(row[side], row, unitFor) +
        (row.assumed === side ? " (the demonstration’s, not entered)" : ""),
    ),
  ];
  const grouped = (name: string, list: readonly ComparedRow[]): HTMLElement =>
    table(
      name,
      head,
      FACT_GROUPS.flatMap((group) => {
        const rows = list.filter((row) => row.group === group).map(line);
        return rows.length === 0 ? [] : [{ title: GROUP_TITLES[group], rows }];
      }),
    );
  return [
    back(),
    heading(`${titleIn(one)} beside ${titleIn(other)}`),
    made(
      "p",
      {},
      apart.length === 0
        ? "They do not differ by more than the numbers may be off."
        : "What differs by more than the numbers may be off, and what only one of them has:",
    ),
    ...(apart.length > 0 ? [grouped("What differs", apart)] : []),
    ...(alike.length > 0
      ? [
          made(
            "details",
            {},
            made("summary", {}, `The same in both: ${count(alike.length, "row", "rows")}`),
            grouped("The same in both", alike),
          ),
        ]
      : []),
  ];
}
