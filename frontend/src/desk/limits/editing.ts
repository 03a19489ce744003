/** Changing limits: entries as typed, what they come to, and what would be published. No DOM. */
import type { Limit, LimitSet } from "../shapes";
import { parseDecimal } from "../../trade/quantities";
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
      result.unusable[limit.code] = "This could not be read as a number. Nothing was changed. Write digits with one comma or point.";
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
  ["Vehicle", ["vehicle", "load"]],
  ["Temperature", ["product", "thermometer", "refreezing", "frost"]],
  ["Carton and hazards", ["liner", "foreign", "odour"]],
  ["Condition of the prawns", ["black_spot", "dehydrated", "broken", "soft", "heads", "legs", "tails", "looked_at"]],
  ["Species and size", ["species", "count", "uniformity"]],
  ["Weight and number", ["net", "glaze", "cartons_short", "defective"]],
  ["Label and life", ["label", "life"]],
];
export function grouped(limits: readonly Limit[]): [string, Limit[]][] {
  const groups = GROUPS.map(([name, starts]): [string, Limit[]] => [
    name,
    limits.filter((limit) => starts.some((start) => limit.code.startsWith(start))),
  ]);
  const rest = limits.filter((limit) => !groups.some(([, found]) => found.includes(limit)));
  return [...groups, ["Other", rest] as [string, Limit[]]].filter(([, found]) => found.length);
}

const NAMES: Record<string, string> = {
  vehicle_air_c: "Vehicle air", "load.shifted": "Load shifted", "load.wet": "Load wet", "load.mixed": "Mixed with other goods",
  "load.dirty": "Load space dirty", "product_c.within": "Product, fine", "product_c.tolerance": "Product, transport tolerance",
  "product_c.reject": "Product, refuse", "product_c.accuracy": "Accuracy of the thermometer",
  "product_c.between_packs": "Allowance between packs", "thermometer.ice_point": "Thermometer off in ice",
  "thermometer.overdue": "Thermometer check overdue", "thermometer.unknown": "Thermometer not known", "thermometer.doubt": "Thermometer in doubt",
  product_readings: "Product readings a delivery", refreezing: "Signs of refreezing", "liner.open": "Liner open",
  "liner.torn": "Liner torn", "liner.missing": "Liner missing", "frost.heavy": "Heavy frost",
  "foreign.hazard": "Foreign matter that may hurt", "foreign.harmless": "Harmless foreign matter",
  "odour.chemical": "Chemical smell", "odour.off": "Off smell", "odour.slight": "Slight smell",
  black_spot_wide_share: "Black over a tenth of the surface", black_spot_share: "Any black spot",
  black_spot_meat_share: "Black spot on the meat", black_spot_score: "Black spot score", dehydrated_share: "Dried out, by pieces",
  dehydrated_weight_share: "Dried out, by weight", dehydrated_surface_share: "Dried out, surface of a block",
  broken_share: "Broken", "broken_share.note": "Broken, noted", soft_share: "Soft", heads_share: "Heads", legs_share: "Legs",
  tails_share: "Tails", looked_at: "Prawns looked at", "species.label": "Species on the label", "species.marks": "Species marks",
  "species.unsure": "Species unsure", count: "Count", uniformity: "Uniformity", "net_unit.t1": "One unit short, noted",
  "net_unit.t2": "One unit short", "net_unit.mav": "One unit short (US)", "net_unit.no_table": "No tolerance held",
  "net_mean.eu": "Mean under weight, EU and ANZ", "net_mean.us": "Mean under weight, US", "net_mean.unsure": "Mean too few to tell",
  net_mean_short_percent: "Mean under weight", glaze_over_percent: "Glaze over declared", cartons_short: "Cartons short",
  count_unsure: "Count too close to tell", life_days_left: "Days to best before", life_share: "Life left", defective_cartons: "Defective cartons",
};
export function limitName(code: string): string {
  if (NAMES[code]) return NAMES[code];
  const [head = "", tail = ""] = code.split(".");
  return head === "label" ? `Label: ${tradeWord("not_checked", tail)}` : code.replaceAll(/[._]/g, " ");
}
/** The server names limits by their codes; the screen by their names. */
export function inWords(sentence: string, codes: readonly string[]): string {
  return [...codes].sort((a, b) => b.length - a.length).reduce((told, code) => told.replaceAll(`“${code}”`, `“${limitName(code)}”`), sentence);
}
export function unitWords(unit: string): string {
  return (
    { C: "°C", share: "% of prawns", percent: "%", points: "points", ratio: "ratio", score: "of 10", pieces: "prawns",
      cartons: "cartons", days: "days", readings: "readings", degrees: "°C", times: "times the table" }[unit] ?? unit
  );
}
