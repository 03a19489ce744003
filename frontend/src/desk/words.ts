/** How the desk says numbers, times and the words of the trade. Rounding happens here, for the eye only. */
import { WORDS, shown, shownMeasure, typeset, word } from "../trade/wording";
import type { DecisionKind, Role, Suggestion } from "../trade/types";

/** A measured value with its unit, rounded as the docket wording rounds it. */
export function measure(value: number | null | undefined, unit: string | null | undefined): string {
  if (value === null || value === undefined) return "not checked";
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
  if (share === null || share === undefined) return "no data";
  return printed(share === 0 ? "0 %" : `${shown(share * 100, share < 0.0995 ? 1 : 0)} %`);
}
/** A chance is never told as nought or certain. */
export function chance(share: number | null): string {
  if (share === null) return "cannot be said";
  return share > 0.99 ? "over 99\u00a0%" : share < 0.01 ? "under 1\u00a0%" : printed(`${shown(share * 100, 0)} %`);
}
export function percentRange(low: number | null, high: number | null): string {
  if (low === null || high === null) return "no data";
  return `${percent(low).replace("\u00a0%", "")} to ${percent(high)}`;
}
export function times(ratio: number | null | undefined): string {
  return ratio === null || ratio === undefined ? "cannot be said" : `${shown(ratio, 2)} times`;
}
export function decimal(value: number | null | undefined, decimals: number): string {
  return value === null || value === undefined ? "–" : typeset(shown(value, decimals));
}

function plain(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

export function counted(number: number, one: string, many = `${one}s`): string {
  return `${number.toLocaleString("en-GB")} ${number === 1 ? one : many}`;
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
  if (!at || Number.isNaN(at.getTime())) return "time not noted";
  return new Intl.DateTimeFormat("en-GB", { hour12: false, ...options }).format(at);
}

/** Today by the reader's own clock, as the address and the server write it. */
export function isoDay(at: Date): string {
  const two = (part: number) => String(part).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

export function outcomeWord(outcome: Suggestion | null | undefined): string {
  return outcome ? word("suggestion", outcome) : "Not decided";
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
  receiver: "receiver",
  site_manager: "site manager",
  group_operations: "group operations",
  administrator: "administrator",
};

export const PURPOSE_WORDS: Record<string, string> = {
  load: "Load",
  docket: "Docket",
  label: "Label",
  top: "Carton top",
  under_liner: "Under the liner",
  sample: "Sample",
  defect: "Defect",
  temperature: "Thermometer",
  signature: "Signature",
};
export const ANSWER_WORDS: Record<string, string> = {
  darkening_seen: "Darkening seen",
  none_seen: "No darkening seen",
  cannot_tell: "Cannot tell",
  look_here: "Look at the framed places",
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
    return `${one.dark_pieces} of ${one.pieces} pieces look darkened${one.at_head ? `, ${one.at_head} of them at the head` : ""}`;
  if (one.pieces && one.answer === "none_seen") return `${said} on ${counted(one.pieces, "piece")}`;
  return one.share == null ? said : `${said}: ${percent(one.share)} of the prawn area`;
}
export const PROBE_WORDS: Record<string, string> = {
  between_packs: "between packs",
  core: "in the core",
  surface: "on the surface",
};
export const PLAN_WORDS: Record<string, string> = {
  house: "house plan",
  codex_1: "Codex CXS 233, level I",
  codex_2: "Codex CXS 233, level II",
  iso_s2: "ISO 2859-1, level S-2",
  iso_s3: "ISO 2859-1, level S-3",
  iso_s4: "ISO 2859-1, level S-4",
  iso_1: "ISO 2859-1, level I",
  iso_2: "ISO 2859-1, level II",
};

/** Words of the shared file for a code, or the code itself when there are none. */
export function tradeWord(group: string, code: string | null | undefined): string {
  return code ? (group in WORDS ? word(group, code) : code) : "not stated";
}
