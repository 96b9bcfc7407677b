import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  relativeCss,
  relativeHtml,
  relativeLinks,
  rootFrom,
} from "../../../components/shell/relative-links.ts";

describe("rootFrom(file)", () => {
  it.each([
    ["index.html", "./"],
    ["404.html", "./"],
    ["chapters/index.html", "../"],
    ["chapters/mixing/index.html", "../../"],
    ["_astro/page.css", "../"],
  ])("leads from %s up to the root", (file, root) => {
    expect(rootFrom(file)).toBe(root);
  });
});

describe("relativeHtml(html, root)", () => {
  it.each([
    ['<a href="/chapters/">', '<a href="../chapters/">'],
    ["<a href='/chapters/'>", "<a href='../chapters/'>"],
    ['<a href="/">', '<a href="../">'],
    ['<a href="/chapters/#solve">', '<a href="../chapters/#solve">'],
    ['<script type="module" src="/_astro/a.js">', '<script type="module" src="../_astro/a.js">'],
    ['<form class="x" action="/search/">', '<form class="x" action="../search/">'],
    ['<video poster="/a.png" src="/a.mp4">', '<video poster="../a.png" src="../a.mp4">'],
    ['<use xlink:href="/icons.svg#mark"/>', '<use xlink:href="../icons.svg#mark"/>'],
    ['<a\n  href="/chapters/"\n>', '<a\n  href="../chapters/"\n>'],
    ['<a title="more > less" href="/b/">', '<a title="more > less" href="../b/">'],
    [
      "<link rel=icon href=\"/icon.svg\"><a href='/'>",
      "<link rel=icon href=\"../icon.svg\"><a href='../'>",
    ],
  ])("makes %s relative", (before, after) => {
    expect(relativeHtml(before, "../")).toBe(after);
  });

  it.each([
    '<a href="https://example.org/">',
    '<a href="//example.org/a">',
    '<a href="#solve">',
    '<a href="../chapters/">',
    '<a href="">',
    '<meta content="/chapters/">',
    '<a data-href="/chapters/">',
    '<p>Write href="/chapters/" in the page.</p>',
  ])("leaves %s alone", (html) => {
    expect(relativeHtml(html, "../")).toBe(html);
  });

  it("changes nothing the second time", () => {
    const once = relativeHtml('<a href="/a/"><img src="/b.png">', "../../");
    expect(relativeHtml(once, "../../")).toBe(once);
  });
});

describe("relativeCss(css, root)", () => {
  it.each([
    ["url(/_astro/serif.woff2)", "url(../_astro/serif.woff2)"],
    ['url("/a.woff2") format("woff2")', 'url("../a.woff2") format("woff2")'],
    ["url('/a.svg')", "url('../a.svg')"],
    ["url(/a.png),url(/b.png)", "url(../a.png),url(../b.png)"],
  ])("makes %s relative", (before, after) => {
    expect(relativeCss(before, "../")).toBe(after);
  });

  it.each(["url(data:font/woff2;base64,/AAA)", "url(//example.org/a)", "url(a.png)", "url(#mark)"])(
    "leaves %s alone",
    (css) => {
      expect(relativeCss(css, "../")).toBe(css);
    },
  );
});

describe("relativeLinks()", () => {
  const LINK = '<a href="/chapters/">';
  const FONT = "a{src:url(/a.woff2)}";
  const FILES: Readonly<Record<string, string>> = {
    "index.html": LINK,
    "404.html": LINK,
    "chapters/mixing/index.html": LINK,
    "_astro/page.css": FONT,
    "_astro/page.js": `const link = '${LINK}';`,
    "note.txt": LINK,
  };
  let folder: string;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "relative-links-"));
    for (const [file, text] of Object.entries(FILES)) {
      await mkdir(dirname(join(folder, file)), { recursive: true });
      await writeFile(join(folder, file), text);
    }
    const done = relativeLinks().hooks["astro:build:done"];
    await done?.({ dir: pathToFileURL(`${folder}/`) } as Parameters<typeof done>[0]);
  });

  afterAll(() => rm(folder, { recursive: true }));

  it.each([
    ["index.html", '<a href="./chapters/">'],
    ["chapters/mixing/index.html", '<a href="../../chapters/">'],
    ["_astro/page.css", "a{src:url(../a.woff2)}"],
  ])("rewrites %s as deep as it lies", async (file, text) => {
    expect(await readFile(join(folder, file), "utf8")).toBe(text);
  });

  it.each(["404.html", "_astro/page.js", "note.txt"])("leaves %s as it is", async (file) => {
    expect(await readFile(join(folder, file), "utf8")).toBe(FILES[file]);
  });
});
