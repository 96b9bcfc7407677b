import Calculation from "./calculation/Calculation.astro";
import Computed from "./calculation/Computed.astro";
import Table from "./calculation/Table.astro";
import Value from "./calculation/Value.astro";
import AtTheBench from "./chapter/AtTheBench.astro";
import Cite from "./chapter/Cite.astro";
import TryThis from "./chapter/TryThis.astro";
import Figure from "./figure/Figure.astro";
import Equation from "./math/Equation.astro";

/** What a chapter may use without importing it. */
export const chapterComponents = {
  AtTheBench,
  Calculation,
  Cite,
  Computed,
  Equation,
  Figure,
  Table,
  TryThis,
  Value,
};
