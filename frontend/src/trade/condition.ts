// Mirror of inspections/trade/condition.py.

import type { CartonFacts } from "./carton_facts";
import { againstItsLimit, finding, Judged, type Finding } from "./findings";
import { wilson } from "./intervals";
import { isFineFor, SEVERITIES, type Limits } from "./limits";
import { MAX_PIECES, UnusableReading, type Facts } from "./quantities";
import { orderedSoftAndBroken, type Ordered } from "./specification";
import type { Limit, PieceKind } from "./types";

type Row = readonly [name: string, kind: PieceKind, limit: string, code: string];
export const SHARES: readonly Row[] = [
  ["black_spot", "black_spot", "black_spot_share", "BLACK-HOUSE"],
  ["black_spot_meat", "black_spot_meat", "black_spot_meat_share", "BLACK-MEAT"],
  ["dehydrated", "dehydrated", "dehydrated_share", "DEHYDRATED"],
  ["soft", "soft", "soft_share", "SOFT"],
  ["heads", "heads", "heads_share", "HEADS"],
  ["legs", "legs", "legs_share", "LEGS"],
  ["tails", "tails", "tails_share", "TAILS"],
];

const ENDS = ["heads", "legs", "tails"];
const OF_THE_GRADE = ["soft", "broken", ...ENDS];
const STRONG_SIGNS = ["ice_pool", "deformed"];
const SAME_SPOTS = ["BLACK-CODEX", "BLACK-HOUSE", "BLACK-SCORE"];

function sharesFor(ordered: Ordered): readonly Row[] {
  if (orderedSoftAndBroken(ordered)) {
    const rows = SHARES.filter(([name]) => !OF_THE_GRADE.includes(name));
    return [["black_spot", "black_spot", "black_spot_share.soft_broken", "BLACK-HOUSE"], ...rows.slice(1)];
  }
  if (ordered.presentation !== "HOSO") return SHARES;
  return SHARES.map(([name, kind, limit, code]) =>
    ENDS.includes(name) ? [name, kind, "whole_share", `${code}-WHOLE`] : [name, kind, limit, code],
  );
}

/** A share against its limit; true when past it. Too few prawns to tell are asked for, not judged. */
function tellShare(
  judged: Judged,
  name: string,
  share: number,
  code: string,
  limit: Limit,
  facts: Facts,
  few: Limit,
): boolean {
  const isUnsure =
    !isFineFor(limit, share) &&
    !isFineFor(few, facts.looked_at as number) &&
    isFineFor(limit, facts.low as number);
  if (!isUnsure) return judged.measure(name, share, code, limit, facts);
  judged.checks[name] = "cannot_tell";
  const asked = { ...facts, of: code, least: few.bound ?? 0, group: "pieces_of" };
  const { bound, sense, unit } = limit;
  judged.findings.push(finding("PIECES-UNSURE", few, { measured: share, unit, bound, sense, facts: asked }));
  return true;
}

function shareFacts(affected: number, lookedAt: number): Facts {
  const [low, high] = wilson(affected, lookedAt);
  return { affected, looked_at: lookedAt, low, high };
}

function judgeShare(judged: Judged, carton: CartonFacts, limits: Limits, row: Row): void {
  const [name, kind, limitCode, code] = row;
  const affected = carton.pieces[kind];
  if (affected === undefined || carton.looked_at === null) {
    judged.leave(name);
    return;
  }
  const share = affected / carton.looked_at;
  const facts = shareFacts(affected, carton.looked_at);
  const few = limits.get("looked_at");
  const isPast = tellShare(judged, name, share, code, limits.get(limitCode), facts, few);
  if (!isPast && limitCode === "whole_share") {
    tellShare(judged, name, share, name.toUpperCase(), limits.get(`${name}_share`), facts, few);
  }
}

