// Mirror of inspections/trade/labels.py.

import table from "@trade-data/particulars.json";
import type { CartonFacts, LabelFacts } from "./carton_facts";
import { textSeen } from "./checks";
import { finding, Judged } from "./findings";
import { customaryPer, parseGrade } from "./grades";
import { hasSwallowedDate } from "./gs1";
import { isFineFor, type Limits } from "./limits";
import { UnusableGrade } from "./quantities";
import { checksOn, type Check } from "./registry";
import { asciiLower } from "./species";
import { unitNetG, type Ordered } from "./specification";

export const PARTICULARS_TABLE = table as unknown as {
  markets: Record<string, { name: string; required: string[]; when_caught: string[]; bases: Record<string, string[]> }>;
};

const TRACED_BY = ["lot", "date"];
export const LABEL_CHECKS = ["particulars", "crustacean", "sulphites", "trace", ...checksOn("label").map((check) => check.name), "life"];

export function missingParticulars(shows: readonly string[], market: string, method: string | null): string[] {
  const profile = PARTICULARS_TABLE.markets[market];
  if (profile === undefined) return [];
  const isCaught = method === "caught" || method === "caught_freshwater";
  const required = [...profile.required, ...(isCaught ? profile.when_caught : [])];
  return required.filter((particular) => !shows.includes(particular));
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

function isNet(statedG: number, ordered: Ordered): boolean {
  return statedG >= ordered.carton_net_g - 1 || Math.abs(statedG - unitNetG(ordered)) <= 1;
}

type Compare = (found: string, wanted: string, ordered: Ordered) => boolean | null;
const COMPARISONS: Record<NonNullable<Check["comparison"]>, Compare> = {
  is: (found, wanted) => found === wanted,
  alike: same,
  one_of: (found, wanted) => (wanted as unknown as string[]).some((one) => same(found, one)),
  grade: (found, wanted, ordered) => sameGrade(found, wanted, ordered.presentation),
  near: (found, _, ordered) => isNet(found as unknown as number, ordered),
};

function judgeStated(judged: Judged, check: Check, label: LabelFacts, ordered: Ordered, docketLot: string, limits: Limits): void {
  const found = textSeen(label.seen, check.name);
  const wanted = check.ordered === "docket_lot" ? docketLot || null : ordered[check.ordered as keyof Ordered];
  if (found === null || wanted === null || (Array.isArray(wanted) && wanted.length === 0)) {
    judged.leave(check.name);
    return;
  }
  const isSame = COMPARISONS[check.comparison!](found, wanted as string, ordered);
  if (isSame === null) {
    judged.checks[check.name] = "cannot_tell";
    return;
  }
  const inG = check.type === "reading" ? "_g" : "";
  const told = Array.isArray(wanted) ? wanted.join(", ") : wanted;
  const group = check.type === "choice" ? { group: check.name } : {};
  const facts = { [`found${inG}`]: found, [`ordered${inG}`]: told, ...group };
  const isMore = check.comparison === "grade" && !isSame && isLarger(found, wanted as string, ordered.presentation);
  const { code, limit } = isMore ? { code: "LABEL-LARGER", limit: "count_larger" } : check.outcomes[0]!;
  judged.see(check.name, !isSame, code, limits.get(limit), facts);
}

function judgeShows(judged: Judged, label: LabelFacts, market: string, limits: Limits): void {
  if (label.shows === null) {
    judged.leave("particulars", "crustacean", "sulphites", "trace");
    return;
  }
  const missing = missingParticulars(label.shows, market, textSeen(label.seen, "method"));
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

export function judgeLabels(carton: CartonFacts, ordered: Ordered, docketLot: string, arrivedDay: number | null, limits: Limits): Judged {
  const judged = new Judged();
  const label = carton.label;
  if (label === null) {
    judged.leave(...LABEL_CHECKS);
    return judged;
  }
  judgeShows(judged, label, ordered.market, limits);
  for (const check of checksOn("label")) judgeStated(judged, check, label, ordered, docketLot, limits);
  const lot = textSeen(label.seen, "lot");
  if (label.scan !== "" && lot !== null && hasSwallowedDate(lot)) {
    judged.findings.push(finding("LABEL-SCAN", limits.get("label.scan"), { facts: { found: lot } }));
  }
  judgeLife(judged, label, arrivedDay, limits);
  return judged;
}
