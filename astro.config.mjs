import mdx from "@astrojs/mdx";
import { satteri } from "@astrojs/markdown-satteri";
import { defineConfig } from "astro/config";
import { mathPlugin } from "./components/math/plugin.ts";
import { boundText } from "./components/shell/bound-text.ts";
import { earlyModules } from "./components/shell/early-modules.ts";
import { relativeLinks } from "./components/shell/relative-links.ts";

export default defineConfig({
  srcDir: "./content",
  publicDir: "./content/public",
  trailingSlash: "always",
  integrations: [mdx(), earlyModules(), boundText(), relativeLinks()],
  markdown: {
    processor: satteri({ features: { math: true }, mdastPlugins: [mathPlugin] }),
    // A highlighter writes inline styles, which the content policy refuses.
    syntaxHighlight: false,
  },
  build: { inlineStylesheets: "never" },
  devToolbar: { enabled: false },
  vite: {
    build: {
      // Inlined scripts would need a hash each in the content policy.
      assetsInlineLimit: 0,
      modulePreload: false,
      // One small stylesheet for all pages: seven of them cost a phone more round trips than bytes.
      cssCodeSplit: false,
      rolldownOptions: {
        output: {
          codeSplitting: {
            groups: [
              // What nearly every script imports is tiny: in one file it is one request, not four in a row.
              {
                name: "base",
                test: /when-needed\.ts|batch\/keys\.ts|shell\/(root|elements)\.ts|preload-helper/,
              },
            ],
          },
        },
        onLog(level, log, report) {
          // A mark that Astro leaves in each MDX module for itself: one warning a page, of no use.
          if (log.code !== "MODULE_LEVEL_DIRECTIVE") report(level, log);
        },
      },
    },
    experimental: {
      // The site may be served from any folder, so no built file may know its own address.
      renderBuiltUrl: () => ({ relative: true }),
    },
  },
});
