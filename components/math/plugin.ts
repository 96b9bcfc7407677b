import { renderMath } from "./render.ts";

/** Keeps the full stop after a formula on the formula's line: browsers take the end of MathML for a place to break. */
const WORD_JOINER = "\u2060";

/** Renders `$…$` and `$$…$$` of the chapters at build: what readers get is finished HTML and MathML. */
export const mathPlugin = {
  name: "math",
  math: (node: { readonly value: string }) => ({
    raw: `<div class="equation" tabindex="0" role="group" aria-label="Equation">${renderMath(node.value, true)}</div>`,
    mdxExpressions: false,
  }),
  inlineMath: (node: { readonly value: string }) => ({
    raw: renderMath(node.value) + WORD_JOINER,
    mdxExpressions: false,
  }),
};
