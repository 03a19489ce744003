/** Something that a person has asked to be done: on its way, done, or not done and why. */
import { asTrouble } from "./loaded.svelte";

export class Attempt {
  #isBusy = $state(false);
  #said = $state("");
  #code = $state("");

  get isBusy(): boolean {
    return this.#isBusy;
  }
  /** What is to be read of it. */
  get said(): string {
    return this.#said;
  }
  /** Of a refusal. */
  get code(): string {
    return this.#code;
  }

  say(words: string): void {
    this.#said = words;
  }

  async run(act: () => Promise<unknown>, done = ""): Promise<void> {
    this.#isBusy = true;
    this.#said = this.#code = "";
    try {
      await act();
      this.#said = done;
    } catch (error) {
      const trouble = asTrouble(error);
      this.#said = trouble.sentence;
      this.#code = trouble.kind === "refused" ? trouble.code : "";
    } finally {
      this.#isBusy = false;
    }
  }
}
