type Props = Readonly<Record<string, string | boolean>>;

/**
 * An element with its attributes and what is in it.
 *
 * @param props - attributes; `true` for one without a value, `false` for none
 */
export function made<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  props: Props = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(props)) {
    if (value === true) element.setAttribute(name, "");
    else if (value !== false) element.setAttribute(name, value);
  }
  element.append(...children);
  return element;
}

/**
 * Writes a text where it is another, and nothing where there is no such place: an untouched node costs no layout,
 * and a node that stays costs less than a new one.
 */
export function setText(place: Element | null | undefined, text: string): void {
  if (!place || place.textContent === text) return;
  const [only, ...others] = place.childNodes;
  if (only instanceof Text && others.length === 0) only.data = text;
  else place.textContent = text;
}
