/** The time now, ticking, so that ages and the out-of-cold clock move by themselves. */
import { t } from "../messages";
export class Clock {
  #now = $state(Date.now());
  #timer: ReturnType<typeof setInterval> | undefined;

  get now(): number {
    return this.#now;
  }

  start(everyMs = 5_000): () => void {
    this.#timer = setInterval(() => this.tick(), everyMs);
    return () => clearInterval(this.#timer);
  }

  tick(now = Date.now()): void {
    this.#now = now;
  }
}

export const clock = new Clock();

/** CV-12-69: warn at 10 minutes out of the cold, alarm at 20. The one limit that screens name is the alarm's. */
const WARN_MINUTES = 10;
export const ALARM_MINUTES = 20;
export type ColdClock = { minutes: number; stage: "fine" | "warn" | "alarm" };

export function coldClock(outAt: string, now: number): ColdClock {
  const minutes = Math.max(0, Math.floor((now - Date.parse(outAt)) / 60_000));
  const stage = minutes >= ALARM_MINUTES ? "alarm" : minutes >= WARN_MINUTES ? "warn" : "fine";
  return { minutes, stage };
}

/** "under 1 min", "4 min", "3 h", "2 days". */
export function ageInWords(since: string | number, now: number): string {
  const minutes = Math.floor((now - (typeof since === "number" ? since : Date.parse(since))) / 60_000);
  if (minutes < 1) return t("dock-clock-under-1-min");
  if (minutes < 60) return t("dock-clock-min", { minutes });
  if (minutes < 48 * 60) return `${Math.floor(minutes / 60)} h`;
  return t("dock-clock-days", { days: Math.floor(minutes / 1440) });
}

const CLOCKS_APART_MS = 10 * 60_000;

/** What to say before signing where this phone's clock is off; the offset is the server's clock minus the phone's. */
export function clockSentence(offsetMs: number): string | null {
  const apart = Math.abs(offsetMs);
  if (apart < CLOCKS_APART_MS) return null;
  return t(offsetMs < 0 ? "dock-clock-ahead" : "dock-clock-behind", { apart: ageInWords(0, apart) });
}

const folded = (name: string) => name.normalize("NFKC").toLowerCase().split(/\s+/).filter(Boolean).join(" ");

/** What to say where another name is signed than that of the person signed in. */
export function otherNameSentence(printed: string, signedIn: string): string | null {
  if (!printed.trim() || !signedIn || folded(printed) === folded(signedIn)) return null;
  return t("dock-clock-signed-in-on", { signed_in: signedIn, printed: printed.trim() });
}

/** ISO 8601 with this device's offset kept, as the record wants it. */
export function isoWithOffset(at: Date): string {
  const minutes = -at.getTimezoneOffset();
  const two = (value: number) => String(Math.floor(Math.abs(value))).padStart(2, "0");
  const local = new Date(at.getTime() + minutes * 60_000).toISOString().slice(0, 19);
  return `${local}${minutes < 0 ? "-" : "+"}${two(minutes / 60)}:${two(minutes % 60)}`;
}

/** YYYY-MM-DD where the phone is. */
export function dayOfPhone(at: number): string {
  return isoWithOffset(new Date(at)).slice(0, 10);
}

export function timeOfDay(iso: string): string {
  const at = new Date(iso);
  return `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;
}
