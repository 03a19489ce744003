// Mirror of inspections/trade/condition.py.

import type { CartonFacts } from "./carton_facts";
import { againstItsLimit, Judged } from "./findings";
import { wilson } from "./intervals";
import { isFineFor, type Limits } from "./limits";
import { MAX_PIECES, UnusableReading, type Facts } from "./quantities";
import type { PieceKind } from "./types";

type Row = readonly [name: string, kind: PieceKind, limit: string, code: string];
const SHARES: readonly Row[] = [
  ["black_spot", "black_spot", "black_spot_share", "BLACK-HOUSE"],
  ["black_spot_meat", "black_spot_meat", "black_spot_meat_share", "BLACK-MEAT"],
  ["dehydrated", "dehydrated", "dehydrated_share", "DEHYDRATED"],
  ["soft", "soft", "soft_share", "SOFT"],
  ["heads", "heads", "heads_share", "HEADS"],
  ["legs", "legs", "legs_share", "LEGS"],
  ["tails", "tails", "tails_share", "TAILS"],
];

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
  judged.measure(name, share, code, limits.get(limitCode), shareFacts(affected, carton.looked_at));
}

function judgeWideBlackSpot(judged: Judged, carton: CartonFacts, limits: Limits): void {
  const limit = limits.get("black_spot_wide_share");
  const lookedAt = carton.looked_at;
  const { black_spot_wide: wide, black_spot: anySpot } = carton.pieces;
  if (lookedAt === null || (wide === undefined && anySpot === undefined)) {
    judged.leave("black_spot_wide");
  } else if (wide !== undefined) {
    judged.measure("black_spot_wide", wide / lookedAt, "BLACK-CODEX", limit, shareFacts(wide, lookedAt));
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
  if (!judged.measure("broken", broken / lookedAt, "BROKEN", limits.get("broken_share"), facts)) {
    judged.measure("broken", broken / lookedAt, "BROKEN-NOTE", limits.get("broken_share.note"), facts);
  }
}

function judgeWrapping(judged: Judged, carton: CartonFacts, limits: Limits): void {
  if (carton.liner === null) judged.leave("liner");
  else if (carton.liner === "closed") judged.checks["liner"] = "within";
  else judged.see("liner", true, "LINER-" + carton.liner.toUpperCase(), limits.get("liner." + carton.liner));
  if (carton.frost === null) judged.leave("frost");
  else judged.see("frost", carton.frost === "heavy", "FROST-HEAVY", limits.get("frost.heavy"));
  if (carton.refreezing === null) {
    judged.leave("refreezing");
  } else {
    const signs = [...carton.refreezing];
    judged.see("refreezing", signs.length > 0, "REFREEZING", limits.get("refreezing"), { signs });
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

export function judgeCondition(carton: CartonFacts, limits: Limits): Judged {
  const judged = new Judged();
  judgeWrapping(judged, carton, limits);
  judgeSmellAndForeign(judged, carton, limits);
  for (const row of SHARES) {
    if (row[0] !== "dehydrated" || !judgeDrying(judged, carton, limits)) judgeShare(judged, carton, limits, row);
  }
  judgeWideBlackSpot(judged, carton, limits);
  judgeBroken(judged, carton, limits);
  if (carton.black_spot_score === null) judged.leave("black_spot_score");
  else judged.measure("black_spot_score", carton.black_spot_score, "BLACK-SCORE", limits.get("black_spot_score"));
  addBlackShare(judged, carton, limits);
  return judged;
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
  if (!isFineFor(limit, lookedAt)) {
    judged.findings.push(againstItsLimit("LOOKED-AT-FEW", limit, lookedAt, { low, high }));
  }
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
