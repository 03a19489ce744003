// Mirror of inspections/trade/weighing.py.

import type { Finding } from "./findings";
import { SEVERITIES } from "./limits";
import { OUTCOMES } from "./registry";

const OF_MODULES: readonly string[] = [
  "TEMP-REJECT",
  "DATE-PAST",
  "SPECIES-LABEL",
  "DEFECTIVE-OVER",
  "TEMP-OUTSIDE",
  "TEMP-BETWEEN",
  "SPECIES-MARKS",
  "LABEL-CRUSTACEAN",
  "LIFE-SHORT",
  "CARTONS-SHORT",
  "NET-MEAN",
  "NET-UNIT",
  "COUNT-BEYOND",
  "NET-UNIT-NOTE",
  "GLAZE-OVER",
  "UNIFORMITY",
  "LABEL-DATES",
  "LABEL-PARTICULARS",
  "TEMP-TOLERANCE",
  "TEMP-NEAR",
  "TEMP-SURFACE",
  "TEMP-PROBE-DOUBT",
  "TEMP-PROBE-FAILED",
  "TEMP-PROBE-OVERDUE",
  "TEMP-PROBE-UNCHECKED",
  "TEMP-PROBE-UNKNOWN",
  "COUNT-UNSURE",
  "COUNT-GLAZED",
  "NET-MEAN-UNSURE",
  "NET-ONE-UNIT",
  "NET-NO-TABLE",
  "NET-UNLIKELY",
  "SPECIES-UNSURE",
  "LABEL-SULPHITES",
  "LABEL-SCAN",
  "LOOKED-AT-FEW",
  "CARTONS-OVER",
];
const coming = (after: string): string[] => OUTCOMES.filter((one) => one.after === after).map((one) => one.code).reverse();
const placed = (codes: readonly string[]): string[] => codes.flatMap((code) => [code, ...placed(coming(code))]);
export const ORDER = [...placed(coming("")), ...placed(OF_MODULES)];
const PLACE = new Map(ORDER.map((code, place) => [code, place]));
const leadingTo = (what: string): string[] => OUTCOMES.filter((one) => one.leads_to === what).map((one) => one.code);

export const HAZARDS: ReadonlySet<string> = new Set(leadingTo("hazard"));
export const SUBSTITUTIONS: ReadonlySet<string> = new Set(["SPECIES-LABEL"]);
export const DOUBTS: ReadonlySet<string> = new Set([
  ...leadingTo("doubt"),
  "TEMP-OUTSIDE",
  "TEMP-BETWEEN",
  "SPECIES-MARKS",
  "TEMP-PROBE-DOUBT",
  "TEMP-PROBE-FAILED",
  "TEMP-PROBE-OVERDUE",
  "TEMP-PROBE-UNCHECKED",
  "TEMP-PROBE-UNKNOWN",
]);
export const SHORT_VALUE: ReadonlySet<string> = new Set([
  ...leadingTo("short_value"),
  "CARTONS-SHORT",
  "NET-MEAN",
  "NET-UNIT",
  "NET-UNIT-NOTE",
  "COUNT-BEYOND",
  "GLAZE-OVER",
]);

export function isSerious(found: Finding): boolean {
  return found.limit.severity === "critical" || found.limit.severity === "major";
}

export function isDefect(found: Finding): boolean {
  const severity = found.limit.severity;
  return severity === "critical" || (severity === "major" && !SHORT_VALUE.has(found.code) && !DOUBTS.has(found.code));
}

export type Weight = readonly [severity: number, code: number, carton: number];

export function weightKey(found: Finding, cartonPlace: number): Weight {
  return [SEVERITIES.indexOf(found.limit.severity), PLACE.get(found.code)!, cartonPlace];
}

export function compareWeight(left: Weight, right: Weight): number {
  return left[0] - right[0] || left[1] - right[1] || left[2] - right[2];
}