function judgeWideBlackSpot(judged: Judged, carton: CartonFacts, limits: Limits): void {
  const limit = limits.get("black_spot_wide_share");
  const lookedAt = carton.looked_at;
  const { black_spot_wide: wide, black_spot: anySpot } = carton.pieces;
  if (lookedAt === null || (wide === undefined && anySpot === undefined)) {
    judged.leave("black_spot_wide");
  } else if (wide !== undefined) {
    const facts = shareFacts(wide, lookedAt);
    tellShare(judged, "black_spot_wide", wide / lookedAt, "BLACK-CODEX", limit, facts, limits.get("looked_at"));
  } else if (anySpot !== undefined && isFineFor(limit, anySpot / lookedAt)) {
    judged.checks["black_spot_wide"] = "within";
  } else {
    judged.checks["black_spot_wide"] = "cannot_tell";
  }
}

/** Deep drying by weight or by surface of a block; false where neither is given, then pieces count. */
function judgeDrying(judged: Judged, carton: CartonFacts, limits: Limits): boolean {
  const drying = carton.drying;
  if (drying !== null && drying.dried_g !== null && drying.of_g !== null) {
    const facts = { counted_by: "weight", dried_g: drying.dried_g, of_g: drying.of_g };
    const limit = limits.get("dehydrated_weight_share");
    judged.measure("dehydrated", drying.dried_g / drying.of_g, "DEHYDRATED-WEIGHT", limit, facts);
    return true;
  }
  if (drying === null || drying.block_share === null) return false;
  const limit = limits.get("dehydrated_surface_share");
  judged.measure("dehydrated", drying.block_share, "DEHYDRATED-SURFACE", limit, { counted_by: "surface" });
  return true;
}

function judgeBroken(judged: Judged, carton: CartonFacts, limits: Limits): void {
  const broken = carton.pieces.broken;
  const lookedAt = carton.looked_at;
  if (broken === undefined || lookedAt === null) {
    judged.leave("broken");
    return;
  }
  const facts = shareFacts(broken, lookedAt);
  const few = limits.get("looked_at");
  if (!tellShare(judged, "broken", broken / lookedAt, "BROKEN", limits.get("broken_share"), facts, few)) {
    tellShare(judged, "broken", broken / lookedAt, "BROKEN-NOTE", limits.get("broken_share.note"), facts, few);
  }
}

function judgeWrapping(judged: Judged, carton: CartonFacts, ordered: Ordered, limits: Limits): void {
  const isLined = ordered.pack === "lined_carton";
  if (carton.liner === "closed" || (!isLined && (carton.liner === null || carton.liner === "missing"))) {
    judged.checks["liner"] = "within";
  } else if (carton.liner === null) judged.leave("liner");
  else judged.see("liner", true, "LINER-" + carton.liner.toUpperCase(), limits.get("liner." + carton.liner));
  if (carton.frost === null) judged.leave("frost");
  else judged.see("frost", carton.frost === "heavy", "FROST-HEAVY", limits.get("frost.heavy"));
  if (carton.refreezing === null) {
    judged.leave("refreezing");
  } else {
    const signs = [...carton.refreezing];
    if (signs.some((sign) => STRONG_SIGNS.includes(sign))) {
      judged.see("refreezing", true, "REFREEZING", limits.get("refreezing"), { signs });
    } else if (carton.frost === "heavy") {
      judged.see("refreezing", signs.length > 0, "THAW-SIGNS", limits.get("refreezing.frosted"));
    } else {
      judged.see("refreezing", signs.length > 0, "CLUMPED", limits.get("refreezing.clumped"));
    }
  }
}

function judgeSmellAndForeign(judged: Judged, carton: CartonFacts, limits: Limits): void {
  if (carton.odour === null) judged.leave("odour");
  else if (carton.odour === "sound") judged.checks["odour"] = "within";
  else judged.see("odour", true, "ODOUR-" + carton.odour.toUpperCase(), limits.get("odour." + carton.odour));
  const found = carton.foreign_matter;
  if (found === null) judged.leave("foreign_matter");
  else if (found === "none") judged.checks["foreign_matter"] = "within";
  else judged.see("foreign_matter", true, "FOREIGN-" + found.toUpperCase(), limits.get("foreign." + found));
}

