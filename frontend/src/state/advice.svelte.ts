/** The advisory's answers, as far as they have come; kept on the phone with their delivery. */
import { changeDelivery, deliveryById } from "../store/documents";
import { fetchAdvice } from "../sync/reference";
import type { Advice } from "../trade/types";

type Answers = Record<string, Advice | null>;
const ASK_EVERY_MS = 4_000;

export class AdviceDesk {
  #answers = $state.raw<Record<string, Answers>>({});

  of(deliveryId: string): Answers | null {
    return this.#answers[deliveryId] ?? null;
  }

  /** Ask for as long as a screen shows it; answers how to stop. */
  follow(deliveryId: string): () => void {
    let isOver = false;
    const round = async () => {
      if (isOver || (await this.ask(deliveryId))) return;
      setTimeout(() => void round(), ASK_EVERY_MS);
    };
    void round();
    return () => (isOver = true);
  }

  /** Whether every photo has its answer. Without a signal the kept ones are shown. */
  async ask(deliveryId: string): Promise<boolean> {
    const stored = await deliveryById(deliveryId);
    if (stored?.advisories) this.#keep(deliveryId, stored.advisories as Answers);
    try {
      const answers = await fetchAdvice(deliveryId);
      this.#keep(deliveryId, answers);
      await changeDelivery(deliveryId, (delivery) => ({ ...delivery, advisories: answers }));
    } catch {
      return false; // no signal or no answer yet: the next round asks again
    }
    const photos = stored?.body.photos ?? [];
    return stored?.state === "sealed" && photos.every(({ sha256 }) => this.#answers[deliveryId]?.[sha256] != null);
  }

  #keep(deliveryId: string, answers: Answers): void {
    this.#answers = { ...this.#answers, [deliveryId]: answers };
  }
}

export const advice = new AdviceDesk();
