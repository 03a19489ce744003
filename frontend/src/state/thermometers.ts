/** The site's thermometers as the receiver meets them: which one, and how its last check in ice stands. */
import { t } from "../messages";
import type { Inspection } from "../store/document";
import type { IceCheck } from "../store/ice_checks";
import type { ThermometerRow } from "../trade/types";
import { shownMeasure, typeset } from "../trade";
import { toCelsius, Unusable } from "../trade/quantities";
import { icePointAllowedC, thermometerOn, type Thermometer } from "../trade/thermometer";
import { dayOfPhone } from "./clock.svelte";
import { filedChecks, type FiledChecks } from "./ice_checks.svelte";
import { session } from "./session.svelte";

const KEY = "underlid-thermometer";
const DAY_MS = 86_400_000;

export function thermometersAt(siteId: string): ThermometerRow[] {
  const rows = session.reference?.thermometers ?? [];
  return rows.filter((one) => one.site_id === siteId && one.in_use !== false).map((row) => onTop(row, filedChecks));
}

/** The thermometer with the check filed on this phone, where that is the later one. */
export function onTop(row: ThermometerRow, filed: FiledChecks): ThermometerRow {
  const check = filed.newestOf(row.id);
  if (!check || !isLater(check, row)) return row;
  const [day, celsius] = [check.at.slice(0, 10), toCelsius(check.reading)];
  const { due_on } = thermometerOn(day, day, celsius);
  return { ...row, last_checked_on: day, last_check_c: celsius, check_due_on: due_on, last_checked_at: check.at };
}

/** As the server orders them: by the moment; of one that was only noted, by a later day that has its reading. */
function isLater(check: IceCheck, row: ThermometerRow): boolean {
  if (row.last_checked_at) return Date.parse(check.at) > Date.parse(row.last_checked_at);
  const isWhole = row.last_checked_on != null && row.last_check_c != null;
  return !isWhole || check.at.slice(0, 10) >= row.last_checked_on!;
}

/**
 * The one used last in this delivery, else last on this phone, else the only one; null while the receiver has to say.
 *
 * The delivery goes first: it is on the disk, and the browser's small store may lose its last seconds to a kill.
 */
export function likelyThermometer(body: Inspection): string | null {
  const mine = thermometersAt(body.site_id);
  const used = body.lines.flatMap(({ cartons }) => cartons).filter(({ temperature }) => temperature !== null);
  const last = used.sort((one, other) => Date.parse(one.opened_at) - Date.parse(other.opened_at)).at(-1)?.temperature;
  if (last) return mine.find((one) => one.id === last.thermometer_id)?.id ?? null;
  const remembered = localStorage.getItem(KEY);
  return mine.find((one) => one.id === remembered)?.id ?? (mine.length === 1 ? mine[0]!.id : null);
}
/** The one whose check in ice is being done: the one chosen last on this phone, else the likely one. */
export function thermometerInIce(body: Inspection): string | null {
  const remembered = localStorage.getItem(KEY);
  return thermometersAt(body.site_id).find((one) => one.id === remembered)?.id ?? likelyThermometer(body);
}
export function rememberThermometer(id: string | null): void {
  if (id === null) localStorage.removeItem(KEY);
  else localStorage.setItem(KEY, id);
}

export interface Standing {
  isTrusted: boolean;
  words: string;
}

/** How far from 0 °C a check in ice may read, by the limits in use as this phone knows them; the server has the last word. */
export function allowedInIce(): number {
  const limits = session.limitSet(session.reference?.current_limits_id ?? "")?.limits ?? [];
  return icePointAllowedC(limits.find((one) => one.code === "thermometer.ice_point")?.bound ?? null);
}

/** How its ice-point check stands on a day of the phone's calendar (YYYY-MM-DD), in words. */
export function standingOf(row: ThermometerRow, day = dayOfPhone(Date.now()), allowedC = allowedInIce()): Standing {
  const { state, due_on, is_trusted } = checkOf(row, day, allowedC);
  return { isTrusted: is_trusted, words: wordsOf(row, state, due_on, day) };
}

function checkOf(row: ThermometerRow, day: string, allowedC: number): Thermometer {
  try {
    return thermometerOn(day, row.last_checked_on ?? null, row.last_check_c ?? null, row.check_due_on ?? null, allowedC);
  } catch (problem) {
    if (problem instanceof Unusable) return { state: "unchecked", due_on: null, is_trusted: false };
    throw problem;
  }
}

function wordsOf(row: ThermometerRow, state: Thermometer["state"], dueOn: string | null, day: string): string {
  if (state === "unchecked") return t("dock-thermometers-no-check-in");
  const checked = shortDay(row.last_checked_on!);
  if (state === "failed") return t("dock-thermometers-failed-in-ice", { checked, typeset: typeset(shownMeasure(row.last_check_c!, "C")) });
  if (state === "overdue") return t("dock-thermometers-check-overdue-since", { short_day: shortDay(dueOn!) });
  const days = Math.round((Date.parse(dueOn!) - Date.parse(day)) / DAY_MS);
  return t("dock-thermometers-checked", { checked, days });
}

/** "12 Nov"; months in words, because 4/5 is two days. */
const shortDay = (iso: string): string =>
  `${Number(iso.slice(8, 10))} ${t("dock-thermometers-months").split("\n")[Number(iso.slice(5, 7)) - 1] ?? ""}`;