export function judgeCondition(carton: CartonFacts, ordered: Ordered, limits: Limits): Judged {
  const judged = new Judged();
  judgeWrapping(judged, carton, ordered, limits);
  judgeSmellAndForeign(judged, carton, limits);
  for (const row of sharesFor(ordered)) {
    if (row[0] !== "dehydrated" || !judgeDrying(judged, carton, limits)) judgeShare(judged, carton, limits, row);
  }
  judgeWideBlackSpot(judged, carton, limits);
  if (!orderedSoftAndBroken(ordered)) judgeBroken(judged, carton, limits);
  if (carton.black_spot_score === null || orderedSoftAndBroken(ordered)) judged.leave("black_spot_score");
  else judged.measure("black_spot_score", carton.black_spot_score, "BLACK-SCORE", limits.get("black_spot_score"));
  addBlackShare(judged, carton, limits);
  keepStrongest(judged);
  return judged;
}

/** One fact, one reason: of the findings for the same black spots the strongest stays. */
function keepStrongest(judged: Judged): void {
  const weight = ({ code, limit }: Finding): number => SEVERITIES.indexOf(limit.severity) * 9 + SAME_SPOTS.indexOf(code);
  const alike = judged.findings.filter(({ code }) => SAME_SPOTS.includes(code)).sort((a, b) => weight(a) - weight(b));
  const kept = judged.findings.filter((found) => !alike.slice(1).includes(found));
  judged.findings.splice(0, judged.findings.length, ...kept);
}

function addBlackShare(judged: Judged, carton: CartonFacts, limits: Limits): void {
  const affected = carton.pieces.black_spot;
  const lookedAt = carton.looked_at;
  if (affected === undefined || lookedAt === null) {
    judged.derived["black_share"] = null;
    return;
  }
  const [low, high] = wilson(affected, lookedAt);
  judged.derived["black_share"] = affected / lookedAt;
  judged.derived["black_share_low"] = low;
  judged.derived["black_share_high"] = high;
  const limit = limits.get("looked_at");
  const isAsked = judged.findings.some(({ code }) => code === "PIECES-UNSURE");
  if (!isFineFor(limit, lookedAt) && !isAsked) {
    judged.findings.push(againstItsLimit("LOOKED-AT-FEW", limit, lookedAt, { low, high }));
  }
}

export function explainCondition(affected: number, lookedAt: number, limit: Limit): Facts {
  const [low, high] = wilson(affected, lookedAt);
  return {
    formula: "prawns affected / prawns looked at; interval by Wilson for 95 %",
    numbers: { affected, looked_at: lookedAt, share: affected / lookedAt, low, high },
    limit: { bound: limit.bound, sense: limit.sense },
    source: [limit.basis],
  };
}

export function scoreByPrevalence(
  smallSpots: number,
  largeStains: number,
  wholeBody: number,
  lookedAt: number,
): number {
  checkCounts([smallSpots, largeStains, wholeBody], lookedAt);
  if (wholeBody === lookedAt) return 10;
  const stained = largeStains + wholeBody;
  if (stained > 0) return stained / lookedAt <= 0.5 ? 6 : 8;
  if (smallSpots > 0) return smallSpots / lookedAt <= 0.5 ? 2 : 4;
  return 0;
}

function checkCounts(counts: readonly number[], lookedAt: number): void {
  for (const number of [...counts, lookedAt]) {
    if (!Number.isInteger(number) || number < 0 || number > MAX_PIECES) {
      throw new UnusableReading("FACT-03", { low: 0, high: MAX_PIECES });
    }
  }
  if (lookedAt < 1) throw new UnusableReading("FACT-03", { low: 1, high: MAX_PIECES });
  const counted = counts.reduce((sum, number) => sum + number, 0);
  if (counted > lookedAt) throw new UnusableReading("FACT-04", { counted, looked_at: lookedAt });
}
