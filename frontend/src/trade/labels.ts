// Mirror of inspections/trade/labels.py.

import table from "@trade-data/particulars.json";
import type { CartonFacts, LabelFacts } from "./carton_facts";
import { finding, Judged } from "./findings";
import { customaryPer, parseGrade } from "./grades";
import { hasSwallowedDate } from "./gs1";
import { isFineFor, type Limits } from "./limits";
import { UnusableGrade } from "./quantities";
import { asciiLower } from "./species";
import { unitNetG, type Ordered } from "./specification";

interface SulphiteRow {
  per_kg_at_most: number | null;
  mg_kg: number;
}
type SulphiteProfile = {
  raw: SulphiteRow[];
  cooked: SulphiteRow[];
  other_raw: number;
  other_cooked: number;
  families: string[];
};
export const PARTICULARS_TABLE = table as unknown as {
  markets: Record<string, { name: string; required: string[]; when_caught: string[]; bases: Record<string, string[]> }>;
  sulphites: Record<string, { over_mg_kg: number; sense: string }>;
  sulphite_limits: Record<string, SulphiteProfile>;
};

const TRACED_BY = ["lot", "date"];
export const LABEL_CHECKS = [
  "particulars",
  "crustacean",
  "sulphites",
  "trace",
  "presentation",
  "state",
  "method",
  "grade",
  "net",
  "lot",
  "origin",
  "life",
];

export function missingParticulars(shows: readonly string[], market: string, method: string | null): string[] {
  const profile = PARTICULARS_TABLE.markets[market];
  if (profile === undefined) return [];
  const isCaught = method === "caught" || method === "caught_freshwater";
  const required = [...profile.required, ...(isCaught ? profile.when_caught : [])];
  return required.filter((particular) => !shows.includes(particular));
}

export function sulphiteLimitMgKg(market: string, family: string, state: string, unitsPerKg: number): number {
  const profile = PARTICULARS_TABLE.sulphite_limits[market]!;
  const isCooked = state === "cooked";
  if (profile.families.length > 0 && !profile.families.includes(family)) {
    return isCooked ? profile.other_cooked : profile.other_raw;
  }
  const rows = isCooked ? profile.cooked : profile.raw;
  return rows.find((row) => row.per_kg_at_most === null || unitsPerKg <= row.per_kg_at_most)!.mg_kg;
}

export function mustDeclareSulphites(market: string, mgKg: number): boolean {
  const rule = PARTICULARS_TABLE.sulphites[market]!;
  return rule.sense === "above" ? mgKg > rule.over_mg_kg : mgKg >= rule.over_mg_kg;
}

function same(left: string, right: string): boolean {
  const squeezed = (text: string) => asciiLower(text.replace(/[ \t\r\n]+/g, ""));
  return squeezed(left) === squeezed(right);
}

function sameGrade(stated: string, ordered: string, presentation: string): boolean | null {
  const per = customaryPer(presentation);
  try {
    return parseGrade(stated, per).text === parseGrade(ordered, per).text;
  } catch (problem) {
    if (!(problem instanceof UnusableGrade)) throw problem;
    return same(stated, ordered) ? true : null;
  }
}

function isLarger(stated: string, ordered: string, presentation: string): boolean {
  const per = customaryPer(presentation);
  const [found, asked] = [parseGrade(stated, per), parseGrade(ordered, per)];
  if (asked.kind === "broken") return true;
  if (found.high === null || asked.low === null || found.per !== asked.per) return false;
  return found.high <= asked.low;
}

function judgeStated(
  judged: Judged,
  name: "presentation" | "state" | "method",
  found: string | null,
  ordered: string | null,
  limits: Limits,
): void {
  if (found === null || ordered === null) {
    judged.leave(name);
    return;
  }
  const facts = { found, ordered, group: name };
  judged.see(name, found !== ordered, "LABEL-" + name.toUpperCase(), limits.get("label." + name), facts);
}

function judgeGrade(judged: Judged, label: LabelFacts, ordered: Ordered, limits: Limits): void {
  const isSame = label.grade === "" ? null : sameGrade(label.grade, ordered.grade, ordered.presentation);
  if (label.grade === "") {
    judged.leave("grade");
  } else if (isSame === null) {
    judged.checks["grade"] = "cannot_tell";
  } else {
    const facts = { found: label.grade, ordered: ordered.grade };
    const isLargerGrade = !isSame && isLarger(label.grade, ordered.grade, ordered.presentation);
    const [code, limit] = isLargerGrade ? ["LABEL-LARGER", "count_larger"] : ["LABEL-GRADE", "label.grade"];
    judged.see("grade", !isSame, code!, limits.get(limit!), facts);
  }
}

