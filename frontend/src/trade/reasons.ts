// Mirror of inspections/trade/reasons.py.

import type { Finding } from "./findings";
import { effect, FINDINGS } from "./severity_ranking";
import type { Facts } from "./quantities";
import { SUM_OF_CODE } from "./registry";
import type { Reason } from "./types";
import { counted, filled, listed, shown, shownMeasure, word, WORDS } from "./wording";

const FACT_UNITS: Readonly<Record<string, string>> = {
  low: "share",
  high: "share",
  declared_g: "g",
  net_g: "g",
  mean_g: "g",
  deviation_g: "g",
  allowance_g: "g",
  tolerable_g: "g",
  found_g: "g",
  ordered_g: "g",
  weight_g: "g",
  glazed_g: "g",
  deglazed_g: "g",
  dried_g: "g",
  of_g: "g",
  glaze_percent: "percent",
  declared_percent: "percent",
  price_percent: "percent",
  accuracy_c: "C",
  allowance_c: "C",
  ice_c: "C",
  corrected_c: "C",
  meant_c: "C",
  factor: "ratio",
  spread: "ratio",
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
const SUMS: Readonly<Record<string, string>> = {
  "TEMP-REJECT": "temperature",
  "TEMP-OUTSIDE": "temperature",
  "TEMP-TOLERANCE": "temperature",
  "TEMP-BETWEEN": "between",
  "TEMP-NEAR": "near",
  "TEMP-SURFACE": "value",
  "TEMP-SIGN": "value",
  "PIECES-UNSURE": "share",
  "SPECIES-MARKS": "seen",
  "SPECIES-UNSURE": "seen",
  "TEMP-PROBE-OVERDUE": "due",
  "TEMP-PROBE-FAILED": "ice",
  "TEMP-PROBE-UNCHECKED": "unchecked",
  "TEMP-PROBE-UNKNOWN": "unknown",
  "TEMP-PROBE-DOUBT": "doubt",
  "COUNT-BEYOND": "count",
  "COUNT-UNSURE": "count",
  "COUNT-LARGER": "count",
  "COUNT-GLAZED": "glazed",
  UNIFORMITY: "uniformity",
  "NET-UNIT": "net",
  "NET-UNIT-NOTE": "net",
  "NET-NO-TABLE": "no_table",
  "NET-ONE-UNIT": "one_unit",
  "NET-MEAN": "mean",
  "NET-MEAN-UNSURE": "mean",
  "NET-UNLIKELY": "unlikely",
  "GLAZE-OVER": "glaze",
  "LIFE-SHORT": "life",
  "LIFE-LITTLE": "life",
  "DATE-PAST": "past",
  "DEFECTIVE-OVER": "tally",
  "CARTONS-SHORT": "cartons",
  "CARTONS-OVER": "cartons",
  "LOOKED-AT-FEW": "few",
};
const group = (name: string): Record<string, string> => WORDS[name] as Record<string, string>;

function textPlace(name: string, value: string, words: string): string {
  if (name === "what") return word("what", value);
  if (name === "thermometer" && value === "") return WORDS["unnamed_thermometer"] as string;
  if (name === "of") return word(words, value);
  return words && (name === "found" || name === "ordered") ? word(words, value) : value;
}

function weighMore(pieces: unknown): string {
  if (typeof pieces !== "number") return WORDS["weigh_unit"] as string;
  return filled(WORDS["weigh_pieces"] as string, { pieces: counted(pieces, "prawn") });
}

function place(name: string, value: unknown, words: string): string {
  if (typeof value === "string") return textPlace(name, value, words);
  if (name === "typed") return typedShown(value as string[]);
  if (Array.isArray(value)) return listed(value.map((entry) => word(FACT_GROUPS[name] ?? "", String(entry))));
  if (name === "weigh_more") return weighMore(value);
  if (typeof value !== "number") return "";
  if (FACT_UNITS[name] !== undefined) return shownMeasure(value, FACT_UNITS[name]);
  if (FACT_NOUNS[name] !== undefined) return counted(value, FACT_NOUNS[name]);
  return shown(value, 0);
}

const isCount = (unit: string | null): unit is string => unit === "per_lb" || unit === "per_kg";

export function placesOf(facts: Facts, measured: number | null, unit: string | null, bound: number | null): Record<string, string> {
  const words = typeof facts.group === "string" ? facts.group : "";
  const places: Record<string, string> = {};
  for (const [name, value] of Object.entries(facts)) {
    if (name !== "group") places[name] = place(name, value, words);
  }
  places["allowed"] = facts["allowance_c"] ? filled(WORDS["allowed"] as string, places) : "";
  if (isCount(unit)) {
    for (const name of ["low", "high"]) {
      if (name in facts) places[`${name}_count`] = shownMeasure(facts[name] as number, unit);
    }
  }
  if (unit !== null) {
    if (measured !== null) places["measured"] = shownMeasure(measured, unit);
    if (bound !== null) places["bound"] = shownMeasure(bound, unit);
  }
  return places;
}

export function typedShown([entered, unit]: readonly string[]): string {
  return entered ? `${entered} ${word("typed_units", unit!)}` : "";
}

export function whoseLimit({ limit }: Finding): "ordered" | "published" | "house" {
  if (limit.is_ordered) return "ordered";
  return limit.basis.known === "common_practice" ? "house" : "published";
}

export function whereWords(carton: number | null): string {
  return carton === null ? (WORDS["where_unknown"] as string) : filled(WORDS["where"] as string, { carton: shown(carton, 0) });
}

type Untold = Omit<Reason, "text">;

export function reasonJson(found: Finding, carton: number | null, isOfCarton: boolean): Reason {
  const reason = {
    code: found.code,
    severity: found.limit.severity,
    carton,
    measured: found.measured,
    unit: found.unit,
    bound: found.bound,
    sense: found.sense,
    limit: found.limit.code,
    whose: whoseLimit(found),
    acts_on: FINDINGS.get(found.code)!.acts_on,
    leads_to: effect(found),
    basis: found.limit.basis,
    facts: found.facts,
  };
  const texts = [sentenceOf(reason, isOfCarton), intervalWords(reason)];
  return { ...reason, text: texts.filter((text) => text !== "").join(" ") };
}

/** The one sentence of a reason, as it is written on the docket: without the interval behind a share. */
export function sentenceOf(reason: Untold, isOfCarton: boolean): string {
  const places = placesOf(reason.facts, reason.measured, reason.unit, reason.bound);
  places["whose"] = word("whose", reason.whose ?? "unsaid");
  places["where"] = isOfCarton ? whereWords(reason.carton) : "";
  return filled(group("reasons")[reason.code]!, places);
}

/** What so few prawns leave possible for the carton (Wilson, 95 %), or "" where nothing was counted. */
export function intervalWords({ facts }: Untold): string {
  if (!("looked_at" in facts) || !("low" in facts)) return "";
  return filled(WORDS["interval"] as string, placesOf(facts, null, null, null));
}

/** The kind of sum that explains a reason: a key of "why" and "formula" in the file of sentences. */
export function sumOf({ code, unit, facts }: Untold): string {
  const kind = SUM_OF_CODE.get(code) ?? SUMS[code] ?? "label";
  if (kind === "count") return unit === null ? "glazed" : `count_${unit}`;
  return kind === "mean" && !("factor" in facts) ? "mean_codex" : kind;
}

export interface WhyValue {
  name: string;
  words: string;
  /** Unrounded, in `unit`. */
  value: number;
  unit: string;
  shown: string;
}
export interface Why {
  /** The sum with its numbers in. */
  numbers: string;
  /** The sum in words. */
  formula: string;
  values: WhyValue[];
  limit: string;
  source: string;
  words: string;
}

/** The "why" of a reason: everything that a sceptic needs to do the sum again by hand. */
export function explain(reason: Reason): Why {
  const why = group("why");
  const places = placesOf(reason.facts, reason.measured, reason.unit, reason.bound);
  const kind = sumOf(reason);
  const basis = reason.basis!;
  return {
    numbers: wholeSentences(filled(why[kind]!, places)),
    formula: group("formula")[kind]!,
    values: valuesOf(reason, places),
    limit: limitWords(reason, places),
    source: filled(why["source"]!, { source: sourceWords(basis) }),
    words: basis.words,
  };
}

export function sourceWords(basis: { source: string; known: string }): string {
  const isSaid = basis.known === "common_practice" && basis.source.includes("common practice");
  return isSaid ? basis.source : `${basis.source} (${word("known", basis.known)})`;
}

/** The sentences without a place left open: a record of an earlier edition lacks some facts. */
export function wholeSentences(text: string): string {
  const kept = text
    .replace(/\.$/, "")
    .split(". ")
    .filter((sentence) => !sentence.includes("{"));
  return kept.length ? `${kept.join(". ")}.` : "";
}

function valuesOf(reason: Reason, places: Record<string, string>): WhyValue[] {
  const { unit } = reason;
  const isRange = (name: string): boolean => isCount(unit) && (name === "low" || name === "high");
  const numbers: [name: string, value: unknown, unit: string | null][] = [
    ["measured", reason.measured, unit],
    ["bound", reason.bound, unit],
    ...Object.entries(reason.facts).map(([name, value]): [string, unknown, string | null] => [
      name,
      value,
      isRange(name) ? unit : (FACT_UNITS[name] ?? FACT_NOUNS[name] ?? "number"),
    ]),
  ];
  return numbers.flatMap(([name, value, own]) =>
    own === null || typeof value !== "number"
      ? []
      : [{ name, words: word("values", name), value, unit: own, shown: places[isRange(name) ? `${name}_count` : name]! }],
  );
}

function limitWords(reason: Reason, places: Record<string, string>): string {
  const why = group("why");
  if (reason.bound === null || reason.sense === null) return why[reason.severity === "note" ? "noted" : "none"]!;
  return filled(why["limit"]!, { bound: filled(word("sense", reason.sense), places) });
}
