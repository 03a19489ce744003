// Mirror of inspections/trade/limits.py.

import defaultLimits from "@trade-data/limits.json";
import { isFine, type Sense as BoundSense } from "./answer";
import { KNOWN, type Basis } from "./basis";
import { trimmed } from "./entries";
import { isRecord, Unusable, type Facts } from "./quantities";
import { CHECKS, OUTCOMES, outcomesOf } from "./registry";
import type { Limit, LimitSet, Severity } from "./types";

export const SEVERITIES: readonly Severity[] = ["critical", "major", "minor", "note"];
const HAZARDS = OUTCOMES.filter((one) => one.leads_to === "hazard").map((one) => one.limit);
const EVIDENCE = ["product_c.between_packs", "thermometer.ice_point", "thermometer.overdue", "thermometer.unknown", "thermometer.doubt"];
const LATER = [
  ...EVIDENCE,
  "dehydrated_weight_share",
  "dehydrated_surface_share",
  "net_unit.t1",
  "net_unit.t2",
  "net_unit.mav",
  "net_unit.no_table",
  "net_mean.eu",
  "net_mean.us",
  "net_mean.unsure",
  "product_c.sign",
  "refreezing.clumped",
  "refreezing.frosted",
  "black_spot_share.soft_broken",
  "whole_share",
  "count_larger",
  "label.trace",
  "life_little",
  "freezer_air_c.wanted",
  "freezer_air_c",
  ...CHECKS.filter((check) => check.since !== undefined)
    .flatMap(outcomesOf)
    .map((one) => one.limit),
];
const RETIRED: readonly unknown[] = ["net_unit_short_percent"];
export const RANGES: Readonly<Record<string, readonly [number, number]>> = {
  C: [-60, 10],
  degrees: [0, 10],
  share: [0, 1],
  score: [0, 10],
  ratio: [1, 10],
  percent: [0, 100],
  times: [0, 10],
  points: [0, 100],
  cartons: [0, 5000],
  pieces: [1, 2000],
  readings: [1, 50],
  days: [-365, 3650],
};

export class UnusableLimits extends Unusable {}

export const DEFAULT_LIMITS = defaultLimits as unknown as LimitSet;
const KNOWN_LIMITS = new Map(DEFAULT_LIMITS.limits.map((limit) => [limit.code, limit]));

export class Limits {
  readonly id: string;
  readonly byCode: ReadonlyMap<string, Limit>;
  constructor(id: string, byCode: ReadonlyMap<string, Limit>) {
    this.id = id;
    this.byCode = byCode;
  }
  get(code: string): Limit {
    return this.byCode.get(code)!;
  }
}

export function isFineFor(limit: Limit, measured: number): boolean {
  return limit.bound === null || isFine(measured, limit.bound, limit.sense as BoundSense);
}

function refuse(code: string, facts: Facts = {}): never {
  throw new UnusableLimits(code, facts);
}

function readBasis(code: string, value: unknown): Basis {
  if (!isRecord(value)) return refuse("LIMITS-07", { limit: code });
  const { source, known, cv, words } = value;
  const isText = [source, known, cv, words].every((part) => typeof part === "string");
  if (!isText || trimmed(source as string) === "" || !(KNOWN as readonly unknown[]).includes(known)) {
    return refuse("LIMITS-07", { limit: code });
  }
  return { source, known, cv, words } as Basis;
}

function readBound(code: string, value: unknown, unit: string, hasBound: boolean): number | null {
  if (!hasBound) {
    if (value !== null && value !== undefined) refuse("LIMITS-03", { limit: code });
    return null;
  }
  const [low, high] = RANGES[unit]!;
  if (typeof value !== "number" || !(low <= value && value <= high)) {
    return refuse("LIMITS-03", { limit: code, low, high, unit });
  }
  return value + 0;
}

function readLimit(entry: unknown): Limit {
  if (!isRecord(entry) || typeof entry.code !== "string") return refuse("LIMITS-01");
  const code = entry.code;
  const known = KNOWN_LIMITS.get(code);
  if (known === undefined) return refuse("LIMITS-02", { limit: code });
  if (entry.unit !== known.unit || entry.sense !== known.sense) {
    return refuse("LIMITS-01", { limit: code, unit: known.unit, sense: known.sense });
  }
  const severity = entry.severity as Severity;
  const isLowered = HAZARDS.includes(code) && severity !== "critical";
  const isRaised = EVIDENCE.includes(code) && severity === "critical";
  if (!SEVERITIES.includes(severity) || isLowered || isRaised) {
    return refuse("LIMITS-04", { limit: code });
  }
  const bound = readBound(code, entry.bound, known.unit, known.bound !== null);
  return { code, bound, unit: known.unit, sense: known.sense, severity, basis: readBasis(code, entry.basis) };
}

function checkOrder(byCode: ReadonlyMap<string, Limit>, warmer: string, colder: string): void {
  const first = byCode.get(colder)!.bound;
  const second = byCode.get(warmer)!.bound;
  if (first !== null && second !== null && first > second) refuse("LIMITS-05", { limit: colder, other: warmer });
}

function checkOrders(byCode: ReadonlyMap<string, Limit>): void {
  checkOrder(byCode, "product_c.reject", "product_c.tolerance");
  checkOrder(byCode, "product_c.tolerance", "product_c.within");
  checkOrder(byCode, "broken_share", "broken_share.note");
  checkOrder(byCode, "vein_share.most", "vein_share");
  checkOrder(byCode, "freezer_air_c", "freezer_air_c.wanted");
  checkOrder(byCode, "net_unit.t2", "net_unit.t1");
}

export function limitsFromJson(data: unknown): Limits {
  if (!isRecord(data) || !Array.isArray(data.limits)) return refuse("LIMITS-01");
  const read = new Map<string, Limit>();
  for (const entry of data.limits) {
    if (isRecord(entry) && RETIRED.includes(entry.code)) continue;
    const limit = readLimit(entry);
    if (read.has(limit.code)) refuse("LIMITS-06", { limit: limit.code });
    read.set(limit.code, limit);
  }
  for (const [code, known] of KNOWN_LIMITS) {
    if (read.has(code)) continue;
    if (!LATER.includes(code)) refuse("LIMITS-06", { limit: code });
    read.set(code, readLimit(known));
  }
  checkOrders(read);
  const inOrder = new Map([...KNOWN_LIMITS.keys()].map((code) => [code, read.get(code)!]));
  return new Limits(typeof data.id === "string" ? data.id : "", inOrder);
}

export function limitsFor(limits: Limits, overrides: unknown): Limits {
  if (overrides === null || overrides === undefined) return limits;
  if (!isRecord(overrides)) return refuse("LIMITS-01");
  const codes = Object.keys(overrides);
  if (codes.length === 0) return limits;
  const byCode = new Map(limits.byCode);
  for (const code of codes) {
    if (RETIRED.includes(code)) continue;
    const known = byCode.get(code);
    if (known === undefined || known.bound === null) return refuse("LIMITS-02", { limit: code });
    byCode.set(code, { ...known, bound: readBound(code, overrides[code], known.unit, true), is_ordered: true });
  }
  checkOrders(byCode);
  return new Limits(limits.id, byCode);
}