function judgeNet(judged: Judged, label: LabelFacts, ordered: Ordered, limits: Limits): void {
  if (label.net_g === null) {
    judged.leave("net");
    return;
  }
  const cartonG = ordered.carton_net_g;
  const isSame = Math.abs(label.net_g - cartonG) <= 1 || Math.abs(label.net_g - unitNetG(ordered)) <= 1;
  const facts = { found_g: label.net_g, ordered_g: cartonG };
  judged.see("net", !isSame && label.net_g < cartonG, "LABEL-NET", limits.get("label.net"), facts);
}

function judgeLot(judged: Judged, label: LabelFacts, docketLot: string, limits: Limits): void {
  if (label.lot === "" || docketLot === "") {
    judged.leave("lot");
  } else {
    const facts = { found: label.lot, ordered: docketLot };
    judged.see("lot", !same(label.lot, docketLot), "LABEL-LOT", limits.get("label.lot"), facts);
  }
  if (label.scan !== "" && hasSwallowedDate(label.lot)) {
    judged.findings.push(finding("LABEL-SCAN", limits.get("label.scan"), { facts: { found: label.lot } }));
  }
}

function judgeOrigin(judged: Judged, label: LabelFacts, ordered: Ordered, limits: Limits): void {
  if (label.origin === "" || ordered.origin.length === 0) {
    judged.leave("origin");
    return;
  }
  const isOne = ordered.origin.some((origin) => same(label.origin, origin));
  const facts = { found: label.origin, ordered: ordered.origin.join(", ") };
  judged.see("origin", !isOne, "LABEL-ORIGIN", limits.get("label.origin"), facts);
}

function judgeShows(judged: Judged, label: LabelFacts, market: string, limits: Limits): void {
  if (label.shows === null) {
    judged.leave("particulars", "crustacean", "sulphites", "trace");
    return;
  }
  const missing = missingParticulars(label.shows, market, label.method);
  const traced = missing.some((particular) => TRACED_BY.includes(particular));
  const ofTrace = missing.filter((particular) => [...TRACED_BY, "producer"].includes(particular));
  judged.see("trace", traced, "LABEL-TRACE", limits.get("label.trace"), { missing: ofTrace });
  const told = ["crustacean", ...(traced ? ofTrace : [])];
  const rest = missing.filter((particular) => !told.includes(particular));
  judged.see("particulars", rest.length > 0, "LABEL-PARTICULARS", limits.get("label.particulars"), { missing: rest });
  judged.see("crustacean", missing.includes("crustacean"), "LABEL-CRUSTACEAN", limits.get("label.crustacean"));
  judged.checks["sulphites"] = "within";
  if (label.shows.includes("sulphites")) {
    judged.findings.push(finding("LABEL-SULPHITES", limits.get("label.sulphites")));
  }
}

function judgeLife(judged: Judged, label: LabelFacts, arrivedDay: number | null, limits: Limits): void {
  const end = label.best_before_day;
  if (end === null || arrivedDay === null) {
    judged.leave("life");
    return;
  }
  const left = end - arrivedDay;
  judged.derived["life_days_left"] = left;
  if (judged.measure("life", left, "DATE-PAST", limits.get("life_days_left"), { days: 0 - left })) return;
  const start = label.production_day ?? label.frozen_day;
  if (start === null) return;
  const total = end - start;
  if (total <= 0 || start > arrivedDay) {
    judged.checks["life"] = "cannot_tell";
    judged.findings.push(finding("LABEL-DATES", limits.get("label.dates")));
    return;
  }
  judged.derived["life_share"] = left / total;
  const facts = { days: left, total_days: total };
  const limit = limits.get("life_share");
  const isLittle = limit.bound ? !isFineFor(limits.get("life_little"), left / total / limit.bound) : false;
  judged.measure("life", left / total, isLittle ? "LIFE-LITTLE" : "LIFE-SHORT", limit, facts);
}

export function judgeLabels(
  carton: CartonFacts,
  ordered: Ordered,
  docketLot: string,
  arrivedDay: number | null,
  limits: Limits,
): Judged {
  const judged = new Judged();
  const label = carton.label;
  if (label === null) {
    judged.leave(...LABEL_CHECKS);
    return judged;
  }
  judgeShows(judged, label, ordered.market, limits);
  judgeStated(judged, "presentation", label.presentation, ordered.presentation, limits);
  judgeStated(judged, "state", label.state, ordered.state, limits);
  judgeStated(judged, "method", label.method, ordered.method, limits);
  judgeGrade(judged, label, ordered, limits);
  judgeNet(judged, label, ordered, limits);
  judgeLot(judged, label, docketLot, limits);
  judgeOrigin(judged, label, ordered, limits);
  judgeLife(judged, label, arrivedDay, limits);
  return judged;
}
