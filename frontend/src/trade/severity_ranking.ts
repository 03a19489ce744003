// Mirror of inspections/trade/severity_ranking.py, where the table is explained in words.

import rows from "@trade-data/findings.json";
import type { Finding } from "./findings";
import { SEVERITIES } from "./limits";
import { OUTCOMES } from "./registry";

interface Row {
  code: string;
  acts_on: string;
  leads_to: string;
}
const OF_MODULES: readonly Row[] = rows;
export const FINDINGS: ReadonlyMap<string, Row> = new Map([...OF_MODULES, ...OUTCOMES].map((row) => [row.code, row]));
const coming = (after: string): string[] => [...new Set(OUTCOMES.filter((one) => one.after === after).map((one) => one.code))].reverse();
const placed = (codes: readonly string[]): string[] => codes.flatMap((code) => [code, ...placed(coming(code))]);
export const ORDER: readonly string[] = [...placed(coming("")), ...placed(OF_MODULES.map((row) => row.code))];
const PLACE = new Map(ORDER.map((code, place) => [code, place]));
export const HOLDS = ["hold", "doubt"];
const FAULTS = ["hazard", "unfit", "sort_refuse", "sort_hold", "hold", "defect"];

export const HAZARDS: ReadonlySet<string> = new Set(
  [...FINDINGS.values()].filter((row) => row.leads_to === "hazard").map((row) => row.code),
);

export function isSerious(found: Finding): boolean {
  return found.limit.severity === "critical" || found.limit.severity === "major";
}

export function effect(found: Finding): string {
  const { leads_to: leadsTo } = FINDINGS.get(found.code)!;
  if (["hazard", "ask", "note"].includes(leadsTo) || isSerious(found)) return leadsTo;
  return ["quality", "value"].includes(leadsTo) && found.limit.severity === "minor" ? leadsTo : "note";
}

export function isFault(found: Finding): boolean {
  return FAULTS.includes(effect(found));
}

export type Weight = readonly [severity: number, code: number, carton: number];

export function weightKey(found: Finding, cartonPlace: number): Weight {
  return [SEVERITIES.indexOf(found.limit.severity), PLACE.get(found.code)!, cartonPlace];
}

export function compareWeight(left: Weight, right: Weight): number {
  return left[0] - right[0] || left[1] - right[1] || left[2] - right[2];
}
