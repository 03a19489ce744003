// Mirror of inspections/trade/counts.py.

import { type Answer, beyond, type CannotTell, cannotTell, type Sense, within } from "./answer";
import {
  type Edges,
  edgesOf,
  GAP_RULE,
  type GapRule,
  type Grade,
  gradeUnit,
  holds,
  nearestGrade,
  type Per,
  priceEffect,
  SIZES,
} from "./grades";
import { type Facts, GRAMS_PER_LB, toPieces, UnusableReading } from "./quantities";
import { checkWeight, type Sample, spreadOf } from "./uniformity";

export const Z_95 = SIZES.z_95;
export const MOST_PIECES_TO_WEIGH = 500;

export type Count = {
  value: number;
  low: number;
  high: number;
  per: Per;
  spread: number;
  spread_from: "tenths" | "default";
  pieces: number;
  deglazed_g: number;
};

export function countPerLb(pieces: number, deglazedG: number): number {
  checkWeight(deglazedG);
  return (toPieces(pieces) * GRAMS_PER_LB) / deglazedG;
}

export function countPerKg(pieces: number, deglazedG: number): number {
  checkWeight(deglazedG);
  return (toPieces(pieces) * 1000) / deglazedG;
}

export function countPer(per: Per, pieces: number, deglazedG: number): number {
  return per === "kg" ? countPerKg(pieces, deglazedG) : countPerLb(pieces, deglazedG);
}

export function deglazedWeightG(sample: Sample): number | null {
  checkWeight(sample.weight_g);
  if (sample.weight_is === "deglazed" || sample.weight_is === "unglazed") return sample.weight_g;
  if (sample.weight_is !== "glazed") throw new UnusableReading("READ-04", { entered: String(sample.weight_is), unit: "" });
  const glaze = sample.glaze_percent ?? null;
  if (glaze === null) return null;
  if (!(glaze >= 0 && glaze < 100)) throw new UnusableReading("PERCENT-01", { entered: glaze });
  return sample.weight_g * (1 - glaze / 100);
}

export function countSample(sample: Sample, per: Per = "lb"): Count | CannotTell {
  const pieces = toPieces(sample.pieces);
  const deglazedG = deglazedWeightG(sample);
  if (deglazedG === null) return cannotTell(["COUNT-GLAZED"], { sample_pieces: pieces });
  const value = countPer(per, pieces, deglazedG);
  const [spread, spreadFrom] = spreadOf(sample);
  const error = (Z_95 * spread * leftUnweighed(sample, deglazedG)) / Math.sqrt(pieces);
  return {
    value,
    low: value / (1 + error),
    high: value / (1 - error),
    per,
    spread,
    spread_from: spreadFrom,
    pieces,
    deglazed_g: deglazedG,
  };
}

export function judgeCount(sample: Sample, grade: Grade, gapRule: GapRule = GAP_RULE): Answer {
  if (grade.kind === "broken") return cannotTell(["COUNT-BROKEN"], { grade: grade.text });
  if (grade.basis === "peeled_from") return cannotTell(["COUNT-PEELED-FROM"], { grade: grade.text });
  const count = countSample(sample, grade.per);
  if ("kind" in count) return count;
  const edges = edgesOf(grade, gapRule);
  const facts = countFacts(count, grade, gapRule);
  const point = holds(edges, count.value);
  if (point && holds(edges, count.low) && holds(edges, count.high)) {
    return within(count.value, gradeUnit(grade), facts);
  }
  if (!point && rangeIsOutside(count, edges)) {
    const isSmall = edges.high !== null && count.value >= edges.high;
    return beyond(count.value, gradeUnit(grade), isSmall ? grade.high : grade.low, senseOf(grade, isSmall), facts);
  }
  return cannotTell(["COUNT-UNSURE"], { ...facts, weigh_more: piecesToWeighMore(count, edges) });
}

export function piecesToWeighMore(count: Count, edges: Edges): number | null {
  let clear = 1;
  if (edges.high !== null) {
    clear = Math.min(clear, count.value < edges.high ? 1 - count.value / edges.high : count.value / edges.high - 1);
  }
  if (edges.low !== null) {
    clear = Math.min(clear, count.value > edges.low ? count.value / edges.low - 1 : 1 - count.value / edges.low);
  }
  if (clear <= 0) return null;
  const root = (Z_95 * count.spread) / clear;
  const needed = Math.ceil(root * root);
  return needed > MOST_PIECES_TO_WEIGH ? null : Math.max(1, needed - count.pieces);
}

export function explainCount(sample: Sample, grade: Grade, gapRule: GapRule = GAP_RULE): Facts {
  const count = countSample(sample, grade.per);
  const told =
    "kind" in count
      ? {}
      : {
          deglazed_g: count.deglazed_g,
          count: count.value,
          low: count.low,
          high: count.high,
          spread: count.spread,
          spread_from: count.spread_from,
        };
  return {
    formula: `pieces x ${grade.per === "lb" ? "453.59237" : "1000"} / weight without glaze in g`,
    numbers: { pieces: sample.pieces, weight_g: sample.weight_g, weight_is: sample.weight_is, ...told },
    limit: { grade: grade.text, low: grade.low, high: grade.high, per: grade.per, gap_rule: gapRule },
    source: [SIZES.basis.count, SIZES.basis.gap, SIZES.basis.spread],
  };
}

function countFacts(count: Count, grade: Grade, gapRule: GapRule): Facts {
  return {
    grade: grade.text,
    nearest: nearestGrade(count.value, grade.per, gapRule).text,
    price_percent: priceEffect(grade, count.value).percent,
    point: holds(edgesOf(grade, gapRule), count.value) ? "within" : "beyond",
    low: count.low,
    high: count.high,
    spread: count.spread,
    spread_from: count.spread_from,
    sample_pieces: count.pieces,
    deglazed_g: count.deglazed_g,
  };
}

function rangeIsOutside(count: Count, edges: Edges): boolean {
  if (edges.high !== null && !holds({ low: null, high: edges.high, is_high_in: edges.is_high_in }, count.low)) return true;
  return edges.low !== null && count.high < edges.low;
}

function senseOf(grade: Grade, isSmall: boolean): Sense {
  if (isSmall) return grade.kind === "under" ? "below" : "at_most";
  return "at_least";
}

function leftUnweighed(sample: Sample, deglazedG: number): number {
  const unitG = sample.unit_g ?? null;
  if (unitG === null) return 1;
  return deglazedG < unitG ? Math.sqrt(1 - deglazedG / unitG) : 0;
}
