/** How much waits on this phone, how old the oldest is, and the one sender that empties it. */
import { oldestFirst, tryAllNow } from "../store/outbox";
import { outboxFile } from "../store/outbox_file";
import type { OutboxEntry } from "../store/schema";
import { prune } from "../store/prune";
import { Sender, type Outcome } from "../sync/sender";
import { session } from "./session.svelte";

const LOOK_EVERY_MS = 15_000;
/** Taps follow one another: let a few gather before the document goes. */
const GATHER_MS = 1_200;

export { roomLeft } from "../store/key_value";

export class Waiting {
  #entries = $state.raw<OutboxEntry[]>([]);
  #isRead = $state(false);
  #sending = $state(false);
  #outcome = $state<Outcome>("all_sent");
  #listeners = new Set<() => void>();
  #soon: ReturnType<typeof setTimeout> | undefined;
  readonly #sender: Sender;

  constructor(sender?: Sender) {
    this.#sender = sender ?? new Sender({ onProgress: () => void this.look() });
  }

  get entries(): OutboxEntry[] {
    return this.#entries;
  }
  /** What waits has been read from the disk; before that nothing can be said of it. */
  get isRead(): boolean {
    return this.#isRead;
  }
  get count(): number {
    return this.#entries.length;
  }
  get oldestAt(): string | null {
    return this.#entries.reduce<string | null>((oldest, { created_at }) => {
      return oldest === null || created_at < oldest ? created_at : oldest;
    }, null);
  }
  get sending(): boolean {
    return this.#sending;
  }
  get outcome(): Outcome {
    return this.#outcome;
  }
  /** Entries that will not go without a person's choice or a sentence that should be read. */
  get troubled(): OutboxEntry[] {
    return this.#entries.filter((entry) => entry.problem !== null);
  }
  forDelivery(id: string): OutboxEntry[] {
    return this.#entries.filter((entry) => entry.delivery_id === id);
  }

  /** Tell me when something was sent or kept; answers how to stop. */
  onChange(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  async look(): Promise<void> {
    this.#entries = await oldestFirst();
    this.#isRead = true;
    for (const listener of this.#listeners) listener();
  }

  /** Something new waits: show it at once, send it in a moment. */
  nudge(): void {
    void this.look();
    clearTimeout(this.#soon);
    this.#soon = setTimeout(() => void this.send(), GATHER_MS);
    void askForBackgroundSync();
  }

  async send(): Promise<void> {
    clearTimeout(this.#soon);
    await this.look();
    if (this.count === 0 || session.mustSignIn || session.revoked) return;
    this.#sending = true;
    try {
      this.#outcome = await this.#sender.flush();
      if (this.#outcome === "sign_in") session.askForSignIn();
      if (this.#outcome === "device") await session.refresh();
    } finally {
      this.#sending = false;
      await this.look();
    }
  }

  /** A person asks: everything that is not waiting for a choice tries again at once. */
  async tryNow(): Promise<void> {
    await tryAllNow();
    await session.refresh();
    await this.send();
  }

  /** Send on start, on signal, on return to the page, by the clock, and when the service worker says so. */
  start(): () => void {
    const go = () => {
      void session.refresh().then(() => this.send());
    };
    const onVisible = () => document.visibilityState === "visible" && go();
    const onWorker = (event: MessageEvent) => event.data === "underlid-send" && go();
    const timer = setInterval(() => (session.revoked ? go() : void this.send()), LOOK_EVERY_MS);
    addEventListener("online", go);
    addEventListener("focus", go);
    document.addEventListener("visibilitychange", onVisible);
    navigator.serviceWorker?.addEventListener("message", onWorker);
    void prune(Date.now()).then(() => this.send());
    return () => {
      clearInterval(timer);
      removeEventListener("online", go);
      removeEventListener("focus", go);
      document.removeEventListener("visibilitychange", onVisible);
      navigator.serviceWorker?.removeEventListener("message", onWorker);
    };
  }
}

/** Hand what waits to the person as a file, named by the day. Throws what the phone's store throws. */
export async function saveWaiting(): Promise<void> {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(await outboxFile());
  link.download = `underlid-${new Date().toISOString().slice(0, 10)}.outbox`;
  link.click();
  // the browser reads the file after the click
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** Where the browser offers it: be told when the signal is back, though the page sleeps. */
async function askForBackgroundSync(): Promise<void> {
  if (!navigator.serviceWorker?.controller) return;
  const registration = (await navigator.serviceWorker.ready) as ServiceWorkerRegistration & {
    sync?: { register(tag: string): Promise<void> };
  };
  await registration.sync?.register("underlid-send").catch(() => undefined);
}

export const waiting = new Waiting();
