/** How the desk says numbers, times and the words of the trade. Rounding happens here, for the eye only. */
import { t } from "../messages/desk";
import { WORDS, shown, shownMeasure, typeset, word } from "../trade/wording";
import type { DecisionKind, Role, Suggestion } from "../trade/types";

/** A measured value with its unit, rounded as the docket wording rounds it. */
export function measure(value: number | null | undefined, unit: string | null | undefined): string {
  if (value === null || value === undefined) return t("desk-not-checked-2");
  return printed(KNOWN_UNITS.has(unit ?? "") ? shownMeasure(value, unit!) : `${plain(value)}${unit ? ` ${unit}` : ""}`);
}
/** A sentence as the desk prints it: a true minus sign, a number and its unit on one line. */
export function printed(text: string): string {
  return typeset(text).replace(/(\d) (?=[%°a-z])/g, "$1\u00a0");
}
const KNOWN_UNITS = new Set([
  "C",
  "share",
  "percent",
  "points",
  "g",
  "kg",
  "per_lb",
  "per_kg",
  "ratio",
  "score",
  "pieces",
  "cartons",
  "days",
  "readings",
]);

/** A share 0 to 1 as a percentage; below 10 % with one decimal. */
export function percent(share: number | null | undefined): string {
  if (share === null || share === undefined) return t("desk-words-no-data");
  return printed(share === 0 ? "0 %" : `${shown(share * 100, share < 0.0995 ? 1 : 0)} %`);
}
/** A chance is never told as nought or certain. */
export function chance(share: number | null): string {
  if (share === null) return t("desk-words-cannot-said");
  return share > 0.99 ? t("desk-words-over-99") : share < 0.01 ? t("desk-words-under-1") : printed(`${shown(share * 100, 0)} %`);
}
export function percentRange(low: number | null, high: number | null): string {
  if (low === null || high === null) return t("desk-words-no-data");
  return t("desk-words-range", { replace: percent(low).replace("\u00a0%", ""), high: percent(high) });
}
export function times(ratio: number | null | undefined): string {
  return ratio === null || ratio === undefined ? t("desk-words-cannot-said") : t("desk-words-times", { ratio: shown(ratio, 2) });
}
export function decimal(value: number | null | undefined, decimals: number): string {
  return value === null || value === undefined ? "–" : typeset(shown(value, decimals));
}

function plain(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

/** How many of a thing, as in "3 cartons"; the catalogue has each as desk-counted-… */
export function counted(number: number, thing: string): string {
  return t(`desk-counted-${thing.replace(" ", "-")}`, { count: number, shown: number.toLocaleString("en-GB") });
}

/** A time by the clock of the place where it happened. */
export function moment(iso: string | null | undefined, timezone?: string): string {
  return written(iso, { ...DAY, hour: "2-digit", minute: "2-digit", ...zone(timezone) });
}
export function day(iso: string | null | undefined, timezone?: string): string {
  return written(iso, { ...DAY, ...zone(timezone) });
}
export function hour(iso: string | null | undefined, timezone?: string): string {
  return written(iso, { hour: "2-digit", minute: "2-digit", ...zone(timezone) });
}
const DAY = { weekday: "short", day: "numeric", month: "short", year: "numeric" } as const;
const zone = (timezone?: string) => (timezone ? { timeZone: timezone } : {});

function written(iso: string | null | undefined, options: Intl.DateTimeFormatOptions): string {
  const at = iso ? new Date(iso) : null;
  if (!at || Number.isNaN(at.getTime())) return t("desk-words-time-not-noted");
  return new Intl.DateTimeFormat("en-GB", { hour12: false, ...options }).format(at);
}

/** Today by the reader's own clock, as the address and the server write it. */
export function isoDay(at: Date): string {
  const two = (part: number) => String(part).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

export function outcomeWord(outcome: Suggestion | null | undefined): string {
  return outcome ? word("suggestion", outcome) : t("desk-words-not-decided");
}
/** A mark to go beside the word, never without it. */
export const OUTCOME_MARK: Record<Suggestion, string> = {
  accept: "✓",
  accept_with_allowance: "±",
  hold: "‖",
  reject: "✕",
  not_yet: "…",
};

/** Of several lines, the decision that needs a person most. */
export function heaviest(outcomes: readonly DecisionKind[]): DecisionKind | null {
  return (["reject", "hold", "accept_with_allowance", "accept"] as const).find((o) => outcomes.includes(o)) ?? null;
}

export const ROLE_WORDS: Record<Role, string> = {
  receiver: t("desk-words-receiver"),
  site_manager: t("desk-words-site-manager"),
  group_operations: t("desk-words-group-operations"),
  administrator: t("desk-words-administrator"),
};

export const PURPOSE_WORDS: Record<string, string> = {
  load: t("desk-load"),
  docket: t("desk-docket"),
  label: t("desk-label"),
  top: t("desk-words-carton-top"),
  under_liner: t("desk-under-liner"),
  sample: t("desk-sample"),
  defect: t("desk-words-defect"),
  temperature: t("desk-thermometer"),
  signature: t("desk-signature"),
};
export const ANSWER_WORDS: Record<string, string> = {
  darkening_seen: t("desk-darkening-seen"),
  none_seen: t("desk-words-no-darkening-seen"),
  cannot_tell: t("desk-cannot-tell"),
  look_here: t("desk-words-look-framed-places"),
};
/** What an advice says: pieces counted, or of earlier methods a share of the surface. */
export function adviceSays(one: {
  answer: string;
  pieces?: number | null;
  dark_pieces?: number | null;
  at_head?: number | null;
  share?: number | null;
}): string {
  const said = ANSWER_WORDS[one.answer] ?? one.answer;
  if (one.pieces && one.answer === "darkening_seen")
    return t("desk-words-pieces-look-darkened", {
      dark_pieces: one.dark_pieces,
      pieces: one.pieces,
      at_head: one.at_head ? t("desk-words-them-head", { at_head: one.at_head }) : "",
    });
  if (one.pieces && one.answer === "none_seen") return t("desk-words-on-pieces", { said, pieces: counted(one.pieces, "piece") });
  return one.share == null ? said : t("desk-words-prawn-area", { said, share: percent(one.share) });
}
export const PROBE_WORDS: Record<string, string> = {
  between_packs: t("desk-words-between-packs"),
  core: t("desk-words-core"),
  surface: t("desk-words-surface"),
};
export const PLAN_WORDS: Record<string, string> = {
  house: t("desk-words-house-plan"),
  codex_1: t("desk-words-codex-cxs-233-level"),
  codex_2: t("desk-words-codex-cxs-233-level-2"),
  iso_s2: t("desk-words-iso-2859-1-level"),
  iso_s3: t("desk-words-iso-2859-1-level-2"),
  iso_s4: t("desk-words-iso-2859-1-level-3"),
  iso_1: t("desk-words-iso-2859-1-level-4"),
  iso_2: t("desk-words-iso-2859-1-level-5"),
};

/** Words of the shared file for a code, or the code itself when there are none. */
export function tradeWord(group: string, code: string | null | undefined): string {
  return code ? (group in WORDS ? word(group, code) : code) : t("desk-words-not-stated");
}
