import { made } from "../shell/elements.ts";
import { siteLink } from "../shell/root.ts";

/** As `CautionLink`: to the whole of a caution. Paper leads nowhere, and goes without it. */
export function cautionLink(id: string, text = "The whole caution"): HTMLAnchorElement {
  const link = siteLink(`/before/#${id}`, text);
  link.className = "no-print";
  return link;
}

/** A sentence of a list, with a link to its caution where it has one. */
export function cautionItem({
  caution,
  text,
}: {
  readonly caution: string | undefined;
  readonly text: string;
}): HTMLLIElement {
  return made("li", {}, `${text} `, ...(caution === undefined ? [] : [cautionLink(caution)]));
}
