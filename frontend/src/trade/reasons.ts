// Mirror of inspections/trade/reasons.py.

import type { Finding } from "./findings";
import type { Facts } from "./quantities";
import type { Reason } from "./types";
import { counted, filled, listed, shown, shownMeasure, word, WORDS } from "./wording";

const FACT_UNITS: Readonly<Record<string, string>> = {
  low: "share",
  high: "share",
  declared_g: "g",
  net_g: "g",
  mean_g: "g",
  found_g: "g",
  ordered_g: "g",
  weight_g: "g",
  deglazed_g: "g",
  glaze_percent: "percent",
  declared_percent: "percent",
  accuracy_c: "C",
};
const FACT_NOUNS: Readonly<Record<string, string>> = {
  days: "day",
  total_days: "day",
  units: "unit",
  counted_cartons: "carton",
  docket_cartons: "carton",
  short: "carton",
  over: "carton",
  sample_pieces: "prawn",
};
const FACT_GROUPS: Readonly<Record<string, string>> = { signs: "signs", missing: "particulars" };
const FORMULAS: Readonly<Record<string, string>> = {
  "BLACK-HOUSE": "share",
  "BLACK-CODEX": "share",
  "BLACK-MEAT": "share",
  DEHYDRATED: "share",
  SOFT: "share",
  BROKEN: "share",
  "BROKEN-NOTE": "share",
  HEADS: "share",
  LEGS: "share",
  TAILS: "share",
  "COUNT-BEYOND": "count",
  "COUNT-UNSURE": "count",
  "NET-UNIT": "net",
  "NET-MEAN": "mean",
  "GLAZE-OVER": "glaze",
  "LIFE-SHORT": "life",
  "DEFECTIVE-OVER": "tally",
};

function place(name: string, value: unknown, group: string): string {
  if (typeof value === "string") return group && (name === "found" || name === "ordered") ? word(group, value) : value;
  if (Array.isArray(value)) return listed(value.map((entry) => word(FACT_GROUPS[name] ?? "", String(entry))));
  if (typeof value !== "number") return "";
  if (FACT_UNITS[name] !== undefined) return shownMeasure(value, FACT_UNITS[name]);
  if (FACT_NOUNS[name] !== undefined) return counted(value, FACT_NOUNS[name]);
  return shown(value, 0);
}

export function placesOf(
  facts: Facts,
  measured: number | null,
  unit: string | null,
  bound: number | null,
): Record<string, string> {
  const group = typeof facts.group === "string" ? facts.group : "";
  const places: Record<string, string> = {};
  for (const [name, value] of Object.entries(facts)) {
    if (name !== "group") places[name] = place(name, value, group);
  }
  if (unit !== null) {
    if (measured !== null) places["measured"] = shownMeasure(measured, unit);
    if (bound !== null) places["bound"] = shownMeasure(bound, unit);
  }
  return places;
}

export function whereWords(carton: number | null): string {
  return carton === null
    ? (WORDS["where_unknown"] as string)
    : filled(WORDS["where"] as string, { carton: shown(carton, 0) });
}

export function reasonJson(found: Finding, carton: number | null, isOfCarton: boolean): Reason {
  const places = placesOf(found.facts, found.measured, found.unit, found.bound);
  places["where"] = isOfCarton ? whereWords(carton) : "";
  return {
    code: found.code,
    severity: found.limit.severity,
    carton,
    measured: found.measured,
    unit: found.unit,
    bound: found.bound,
    sense: found.sense,
    limit: found.limit.code,
    basis: found.limit.basis,
    facts: found.facts,
    text: filled((WORDS["reasons"] as Record<string, string>)[found.code]!, places),
  };
}

export interface Why {
  numbers: string;
  limit: string;
  source: string;
  words: string;
}

/** The short "why" of a reason: the sum with its numbers, the limit, the source in words. */
export function explain(reason: Reason): Why {
  const why = WORDS["why"] as Record<string, string>;
  const places = placesOf(reason.facts, reason.measured, reason.unit, reason.bound);
  const formula = FORMULAS[reason.code] ?? (reason.measured === null ? "finding" : "value");
  const kind = formula === "count" ? `count_${reason.unit}` : formula;
  const basis = reason.basis!;
  return {
    numbers: filled(why[kind]!, places),
    limit: limitWords(reason, places),
    source: filled(why["source"]!, { source: basis.source, known: word("known", basis.known) }),
    words: basis.words,
  };
}

function limitWords(reason: Reason, places: Record<string, string>): string {
  const why = WORDS["why"] as Record<string, string>;
  if (reason.bound === null || reason.sense === null) return why["none"]!;
  return filled(why["limit"]!, { bound: filled(word("sense", reason.sense), places) });
}
