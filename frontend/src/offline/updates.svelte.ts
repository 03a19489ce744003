/** A newer version takes over only after a yes, never in the middle of a delivery. */
import type { Workbox } from "workbox-window";

export class Updates {
  #isReady = $state(false);
  #worksOffline = $state(false);
  #workbox: Workbox | null = null;

  get isReady(): boolean {
    return this.#isReady;
  }
  /** The whole app is on this phone and starts without a signal. */
  get worksOffline(): boolean {
    return this.#worksOffline;
  }

  async start(): Promise<void> {
    if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
    this.#worksOffline = navigator.serviceWorker.controller !== null;
    const { Workbox } = await import("workbox-window");
    this.#workbox = new Workbox("/sw.js");
    this.#workbox.addEventListener("waiting", () => (this.#isReady = true));
    this.#workbox.addEventListener("controlling", (event) => {
      if (event.isUpdate) location.reload();
    });
    this.#workbox.addEventListener("activated", () => (this.#worksOffline = true));
    // Without HTTPS a phone refuses a service worker: the app then works only while the page stays open.
    await this.#workbox.register().catch(() => undefined);
    void navigator.serviceWorker.ready.then(() => (this.#worksOffline = true));
  }

  accept(): void {
    this.#workbox?.messageSkipWaiting();
  }

  later(): void {
    this.#isReady = false;
  }
}

export const updates = new Updates();
