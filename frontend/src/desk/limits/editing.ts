/** Changing limits: entries as typed, what they come to, and what would be published. No DOM. */
import { t } from "../../messages/desk";
import type { Limit, LimitSet } from "../../trade/types";
import { parseDecimal } from "../../trade/quantities";
import { CHECKS, outcomesOf } from "../../trade/registry";
import { tradeWord } from "../words";

/** What was typed for one limit; shares are typed in per cent. */
export interface Entry {
  bound: string;
  severity: Limit["severity"];
  source: string;
}
export type Entries = Record<string, Entry>;

export function shownBound(limit: Limit): string {
  if (limit.bound === null) return "";
  // A share of a half million parts is still shown whole: no rounding where somebody may publish it again.
  return String(limit.unit === "share" ? Math.round(limit.bound * 1e10) / 1e8 : limit.bound);
}

export function entriesOf(set: LimitSet): Entries {
  return Object.fromEntries(
    set.limits.map((limit) => [limit.code, { bound: shownBound(limit), severity: limit.severity, source: limit.basis.source }]),
  );
}

export interface Edited {
  limits: Limit[];
  changed: string[];
  /** Limit code and the sentence for an entry that is no number. */
  unusable: Record<string, string>;
}

/** The set as it would be published; a bound that was not touched keeps its exact value. */
export function edited(set: LimitSet, entries: Entries): Edited {
  const result: Edited = { limits: [], changed: [], unusable: {} };
  for (const limit of set.limits) {
    const entry = entries[limit.code];
    const next = entry ? applied(limit, entry) : limit;
    if (next === null) {
      result.unusable[limit.code] = t("desk-editing-could-not-read-as");
      result.limits.push(limit);
      continue;
    }
    result.limits.push(next);
    if (next !== limit) result.changed.push(limit.code);
  }
  return result;
}

function applied(limit: Limit, entry: Entry): Limit | null {
  let bound = limit.bound;
  if (limit.bound !== null && entry.bound.trim() !== shownBound(limit)) {
    const typed = number(entry.bound);
    if (typed === null) return null;
    bound = limit.unit === "share" ? typed / 100 : typed;
  }
  const source = entry.source.trim();
  const isSame = bound === limit.bound && entry.severity === limit.severity && source === limit.basis.source;
  if (isSame) return limit;
  return { ...limit, bound, severity: entry.severity, basis: { ...limit.basis, source, known: knownFor(limit, bound, source) } };
}

/** A house figure must not go on wearing the published source of the number that it replaced. */
function knownFor(limit: Limit, bound: number | null, source: string): Limit["basis"]["known"] {
  return bound !== limit.bound || source !== limit.basis.source ? "common_practice" : limit.basis.known;
}

/** A bound that moved while its source stayed: the source no longer says this number. */
export function needsSource(set: LimitSet, entries: Entries): string[] {
  return set.limits
    .filter((limit) => {
      const entry = entries[limit.code];
      const moved = entry && limit.bound !== null && entry.bound.trim() !== shownBound(limit);
      return moved && limit.basis.known !== "common_practice" && entry.source.trim() === limit.basis.source;
    })
    .map((limit) => limit.code);
}

function number(text: string): number | null {
  try {
    return parseDecimal(text.trim().replace("−", "-"));
  } catch {
    return null;
  }
}

const GROUPS: readonly [name: string, starts: readonly string[]][] = [
  [t("desk-vehicle"), ["vehicle"]],
  [t("desk-temperature"), ["product", "thermometer", "refreezing", "frost"]],
  [t("desk-editing-carton-hazards"), []],
  [t("desk-editing-condition-prawns"), ["looked_at"]],
  [t("desk-editing-species-size"), ["species", "count", "uniformity"]],
  [t("desk-editing-weight-number"), ["net", "glaze", "cartons_short", "defective"]],
  [t("desk-editing-label-life"), ["label", "life"]],
];
/** Where a plain check has its limit, unless the beginning of its code says otherwise. */
function plainGroup(code: string): string | undefined {
  const check = CHECKS.find((one) => outcomesOf(one).some(({ limit }) => limit === code));
  if (check?.on === "vehicle") return t("desk-vehicle");
  return (
    check && (check.acts_on === "pieces" || check.type === "score" ? t("desk-editing-condition-prawns") : t("desk-editing-carton-hazards"))
  );
}
export function grouped(limits: readonly Limit[]): [string, Limit[]][] {
  const groupOf = ({ code }: Limit) =>
    GROUPS.find(([, starts]) => starts.some((start) => code.startsWith(start)))?.[0] ?? plainGroup(code) ?? t("desk-editing-other");
  const names = [...GROUPS.map(([name]) => name), t("desk-editing-other")];
  return names
    .map((name): [string, Limit[]] => [name, limits.filter((limit) => groupOf(limit) === name)])
    .filter(([, found]) => found.length);
}

export const limitName = (code: string): string => tradeWord("limit", code);
/** The server names limits by their codes; the screen by their names. */
export function inWords(sentence: string, codes: readonly string[]): string {
  return [...codes]
    .sort((a, b) => b.length - a.length)
    .reduce((told, code) => told.replaceAll(`“${code}”`, `“${limitName(code)}”`), sentence);
}
export function unitWords(unit: string): string {
  return (
    {
      C: "°C",
      share: t("desk-editing-prawns"),
      percent: "%",
      points: t("desk-editing-points"),
      ratio: t("desk-editing-ratio"),
      score: t("desk-editing-score"),
      pieces: t("desk-editing-pieces"),
      cartons: t("desk-editing-cartons"),
      days: t("desk-editing-days"),
      readings: t("desk-editing-readings"),
      degrees: "°C",
      times: t("desk-editing-times-table"),
    }[unit] ?? unit
  );
}
