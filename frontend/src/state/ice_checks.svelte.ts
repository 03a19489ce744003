/** Checks in ice filed on this phone: they count at once, before and after the server has them. */
import { uuidv7 } from "uuidv7";
import type { Reading } from "../store/document";
import { discardIceCheck, keepIceCheck, keptIceChecks, type IceCheck, type IceChecks } from "../store/ice_checks";
import type { ThermometerRow } from "../sync/reference";
import { toCelsius } from "../trade/quantities";
import { thermometerOn } from "../trade/thermometer";
import { isoWithOffset } from "./clock.svelte";
import { session } from "./session.svelte";
import { waiting } from "./waiting.svelte";

export const NOT_KEPT = "This phone could not keep the check. Nothing was filed. Free some space, then file it again.";

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

  /** The thermometer with the check of this phone, where that is the later one. */
  onTop(row: ThermometerRow): ThermometerRow {
    const check = this.#newest[row.id];
    if (!check || !isLater(check, row)) return row;
    const [day, celsius] = [check.at.slice(0, 10), toCelsius(check.reading)];
    const { due_on } = thermometerOn(day, day, celsius);
    return { ...row, last_checked_on: day, last_check_c: celsius, check_due_on: due_on, last_checked_at: check.at };
  }
}

/** As the server orders them: by the moment; of one that was only noted, by a later day that has its reading. */
function isLater(check: IceCheck, row: ThermometerRow): boolean {
  if (row.last_checked_at) return Date.parse(check.at) > Date.parse(row.last_checked_at);
  const isWhole = row.last_checked_on != null && row.last_check_c != null;
  return !isWhole || check.at.slice(0, 10) >= row.last_checked_on!;
}

export const filedChecks = new FiledChecks();
