/** Something asked of the server: on its way, here, refused, or out of reach. Late answers to old questions are dropped. */
import { t } from "../messages/desk";
import { NoAnswer, Refused } from "../sync/wire";

export type Trouble =
  | { kind: "unreachable"; sentence: string }
  | { kind: "signed_out"; sentence: string }
  | { kind: "refused"; code: string; sentence: string };

export function asTrouble(error: unknown): Trouble {
  if (error instanceof Refused) {
    if (error.status === 401 || error.code === "SIGN-IN-FIRST") {
      return { kind: "signed_out", sentence: t("desk-loaded-you-signed-out-nothing") };
    }
    return { kind: "refused", code: error.code, sentence: error.sentence };
  }
  if (error instanceof NoAnswer) {
    return {
      kind: "unreachable",
      sentence: t("desk-loaded-server-cannot-reached-from"),
    };
  }
  throw error;
}

export class Loaded<T> {
  #value = $state.raw<T | null>(null);
  #trouble = $state.raw<Trouble | null>(null);
  #isLoading = $state(false);
  #read = $state.raw<Date | null>(null);
  #asked = 0;

  get value(): T | null {
    return this.#value;
  }
  get trouble(): Trouble | null {
    return this.#trouble;
  }
  get isLoading(): boolean {
    return this.#isLoading;
  }
  /** When the value came from the server. */
  get read(): Date | null {
    return this.#read;
  }

  /** Ask; what was known before stays on the screen until the answer is here. */
  async load(ask: () => Promise<T>): Promise<void> {
    const mine = ++this.#asked;
    this.#isLoading = true;
    try {
      const value = await ask();
      if (mine !== this.#asked) return;
      this.#value = value;
      this.#trouble = null;
      this.#read = new Date();
    } catch (error) {
      if (mine === this.#asked) this.#trouble = asTrouble(error);
    } finally {
      if (mine === this.#asked) this.#isLoading = false;
    }
  }

  /** Take a value that another answer brought. */
  take(value: T): void {
    this.#asked++;
    this.#value = value;
    this.#trouble = null;
    this.#isLoading = false;
    this.#read = new Date();
  }
}
