/** The last thing that was recorded, and how to take it back. */
export interface Undoable {
  said: string;
  /** False while the write is still on its way to the disk. */
  kept: boolean;
  takeBack: (() => Promise<void>) | null;
  /** The page on which it was said, to return to when it is taken back. */
  at: string;
}

export class Undo {
  #last = $state.raw<Undoable | null>(null);

  get last(): Undoable | null {
    return this.#last;
  }

  offer(said: string, takeBack: (() => Promise<void>) | null): void {
    this.#last = { said, kept: false, takeBack, at: location.pathname };
  }

  markKept(said: string): void {
    if (this.#last?.said === said) this.#last = { ...this.#last, kept: true };
  }

  clear(): void {
    this.#last = null;
  }

  async run(): Promise<void> {
    const last = this.#last;
    this.#last = null;
    await last?.takeBack?.();
  }
}

export const undo = new Undo();
