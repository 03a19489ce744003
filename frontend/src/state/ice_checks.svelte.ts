/** Checks in ice filed on this phone: they count at once, before and after the server has them. */
import { t } from "../messages";
import { uuidv7 } from "uuidv7";
import type { Reading } from "../store/document";
import { discardIceCheck, keepIceCheck, keptIceChecks, type IceCheck, type IceChecks } from "../store/ice_checks";
import { isoWithOffset } from "./clock.svelte";
import { session } from "./session.svelte";
import { waiting } from "./waiting.svelte";

export const NOT_KEPT = t("dock-ice-checks-phone-could-not");

export class FiledChecks {
  #newest = $state.raw<IceChecks>({});

  /** Read what was filed before; answers how to stop, as the others that are started with the page. */
  start(): () => void {
    void keptIceChecks()
      .then((checks) => (this.#newest = { ...checks, ...this.#newest }))
      .catch(() => undefined);
    return () => undefined;
  }

  /**
   * File a check: kept on this phone before it is sent.
   *
   * The same id again, as after a kill between two writes, files nothing twice. Throws what the phone's store throws.
   */
  async file(thermometerId: string, reading: Reading, { id = uuidv7(), at = Date.now() } = {}): Promise<void> {
    const { id: person_id, name } = session.me!;
    // filed for one thermometer already, then another was chosen: that is a check of its own
    const isTaken = Object.values(this.#newest).some((one) => one.id === id && one.thermometer_id !== thermometerId);
    const check: IceCheck = {
      id: isTaken ? uuidv7() : id,
      thermometer_id: thermometerId,
      at: isoWithOffset(new Date(at)),
      reading: { entered: reading.entered, unit: reading.unit },
      person: { person_id, name },
      device_id: session.device,
    };
    this.#newest = await keepIceCheck(check);
    waiting.nudge();
  }

  /** Take off a check that the server will not have. */
  async discard(check: IceCheck): Promise<void> {
    this.#newest = await discardIceCheck(check);
    await waiting.look();
  }

  /** The last check of a thermometer that was filed on this phone. */
  newestOf(thermometerId: string): IceCheck | null {
    return this.#newest[thermometerId] ?? null;
  }
}

export const filedChecks = new FiledChecks();
