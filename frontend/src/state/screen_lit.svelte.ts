/** Keeps the screen lit while a time runs, where the browser can. */
class ScreenLit {
  #isHeld = $state(false);
  #lock: WakeLockSentinel | null = null;
  #isWanted = false;

  /** The browser keeps the screen lit just now. */
  get isHeld(): boolean {
    return this.#isHeld;
  }

  want(isWanted: boolean): void {
    this.#isWanted = isWanted;
    if (isWanted) void this.#take();
    else void this.#lock?.release();
  }
  /** The lock falls with the page out of sight; it is asked for again when the page is back. */
  follow(): () => void {
    const onVisible = () => document.visibilityState === "visible" && this.#isWanted && void this.#take();
    document.addEventListener("visibilitychange", onVisible);
    return () => {
      document.removeEventListener("visibilitychange", onVisible);
      this.want(false);
    };
  }
  async #take(): Promise<void> {
    if (this.#lock || !navigator.wakeLock) return;
    try {
      this.#lock = await navigator.wakeLock.request("screen");
    } catch {
      return; // an empty battery or a rule of the phone: the time runs on all the same
    }
    this.#isHeld = true;
    this.#lock.addEventListener("release", () => {
      this.#lock = null;
      this.#isHeld = false;
    });
    if (!this.#isWanted) void this.#lock.release();
  }
}

export const screenLit = new ScreenLit();
