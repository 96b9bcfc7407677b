/**
 * An address inside this site, from wherever the page stands: `siteUrl("pagefind/pagefind.js")`.
 * The page says in `<html data-root>` where the root is, because the site may be served from any folder.
 */
export function siteUrl(path: string): URL {
  const root = new URL(document.documentElement.dataset["root"] ?? "/", location.href);
  return new URL(path, root);
}

/** A link inside this site. @param href - from the root, as pages write it: "/chapters/recipe/#why" */
export function siteLink(href: string, text: string): HTMLAnchorElement {
  const link = document.createElement("a");
  link.href = siteUrl(href.slice(1)).href;
  link.textContent = text;
  return link;
}
