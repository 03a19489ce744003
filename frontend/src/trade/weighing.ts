// Mirror of inspections/trade/weighing.py.

import type { Finding } from "./findings";
import { SEVERITIES } from "./limits";

export const ORDER: readonly string[] = [
  "FOREIGN-HAZARD",
  "ODOUR-CHEMICAL",
  "TEMP-REJECT",
  "REFREEZING",
  "ODOUR-OFF",
  "DATE-PAST",
  "SPECIES-LABEL",
  "DEFECTIVE-OVER",
  "TEMP-OUTSIDE",
  "TEMP-BETWEEN",
  "SPECIES-MARKS",
  "LABEL-CRUSTACEAN",
  "FOREIGN-HARMLESS",
  "LINER-MISSING",
  "LINER-TORN",
  "BLACK-MEAT",
  "BLACK-CODEX",
  "BLACK-HOUSE",
  "BLACK-SCORE",
  "DEHYDRATED-WEIGHT",
  "DEHYDRATED-SURFACE",
  "DEHYDRATED",
  "SOFT",
  "BROKEN",
  "LABEL-STATE",
  "LABEL-PRESENTATION",
  "LABEL-METHOD",
  "LABEL-ORIGIN",
  "LABEL-GRADE",
  "LIFE-SHORT",
  "CARTONS-SHORT",
  "NET-MEAN",
  "NET-UNIT",
  "COUNT-BEYOND",
  "NET-UNIT-NOTE",
  "GLAZE-OVER",
  "UNIFORMITY",
  "BROKEN-NOTE",
  "HEADS",
  "LEGS",
  "TAILS",
  "ODOUR-SLIGHT",
  "LINER-OPEN",
  "FROST-HEAVY",
  "LABEL-NET",
  "LABEL-LOT",
  "LABEL-DATES",
  "LABEL-PARTICULARS",
  "AIR-WARM",
  "LOAD-WET",
  "LOAD-DIRTY",
  "LOAD-SHIFTED",
  "LOAD-MIXED",
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
const PLACE = new Map(ORDER.map((code, place) => [code, place]));
export const HAZARDS: ReadonlySet<string> = new Set(["FOREIGN-HAZARD", "ODOUR-CHEMICAL"]);
export const SUBSTITUTIONS: ReadonlySet<string> = new Set(["SPECIES-LABEL"]);
export const DOUBTS: ReadonlySet<string> = new Set([
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
