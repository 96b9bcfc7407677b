import katex from "katex";

const THIN_SPACE = String.raw`\,`;
const CROSS = String.raw`\times `;

/** A letters-only token, so that it passes whole through KaTeX. */
function token(name: string): string {
  return `qz${name}zq`;
}

const TOKENS = /qz(\w+?)zq/g;
const SLOTS = /<mtext>qz(\w+?)zq<\/mtext>/g;
/** The expression alone: no wrapping elements, and no annotation, which would say the TeX once more. */
const EXPRESSION = /<semantics>([\s\S]*)<annotation[\s\S]*<\/semantics>/;
const ROW_OF_ALL = /^<mrow>([\s\S]*)<\/mrow>$/;
const UPRIGHT = /<mi mathvariant="normal">(\p{L})<\/mi>/gu;
const UPRIGHT_WORD = /(?:<mi mathvariant="normal">\p{L}<\/mi>){2,}/gu;
const ROW_OF_ONE = /<mrow>(<(m[in])\b[^>]*>[^<]*<\/\2>)<\/mrow>/g;
/** KaTeX's thin space is a letter, which a font may lack. */
const SPACE = /<mtext>\u2009<\/mtext>/g;
/** A sign after a relation or a bracket is no operation, and stands close. */
const SIGN = /(<mo[^>]*>[=≈<>≤≥(,]<\/mo>)<mo>([−+±])<\/mo>/g;
/** KaTeX applies a function before it gives it an index: “log ₁₀x”. */
const INDEXED =
  /<(msub|munder)><mrow>(<mi>[a-z]+<\/mi>)<mo>\u2061<\/mo><\/mrow>((?:(?!<msub|<munder).)*?)<\/\1>/g;
/** “ln x” is set apart, “ln(x)” is not. */
const APPLIED = /<mo>\u2061<\/mo>(?!<mo|<mrow><mo)/g;
/** “a ln x” is set apart on that side too. */
const FACTOR =
  /(<\/(?:m[in]|mtext|msub|msup|msubsup|mfrac|msqrt|mrow)>|<mo[^>]*>\)<\/mo>)(?=(?:<mi>[a-z]{2,}<\/mi>|<(msub|munder)><mi>[a-z]{2,}<\/mi>(?:(?!<\/?\2).)*<\/\2>)<mo>\u2061)/g;
/** The sign of a charge is no operation. */
const CHARGE = /(<mn>\d+<\/mn>)<mo>([−+])<\/mo><\/mrow>/g;

/**
 * TeX to MathML, at build only: the same few elements are drawn, spoken and printed.
 * @throws katex.ParseError for TeX that does not parse: a fault of the text, found at build
 */
export function renderMath(tex: string, display = false): string {
  return render(tex, display, THIN_SPACE);
}

/**
 * `\by` is a product: a thin space between symbols, a cross between numbers. `\wrap{…}` keeps a number and
 * its unit together under a power, and is nothing around a symbol.
 */
function render(tex: string, displayMode: boolean, by: typeof THIN_SPACE | typeof CROSS): string {
  const macros = {
    [String.raw`\by`]: by,
    [String.raw`\wrap`]: by === CROSS ? "(#1)" : "#1",
  };
  const html = katex.renderToString(tex, {
    throwOnError: true,
    strict: "error",
    output: "mathml",
    macros,
    displayMode,
  });
  const expression = EXPRESSION.exec(html)?.[1];
  if (expression === undefined) throw new Error(`no expression in ${html}`);
  const inner = expression
    .replace(ROW_OF_ALL, "$1")
    // KaTeX writes “max” as three identifiers; it is one, and one of several letters stands upright.
    .replaceAll(UPRIGHT_WORD, (word) => `<mi>${word.replaceAll(UPRIGHT, "$1")}</mi>`)
    .replaceAll(ROW_OF_ONE, "$1")
    .replaceAll(SPACE, '<mspace width="0.17em"/>')
    .replaceAll(SIGN, '$1<mo form="prefix">$2</mo>')
    .replaceAll(CHARGE, '$1<mo lspace="0" rspace="0">$2</mo></mrow>')
    .replaceAll(INDEXED, "<$1>$2$3</$1><mo>\u2061</mo>")
    .replaceAll(FACTOR, '$1<mspace width="0.17em"/>')
    .replaceAll(APPLIED, '$&<mspace width="0.17em"/>')
    .replaceAll("<mo>×</mo>", '<mo lspace="0.25em" rspace="0.25em">×</mo>');
  return displayMode ? `<math display="block">${inner}</math>` : `<math>${inner}</math>`;
}

/** In TeX, the place of a live number. */
export function slotTex(name: string): string {
  return String.raw`\text{${token(name)}}`;
}

/**
 * Renders TeX made with {@link slotTex}, each slot filled and marked `data-slot`.
 *
 * @throws Error if KaTeX split a token or joined it to other text: a slot that no script can find
 */
export function renderSlots(tex: string, fill: (name: string) => string): string {
  const asked = [...tex.matchAll(TOKENS)].map(([, name]) => name as string);
  const kept: string[] = [];
  const html = render(tex, true, CROSS).replaceAll(SLOTS, (_, name: string) => {
    kept.push(name);
    // A number: beside text, which counts as space, an operator would lose its own.
    return `<mn data-slot="${name}">${fill(name)}</mn>`;
  });
  if (kept.toSorted().join() !== asked.toSorted().join())
    throw new Error(`a slot did not survive in ${tex}`);
  return html;
}
