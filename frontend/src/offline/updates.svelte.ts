/** A newer version takes over only after a yes, never in the middle of a delivery. */
import { Workbox } from "workbox-window";

const AGAIN_MS = 10_000;

export class Updates {
  #isReady = $state(false);
  #worksOffline = $state(false);
  #workbox: Workbox | null = null;

  get isReady(): boolean {
    return this.#isReady;
  }
  /** What the dock needs is on this phone: it starts without a signal. */
  get worksOffline(): boolean {
    return this.#worksOffline;
  }

  async start(): Promise<void> {
    if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
    this.#worksOffline = navigator.serviceWorker.controller !== null;
    this.#workbox = new Workbox("/sw.js");
    this.#workbox.addEventListener("waiting", () => (this.#isReady = true));
    this.#workbox.addEventListener("controlling", (event) => {
      if (event.isUpdate) location.reload();
    });
    this.#workbox.addEventListener("activated", () => (this.#worksOffline = true));
    // Without HTTPS a phone refuses a service worker: the app then works only while the page stays open.
    await this.#workbox.register().catch(() => undefined);
    // Where a file of the first visit did not come, nothing works offline yet: those that came stay, the rest are asked for again.
    const again = setInterval(() => void navigator.serviceWorker.register("/sw.js").catch(() => undefined), AGAIN_MS);
    const { active } = await navigator.serviceWorker.ready;
    clearInterval(again);
    this.#worksOffline = true;
    whenIdle(() => active?.postMessage({ type: "KEEP_REST" }));
  }

  /** Ask the server for a newer version now; it is offered as any other. */
  look(): void {
    void this.#workbox?.update().catch(() => undefined);
  }

  accept(): void {
    this.#workbox?.messageSkipWaiting();
  }

  later(): void {
    this.#isReady = false;
  }
}

/** The desk and the barcode reader come behind what the person at the dock is doing. */
function whenIdle(task: () => void): void {
  if ("requestIdleCallback" in globalThis) requestIdleCallback(task);
  else setTimeout(task, 2_000);
}

export const updates = new Updates();
