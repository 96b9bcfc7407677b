/** The cautions in full, each closed until it is asked for: by its address, by a press, or by paper. */
class CautionTexts extends HTMLElement {
  /** What was closed before printing. */
  #opened: readonly HTMLDetailsElement[] = [];

  connectedCallback(): void {
    this.querySelector("[data-all]")?.addEventListener("click", () => {
      const closed = this.#closed();
      for (const text of closed.length > 0 ? closed : this.#texts()) text.open = closed.length > 0;
    });
    // A toggle does not bubble.
    this.addEventListener("toggle", () => this.#label(), { capture: true });
    addEventListener("hashchange", this.#openNamed);
    // A second press on the same link changes no address.
    document.addEventListener("click", this.#onClick);
    addEventListener("beforeprint", this.#beforePrint);
    addEventListener("afterprint", this.#afterPrint);
    this.#openNamed();
  }

  disconnectedCallback(): void {
    removeEventListener("hashchange", this.#openNamed);
    document.removeEventListener("click", this.#onClick);
    removeEventListener("beforeprint", this.#beforePrint);
    removeEventListener("afterprint", this.#afterPrint);
  }

  #texts(): readonly HTMLDetailsElement[] {
    return [...this.querySelectorAll("details")];
  }

  #closed(): readonly HTMLDetailsElement[] {
    return this.#texts().filter(({ open }) => !open);
  }

  #label(): void {
    const button = this.querySelector("[data-all]");
    if (button) button.textContent = this.#closed().length > 0 ? "Open all" : "Close all";
  }

  #open(hash: string): void {
    const text = document.getElementById(hash.slice(1))?.closest("details");
    if (text && this.contains(text)) text.open = true;
  }

  readonly #openNamed = (): void => this.#open(location.hash);

  readonly #onClick = (event: Event): void => {
    const link = event.target instanceof Element ? event.target.closest("a[href^='#']") : null;
    if (link) this.#open(link.getAttribute("href") ?? "");
  };

  readonly #beforePrint = (): void => {
    this.#opened = this.#closed();
    for (const text of this.#opened) text.open = true;
  };

  readonly #afterPrint = (): void => {
    for (const text of this.#opened) text.open = false;
    this.#opened = [];
  };
}

export function defineCautionTexts(): void {
  customElements.define("caution-texts", CautionTexts);
}
