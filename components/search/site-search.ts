import { siteUrl } from "../shell/root.ts";

/** Opens the dialog; what searches is loaded on the first opening, so that pages stay light. */
class SiteSearch extends HTMLElement {
  private started = false;

  connectedCallback(): void {
    const dialog = this.querySelector("dialog");
    const text = this.querySelector<HTMLInputElement>("[data-text]");
    if (!dialog || !text) return;

    const hint = this.querySelector("[data-hint]");
    if (hint && /Mac|iPhone|iPad/.test(navigator.platform)) hint.textContent = "⌘ K";

    const start = (): void => {
      if (this.started) return;
      this.started = true;
      // Both at once: one after the other, the second would be asked for a tenth of the wait later.
      const pagefind = import(/* @vite-ignore */ siteUrl("pagefind/pagefind.js").href);
      void import("./search.ts").then(({ startSearch }) => startSearch(this, pagefind));
    };
    const open = (): void => {
      // Loading goes on while the dialog is laid out.
      start();
      if (!dialog.open) dialog.showModal();
      text.focus();
      text.select();
    };
    const button = this.querySelector("[data-open]");
    button?.addEventListener("click", open);
    // A pointer on the button is a tenth of a second ahead of the press.
    button?.addEventListener("pointerenter", start);
    this.querySelector("[data-close]")?.addEventListener("click", () => dialog.close());
    // A press beside the dialog lands on the dialog element itself, whose padding is its own ground.
    dialog.addEventListener("pointerdown", (event) => {
      const box = dialog.getBoundingClientRect();
      const outside =
        event.clientX < box.left ||
        event.clientX > box.right ||
        event.clientY < box.top ||
        event.clientY > box.bottom;
      if (event.target === dialog && outside) dialog.close();
    });
    document.addEventListener("keydown", (event) => {
      if (event.key.toLowerCase() !== "k" || !(event.ctrlKey || event.metaKey)) return;
      if (event.altKey || event.shiftKey) return;
      event.preventDefault();
      open();
    });
  }
}

export function defineSiteSearch(): void {
  customElements.define("site-search", SiteSearch);
}
