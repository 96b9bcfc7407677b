import { renderMath } from "./render.ts";

/** Renders `$…$` and `$$…$$` of the chapters at build: what readers get is finished HTML and MathML. */
export const mathPlugin = {
  name: "math",
  math: (node: { readonly value: string }) => ({
    raw: `<div class="equation" tabindex="0" role="group" aria-label="Equation">${renderMath(node.value, true)}</div>`,
    mdxExpressions: false,
  }),
  // Browsers take the end of MathML for a place to break, which would leave a full stop to the next line. And raw
  // text beside an element would become a paragraph of its own: so one element, and no more, goes round the formula.
  inlineMath: (node: { readonly value: string }) => ({
    raw: `<span class="formula">${renderMath(node.value)}</span>`,
    mdxExpressions: false,
  }),
};
