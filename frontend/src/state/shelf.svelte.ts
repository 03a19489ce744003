/** Every delivery on this phone, for the first screen. */
import { allDeliveries, discardDraft } from "../store/documents";
import type { StoredDelivery } from "../store/schema";

export class Shelf {
  #all = $state.raw<StoredDelivery[]>([]);

  get all(): StoredDelivery[] {
    return this.#all;
  }
  get drafts(): StoredDelivery[] {
    return this.#all.filter(({ state }) => state === "draft");
  }
  get toPutAway(): StoredDelivery[] {
    return this.#all.filter(({ state, put_away }) => (state === "signing" || state === "sealed") && put_away === null);
  }
  get finished(): StoredDelivery[] {
    return this.#all.filter(({ state, put_away }) => (state === "signing" || state === "sealed") && put_away !== null);
  }
  get setAside(): StoredDelivery[] {
    return this.#all.filter(({ state }) => state === "set_aside");
  }

  async look(): Promise<void> {
    this.#all = await allDeliveries();
  }

  async discard(id: string): Promise<boolean> {
    const gone = await discardDraft(id);
    await this.look();
    return gone;
  }
}

export const shelf = new Shelf();

export { isDiscardable } from "../store/documents";
export type { StoredDelivery } from "../store/schema";
