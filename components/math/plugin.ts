import { renderMath } from "./render.ts";

/** Renders `$…$` and `$$…$$` of the chapters at build: what readers get is finished HTML and MathML. */
export const mathPlugin = {
  name: "math",
  math: (node: { readonly value: string }) => ({
    raw: `<div class="equation" tabindex="0" role="group" aria-label="Equation">${renderMath(node.value, true)}</div>`,
    mdxExpressions: false,
  }),
  inlineMath: (node: { readonly value: string }) => ({
    raw: renderMath(node.value),
    mdxExpressions: false,
  }),
};
