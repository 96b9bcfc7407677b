/**
 * An address inside this site, from wherever the page stands: `siteUrl("pagefind/pagefind.js")`.
 * The page says in `<html data-root>` where the root is, because the site may be served from any folder.
 */
export function siteUrl(path: string): URL {
  const root = new URL(document.documentElement.dataset["root"] ?? "/", location.href);
  return new URL(path, root);
}
