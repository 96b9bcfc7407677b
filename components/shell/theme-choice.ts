// `first-theme.ts` reads the same key before the first paint.
const KEY = "bilayer-bench.theme";

function isTheme(value: string): value is "light" | "dark" {
  return value === "light" || value === "dark";
}

class ThemeChoice extends HTMLElement {
  connectedCallback(): void {
    const select = this.querySelector("select");
    if (!select) return;
    select.value = document.documentElement.dataset["theme"] ?? "";
    select.addEventListener("change", () => {
      this.apply(select.value);
      try {
        if (isTheme(select.value)) localStorage.setItem(KEY, select.value);
        else localStorage.removeItem(KEY);
      } catch {
        // Storage is forbidden or full: the choice holds for this page.
      }
    });
    // Another tab chose.
    window.addEventListener("storage", (event) => {
      if (event.key !== KEY) return;
      select.value = event.newValue ?? "";
      this.apply(select.value);
    });
  }

  private apply(theme: string): void {
    if (isTheme(theme)) document.documentElement.dataset["theme"] = theme;
    else delete document.documentElement.dataset["theme"];
  }
}

export function defineThemeChoice(): void {
  customElements.define("theme-choice", ThemeChoice);
}
