// Mirror of inspections/records/scans.py for reading a label without a signal. The identifiers' own patterns, as
// the server's library carries them (7006 to 7010 among them), are walked here, so that both read the same
// identifiers; fixtures/vectors/scans.json holds both to the same answers.

import countries from "@trade-data/countries.json";
import { gs1CheckDigit, gs1Date, hasSwallowedDate, UnusableDate } from "../trade/gs1";
import { Unusable } from "../trade/quantities";
import { speciesCode } from "../trade/species";
import type { Label, Reading } from "../trade/types";
import identifiers from "./gs1_identifiers.json";

const PATTERNS = new Map(Object.entries(identifiers.patterns));
const FIXED = new Map(Object.entries(identifiers.fixed));
const COUNTRIES = new Map(Object.entries(countries.alpha_2));
const GS = "\x1d";
const CHECKED: Readonly<Record<string, number>> = { "00": 18, "01": 14, "02": 14, "410": 13, "412": 13, "414": 13 };
const METHODS: Readonly<Record<string, string>> = { "01": "caught", "02": "caught_freshwater", "03": "farmed" };
const PRODUCT_KEYS = ["00", "01", "02", "03", "8006", "8026"];
const LINK_KEYS = ["00", "01", "253", "255", "401", "402", "414", "417", "8003", "8004", "8006", "8010", "8013", "8017", "8018"];

export class UnusableScan extends Unusable {}

export interface Particulars {
  gtin: string;
  content_gtin: string;
  sscc: string;
  lot: string;
  serial: string;
  gear: string;
  order_number: string;
  production_date: string;
  pack_date: string;
  best_before: string;
  use_by: string;
  frozen_on: string;
  harvest_from: string;
  harvest_to: string;
  net: Reading | null;
  gross: Reading | null;
  count: number | null;
  origin: string;
  processed_in: string[];
  species_code: string;
  method: string;
  approval: string;
  fields: Record<string, string>;
  warnings: string[];
}
type TextField = "gtin" | "content_gtin" | "sscc" | "lot" | "serial" | "gear" | "order_number";
type DateField = "production_date" | "pack_date" | "best_before" | "use_by" | "frozen_on";
const TEXTS = new Map<string, TextField>([
  ["01", "gtin"],
  ["02", "content_gtin"],
  ["00", "sscc"],
  ["10", "lot"],
  ["21", "serial"],
  ["7009", "gear"],
  ["400", "order_number"],
]);
const DATES = new Map<string, DateField>([
  ["11", "production_date"],
  ["13", "pack_date"],
  ["15", "best_before"],
  ["17", "use_by"],
  ["7006", "frozen_on"],
]);
type Pair = readonly [ai: string, value: string];

function identifierAt(text: string): string {
  for (const length of [2, 3, 4]) {
    const ai = text.slice(0, length);
    if (ai.length === length && PATTERNS.has(ai)) return ai;
  }
  throw new UnusableScan("SCAN-01");
}

function checkedPair(ai: string, value: string): Pair {
  if (!new RegExp(`^${PATTERNS.get(ai)!}$`).test(value)) throw new UnusableScan("SCAN-01");
  return [ai, value];
}

function elementStrings(text: string): Pair[] {
  const pairs: Pair[] = [];
  let rest = text.replace(/^\x1d+/, "");
  while (rest !== "") {
    const ai = identifierAt(rest);
    const body = rest.slice(ai.length);
    const end = body.indexOf(GS);
    const length = FIXED.get(ai.slice(0, 2)) ?? (end < 0 ? body.length : end);
    pairs.push(checkedPair(ai, body.slice(0, length)));
    rest = body.slice(length).replace(/^\x1d/, "");
  }
  return pairs;
}

