import { siteUrl } from "../shell/root.ts";

const STATES = {
  unavailable: "Offline use is not available in this browser or at this address.",
  development: "Offline use comes with the built site.",
  saving: "Saving this notebook for offline use…",
  ready: "Ready to use offline.",
  failed: "Not saved for offline use: it will be tried again at the next visit.",
} as const;

class OfflineNotice extends HTMLElement {
  private reloading = false;

  connectedCallback(): void {
    if (!("serviceWorker" in navigator)) {
      this.show("unavailable");
    } else if (!import.meta.env.PROD) {
      this.show("development");
    } else if (document.readyState === "complete") {
      void this.register();
    } else {
      // Reading comes first: the copy for offline use is fetched when the page is done.
      addEventListener("load", () => void this.register(), { once: true });
    }
  }

  private show(state: keyof typeof STATES): void {
    const line = this.querySelector("[data-state]");
    if (line) line.textContent = STATES[state];
    this.dataset["offline"] = state;
  }

  private say(text: string): void {
    const status = this.querySelector("[data-said]");
    if (status) status.textContent = text;
  }

  private async register(): Promise<void> {
    const controlled = navigator.serviceWorker.controller !== null;
    let registration: ServiceWorkerRegistration;
    try {
      registration = await navigator.serviceWorker.register(siteUrl("sw.js"), {
        scope: siteUrl("./").pathname,
        updateViaCache: "none",
      });
    } catch {
      // Offline with a worker already there is no failure.
      this.show(navigator.serviceWorker.controller ? "ready" : "failed");
      return;
    }
    if (registration.active) this.show("ready");
    if (registration.waiting && registration.active) this.offer(registration.waiting);
    if (registration.installing) this.follow(registration.installing, registration);
    registration.addEventListener("updatefound", () => {
      if (registration.installing) this.follow(registration.installing, registration);
    });
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (this.reloading) location.reload();
      // Another tab took the new version; what this page has yet to load is gone with the old one.
      else if (controlled) this.offerReload();
    });
  }

  private follow(worker: ServiceWorker, registration: ServiceWorkerRegistration): void {
    const first = registration.active === null;
    if (first) this.show("saving");
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && registration.active && !first) this.offer(worker);
      if (worker.state === "activated" && first) {
        this.show("ready");
        this.say(STATES.ready);
      }
      if (worker.state === "redundant" && first) this.show("failed");
    });
  }

  private offerReload(): void {
    this.ask("Another tab has moved to a newer version. Reload this page to go on.", () =>
      location.reload(),
    );
  }

  /** A new version waits for the reader's word: a page must not change under typed numbers. */
  private offer(worker: ServiceWorker): void {
    this.ask("A newer version is ready.", () => {
      this.reloading = true;
      worker.postMessage({ type: "SKIP_WAITING" });
    });
  }

  private ask(sentence: string, onUse: () => void): void {
    const box = this.querySelector<HTMLElement>("[data-update]");
    const text = this.querySelector<HTMLElement>("[data-sentence]");
    const use = this.querySelector<HTMLButtonElement>("[data-use]");
    const later = this.querySelector<HTMLButtonElement>("[data-later]");
    if (!box || !text || !use || !later) return;
    text.textContent = sentence;
    box.hidden = false;
    // What is focused must not hide behind the box.
    document.documentElement.style.scrollPaddingBlockEnd = `${box.offsetHeight + 32}px`;
    this.say(`${sentence} The button to use it is at the end of the page.`);
    use.onclick = () => {
      use.disabled = true;
      onUse();
    };
    later.onclick = () => {
      box.hidden = true;
      document.documentElement.style.scrollPaddingBlockEnd = "";
    };
  }
}

export function defineOfflineNotice(): void {
  customElements.define("offline-notice", OfflineNotice);
}
