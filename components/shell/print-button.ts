/** Hidden where no script runs, since it could do nothing there. */
class PrintButton extends HTMLElement {
  connectedCallback(): void {
    this.hidden = false;
    this.querySelector("button")?.addEventListener("click", () => window.print());
  }
}

export function definePrintButton(): void {
  customElements.define("print-button", PrintButton);
}
