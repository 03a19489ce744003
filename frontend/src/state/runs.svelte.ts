/**
 * Procedures under way and their timers.
 *
 * What is kept is the moment at which the time is up, not a running count: a killed browser, an empty
 * battery or a sleeping page shows the right rest, or how long it is over, when it comes back.
 */
import { t } from "../messages";
import { uuidv7 } from "uuidv7";
import { keep, kept } from "../store/key_value";
import { endSignal } from "./end_signal";
import type { Measured, Purpose, Readings } from "./procedures";
import type { Reading } from "../store/document";

export interface Run {
  key: string;
  delivery_id: string;
  purpose: Purpose;
  line_id: string;
  position: number;
  /** Which card is open, from 0; -1 is the page before the first, with its caution. */
  at: number;
  /** When the time of the open card is up, ms since 1970; null while no time runs. */
  ends_at: number | null;
  /** The page has signalled the end already. */
  signalled: boolean;
  readings: Readings;
  begun_at: number;
  /** Under this id what comes of it is filed, once, however often it is tried. */
  id?: string;
  /** When the last reading was read off, ms since 1970. */
  read_at?: number;
}
export type Place = Pick<Run, "delivery_id" | "purpose" | "line_id" | "position">;

const STORE_KEY = "procedures";
/** A run left lying for longer than this is of another day. */
const FORGET_AFTER_MS = 12 * 3_600_000;
const TICK_MS = 250;

export const runKey = ({ delivery_id, purpose, line_id, position }: Place): string => [delivery_id, purpose, line_id, position].join("~");

export class Runs {
  #all = $state.raw<Run[]>([]);
  #now = $state(Date.now());
  #isRead = $state(false);
  #queue: Promise<void> = Promise.resolve();
  #failure = $state<string | null>(null);

  get all(): Run[] {
    return this.#all;
  }
  get now(): number {
    return this.#now;
  }
  /** What was kept has been read; before that a run may not be begun anew. */
  get isRead(): boolean {
    return this.#isRead;
  }
  get failure(): string | null {
    return this.#failure;
  }
  /** Those whose time runs or is up, the next to end first. */
  get timed(): Run[] {
    return this.#all.filter((run) => run.ends_at !== null).sort((one, other) => one.ends_at! - other.ends_at!);
  }
  of(place: Place): Run | null {
    return this.#all.find(({ key }) => key === runKey(place)) ?? null;
  }

  /** Read what was under way, and let the clock go. */
  start(): () => void {
    void this.#read();
    const timer = setInterval(() => this.tick(), TICK_MS);
    return () => clearInterval(timer);
  }
  async #read(): Promise<void> {
    const before = await kept<Run[]>(STORE_KEY).catch(() => null);
    const since = Date.now() - FORGET_AFTER_MS;
    const begunHere = new Set(this.#all.map(({ key }) => key));
    this.#all = [...this.#all, ...(before ?? []).filter((run) => run.begun_at > since && !begunHere.has(run.key))];
    this.#isRead = true;
  }

  tick(now = Date.now()): void {
    if (this.timed.length === 0) return;
    this.#now = now;
    for (const run of this.#all) {
      if (run.ends_at === null || run.signalled || run.ends_at > now) continue;
      endSignal.give();
      void this.#put({ ...run, signalled: true });
    }
  }

  begin(place: Place): Promise<void> {
    return this.#put({
      ...place,
      key: runKey(place),
      at: -1,
      ends_at: null,
      signalled: false,
      readings: {},
      begun_at: Date.now(),
      id: uuidv7(),
    });
  }
  startTimer(place: Place, seconds: number): Promise<void> {
    this.#now = Date.now();
    return this.#edit(place, { ends_at: this.#now + seconds * 1000, signalled: false });
  }
  /** Open another card; a running time is over with its card. */
  turnTo(place: Place, at: number): Promise<void> {
    return this.#edit(place, { at, ends_at: null });
  }
  note(place: Place, measured: Measured, reading: Reading | null): Promise<void> {
    const readings = { ...this.of(place)?.readings };
    if (reading) readings[measured] = reading;
    else delete readings[measured];
    return this.#edit(place, { readings, read_at: Date.now() });
  }
  /** Over: what was read off is in the record, or the procedure was given up. */
  end(place: Place): Promise<void> {
    this.#all = this.#all.filter(({ key }) => key !== runKey(place));
    return this.#save();
  }
  endAllOf(deliveryId: string): Promise<void> {
    if (!this.#all.some((run) => run.delivery_id === deliveryId)) return Promise.resolve();
    this.#all = this.#all.filter((run) => run.delivery_id !== deliveryId);
    return this.#save();
  }

  #edit(place: Place, change: Partial<Run>): Promise<void> {
    const run = this.of(place);
    return run ? this.#put({ ...run, ...change }) : Promise.resolve();
  }
  #put(run: Run): Promise<void> {
    const isKnown = this.#all.some(({ key }) => key === run.key);
    this.#all = isKnown ? this.#all.map((one) => (one.key === run.key ? run : one)) : [...this.#all, run];
    return this.#save();
  }
  #save(): Promise<void> {
    const all = this.#all;
    this.#queue = this.#queue
      .then(() => keep(STORE_KEY, all))
      .then(
        () => void (this.#failure = null),
        () => void (this.#failure = t("dock-runs-phone-could-not")),
      );
    return this.#queue;
  }
}

export const runs = new Runs();

/** "1:05" left, or "+0:20" over. */
export function countdownShown(endsAt: number, now: number): string {
  const left = endsAt - now;
  const seconds = left > 0 ? Math.ceil(left / 1000) : Math.floor(-left / 1000);
  const text = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  return left > 0 ? text : `+${text}`;
}
