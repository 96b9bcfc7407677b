import type { Plugin } from "vite";

const FACE = /@font-face\s*\{[^}]*\}/g;
/** What the equations are set in. Script, blackboard, bold and the like are for other books. */
const USED = /font-family:\s*["']?KaTeX_(?:Main|Math|Size\d)["']?/;
const BOLD = /font-weight:\s*(?:700|bold)/;
const OLDER = /,\s*url\([^)]*\.(?:woff|ttf)\)\s*format\(["'](?:woff|truetype)["']\)/g;

/**
 * Leaves out of the build the fonts of KaTeX that no page uses, and the older formats of those it does:
 * every visitor's browser would keep them for offline use.
 */
export function fewerFonts(): Plugin {
  return {
    name: "fewer-fonts",
    enforce: "pre",
    transform(code, id) {
      if (!/\/katex(?:\.min)?\.css$/.test(id)) return undefined;
      return code.replaceAll(FACE, (face) =>
        USED.test(face) && !BOLD.test(face) ? face.replaceAll(OLDER, "") : "",
      );
    },
  };
}
