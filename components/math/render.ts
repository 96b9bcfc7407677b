import katex from "katex";

const OPTIONS = {
  throwOnError: true,
  strict: "error",
  // The tree twice: drawn for eyes, MathML for ears. Both carry the slots.
  output: "htmlAndMathml",
} as const;

/** A letters-only token, so that it passes whole through both halves of the output. */
function token(name: string): string {
  return `qz${name}zq`;
}

const TOKENS = /qz(\w+?)zq/g;
const ANNOTATION = /<annotation encoding="application\/x-tex">[\s\S]*?<\/annotation>/g;
const DRAWN = /<span class="([^"]*)">qz(\w+?)zq<\/span>/g;
const SPOKEN = /<mtext>qz(\w+?)zq<\/mtext>/g;

/**
 * TeX to HTML and MathML, at build only.
 * @throws katex.ParseError for TeX that does not parse: a fault of the text, found at build
 */
export function renderMath(tex: string, display = false): string {
  return render(tex, display, String.raw`\,`);
}

/**
 * `\by` is a product: a thin space between symbols, a cross between numbers. `\wrap{…}` keeps a number and
 * its unit together under a power, and is nothing around a symbol.
 */
function render(tex: string, displayMode: boolean, by: string): string {
  const numbers = by !== String.raw`\,`;
  const macros = {
    [String.raw`\by`]: by,
    [String.raw`\wrap`]: numbers ? "(#1)" : "#1",
  };
  // The annotation repeats the source a third time, and would go stale where numbers change.
  return katex.renderToString(tex, { ...OPTIONS, macros, displayMode }).replaceAll(ANNOTATION, "");
}

/** In TeX, the place of a live number. */
export function slotTex(name: string): string {
  return String.raw`\text{${token(name)}}`;
}

/**
 * Renders TeX made with {@link slotTex}, each slot filled and marked `data-slot` in both halves, so that
 * one script keeps what is seen and what is spoken the same.
 *
 * @throws Error if KaTeX split a token, which would leave a slot that no script can find
 */
export function renderSlots(tex: string, fill: (name: string) => string): string {
  const asked = [...tex.matchAll(TOKENS)].map(([, name]) => name as string);
  const html = render(tex, true, String.raw`\times `)
    .replaceAll(
      DRAWN,
      (_, classes: string, name: string) =>
        `<span class="${classes} slot" data-slot="${name}">${fill(name)}</span>`,
    )
    .replaceAll(SPOKEN, (_, name: string) => `<mtext data-slot="${name}">${fill(name)}</mtext>`);
  // Each slot once in the drawn half and once in the spoken one, or a script would leave one stale.
  const kept = [...html.matchAll(/data-slot="(\w+)"/g)].map(([, name]) => name as string);
  if (kept.toSorted().join() !== [...asked, ...asked].toSorted().join())
    throw new Error(`a slot did not survive in ${tex}`);
  return html;
}