function linkPairs(link: string): Pair[] {
  const [path, query = ""] = link.replace(/#.*$/, "").split("?", 2) as [string, string?];
  const parts = path.split("/").slice(3);
  let start = parts.length - 2;
  while (start >= 0 && !LINK_KEYS.includes(parts[start]!)) start -= 2;
  if (start < 0) throw new UnusableScan("SCAN-01");
  const pairs: Pair[] = [];
  for (let i = start; i < parts.length; i += 2) {
    const value = decodeURIComponent(parts[i + 1]!);
    pairs.push(checkedPair(parts[i]!, parts[i] === "01" ? value.padStart(14, "0") : value));
  }
  for (const [ai, value] of new URLSearchParams(query)) {
    if (PATTERNS.has(ai)) pairs.push(checkedPair(ai, value));
  }
  return pairs;
}

function fromBrackets(text: string): string {
  const parts = [...text.matchAll(/\(([0-9]{2,4})\)([^(]+)/g)];
  if (parts.map((part) => part[0]).join("") !== text) throw new UnusableScan("SCAN-01");
  return parts.map((part) => part[1]! + part[2]!).join(GS);
}

function pairsOf(text: string): Pair[] {
  const rest = text.replace(/^\](?:C1|d[12]|Q[13]|e0|E0)/, "");
  if (/^(?:[0-9]{8}|[0-9]{12,14})$/.test(rest)) return [["01", rest.padStart(14, "0")]];
  try {
    if (/^https?:\/\/[^ ]+/i.test(rest)) return linkPairs(rest);
  } catch (problem) {
    if (problem instanceof URIError) throw new UnusableScan("SCAN-01");
    throw problem;
  }
  return elementStrings(rest.startsWith("(") ? fromBrackets(rest) : rest);
}

function check(pairs: readonly Pair[]): void {
  if (pairs.length === 0 || pairs.some(([, value]) => value === "")) throw new UnusableScan("SCAN-01");
  for (const [ai, value] of pairs) {
    const length = CHECKED[ai];
    if (length === undefined) continue;
    const isWhole = value.length === length && /^[0-9]+$/.test(value);
    if (!isWhole || gs1CheckDigit(value.slice(0, -1)) !== Number(value.slice(-1))) {
      throw new UnusableScan("SCAN-02", { ai });
    }
  }
  const names = new Set(pairs.map(([ai]) => ai));
  for (const [first, second] of [
    ["01", "02"],
    ["01", "37"],
    ["01", "255"],
    ["02", "03"],
    ["422", "426"],
  ] as const) {
    if (names.has(first) && names.has(second)) throw new UnusableScan("SCAN-03", { ai: first, other: second });
  }
  const weights = [...names].filter((ai) => ai.startsWith("310")).sort();
  // Only one net weight to an item (CV-8-45).
  if (weights.length > 1) throw new UnusableScan("SCAN-03", { ai: weights[0], other: weights[1] });
}

function mass(ai: string, value: string): Reading {
  const decimals = Number(ai[3]);
  const digits = value.replace(/^0+/, "").padStart(decimals + 1, "0");
  const entered = decimals > 0 ? `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}` : digits;
  return { entered, unit: ai[1] === "1" || ai[1] === "3" ? "kg" : "lb" };
}

function blank(): Particulars {
  const texts = { gtin: "", content_gtin: "", sscc: "", lot: "", serial: "", gear: "", order_number: "" };
  const dates = { production_date: "", pack_date: "", best_before: "", use_by: "", frozen_on: "" };
  const goods = { net: null, gross: null, count: null, origin: "", processed_in: [], species_code: "" };
  return {
    ...texts,
    ...dates,
    ...goods,
    harvest_from: "",
    harvest_to: "",
    method: "",
    approval: "",
    fields: {},
    warnings: [],
  };
}

function day(ai: string, digits: string, currentYear: number): string {
  try {
    return gs1Date(ai, digits, currentYear);
  } catch (problem) {
    if (problem instanceof UnusableDate) throw new UnusableScan("SCAN-01", { ai });
    throw problem;
  }
}

const country = (digits: string): string => COUNTRIES.get(digits) ?? digits;

function fill(found: Particulars, ai: string, value: string, currentYear: number): void {
  const text = TEXTS.get(ai);
  const date = DATES.get(ai);
  if (text !== undefined) {
    found[text] = value;
  } else if (date !== undefined) {
    found[date] = day(ai, value, currentYear);
  } else if (ai === "7007") {
    found.harvest_from = day(ai, value.slice(0, 6), currentYear);
    found.harvest_to = day(ai, value.slice(6) || value.slice(0, 6), currentYear);
  } else if (ai === "7003") {
    day(ai, value.slice(0, 6), currentYear); // kept in fields; day 00 is no day here (CV-8-53)
  } else if (ai === "30" || ai === "37") {
    found.count = Number(value);
  } else if (ai === "422") {
    found.origin = country(value);
  } else if (ai === "423") {
    found.processed_in = value.match(/[0-9]{3}/g)!.map(country);
  } else if (ai === "7008") {
    found.species_code = speciesCode(value);
  } else if (ai === "7010") {
    found.method = METHODS[value] ?? "";
  } else if (ai.startsWith("703")) {
    found.approval = value.slice(3);
  } else if (/^3[1-4]0[0-5]$/.test(ai)) {
    found[ai[1] === "1" || ai[1] === "2" ? "net" : "gross"] = mass(ai, value);
  }
}

/** What a scanned text says about the goods; see the server's module for the fields. */
export function particularsFromScan(text: string, currentYear: number): Particulars {
  const pairs = pairsOf(text);
  check(pairs);
  const found = blank();
  for (const [ai, value] of pairs) {
    found.fields[ai] = value;
    fill(found, ai, value, currentYear);
  }
  const names = pairs.map(([ai]) => ai);
  if (found.lot !== "" && !PRODUCT_KEYS.some((key) => names.includes(key))) found.warnings.push("no_product_key");
  if (hasSwallowedDate(found.lot)) found.warnings.push("lost_separator");
  if (/^https?:\/\/[^ ]+/i.test(text) && /\/01\/[0-9]{8,13}(?:[/?#]|$)/.test(text)) found.warnings.push("short_key");
  return found;
}

/** The label fields of an inspection document that a scan can fill. */
export function labelFromScan(text: string, currentYear: number): Label {
  const found = particularsFromScan(text, currentYear);
  const produced = found.production_date || found.pack_date;
  return {
    source: "scan",
    scan: text,
    species_code: found.species_code,
    net: found.net,
    lot: found.lot,
    // An unknown day is not invented: the field stays empty.
    production_date: produced.length === 10 ? produced : "",
    frozen_on: found.frozen_on,
    best_before: found.best_before || found.use_by,
    origin: found.origin,
    method: found.method as NonNullable<Label["method"]>,
  };
}
