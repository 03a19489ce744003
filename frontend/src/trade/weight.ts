// Mirror of inspections/trade/weight.py, where the rule of each market is explained in words.

import { type Answer } from "./answer";
import type { CartonFacts } from "./carton_facts";
import type { LineFacts } from "./facts";
import { againstItsLimit, finding, Judged, type Finding } from "./findings";
import { glazedG, glazePercent, judgeGlaze } from "./glaze";
import { isFineFor, type Limits } from "./limits";
import type { Facts } from "./quantities";
import {
  isShortBeyond,
  ROUNDING_G,
  judgeAverageEu,
  judgeAverageUs,
  shortageG,
  shortPercent,
  spreadOfUnits,
  toleranceFor,
  type Tolerance,
} from "./shortage";
import { unitNetG, type Ordered } from "./specification";

export const MOST_UNITS_ON_SCALE = 1.5;
export const UNIT_STEPS: Readonly<Record<Tolerance["table"], readonly (readonly [limit: string, code: string])[]>> = {
  MAV: [["net_unit.mav", "NET-UNIT"]],
  T: [
    ["net_unit.t2", "NET-UNIT"],
    ["net_unit.t1", "NET-UNIT-NOTE"],
  ],
};
type Average = (declaredG: number, foundG: readonly number[]) => Answer;
const MEANS: Readonly<Record<string, readonly [judge: Average, limit: string]>> = {
  US: [judgeAverageUs, "net_mean.us"],
  EU: [judgeAverageEu, "net_mean.eu"],
  ANZ: [judgeAverageEu, "net_mean.eu"],
};

export function glazedWeightG(carton: CartonFacts): number | null {
  if (carton.glazed_g !== null) return carton.glazed_g;
  if (carton.gross_g === null || carton.tare_g === null || carton.gross_g <= carton.tare_g) return null;
  return glazedG(carton.gross_g, carton.tare_g);
}

export function glazeSharePercent(carton: CartonFacts): number | null {
  const withGlazeG = glazedWeightG(carton);
  const withoutGlazeG = carton.deglazed_g;
  if (withGlazeG === null || withoutGlazeG === null || withoutGlazeG > withGlazeG) return null;
  return glazePercent(withGlazeG, withoutGlazeG);
}

export function isOneUnit(netG: number, ordered: Ordered): boolean {
  return netG <= unitNetG(ordered) * MOST_UNITS_ON_SCALE;
}

export function judgeWeight(carton: CartonFacts, ordered: Ordered, limits: Limits): Judged {
  const judged = new Judged();
  judgeNetWeight(judged, carton, ordered, limits);
  judgeGlazeFound(judged, carton, ordered, limits);
  return judged;
}

function judgeNetWeight(judged: Judged, carton: CartonFacts, ordered: Ordered, limits: Limits): void {
  const netG = carton.deglazed_g;
  const declaredG = unitNetG(ordered);
  judged.derived["net_g"] = netG;
  judged.derived["net_short_g"] = null;
  if (netG === null) {
    judged.leave("net_weight");
    return;
  }
  const facts = { net_g: netG, declared_g: declaredG };
  if (!isOneUnit(netG, ordered)) {
    judged.checks["net_weight"] = "cannot_tell";
    judged.findings.push(finding("NET-UNLIKELY", limits.get("net_unlikely"), { measured: netG, unit: "g", facts }));
    return;
  }
  const shortG = shortageG(declaredG, netG);
  judged.derived["net_short_g"] = shortG;
  const tolerance = toleranceFor(ordered.market, declaredG);
  if (tolerance !== null) {
    const { tolerable_g, table, known: table_known } = tolerance;
    judgeUnit(judged, shortG, tolerance, { ...facts, tolerable_g, table, table_known }, limits);
  } else if (shortG > 0) {
    judged.checks["net_weight"] = "cannot_tell";
    const rest = { measured: shortG, unit: "g", facts };
    judged.findings.push(finding("NET-NO-TABLE", limits.get("net_unit.no_table"), rest));
  } else {
    judged.checks["net_weight"] = "within";
  }
}

function judgeUnit(judged: Judged, shortG: number, tolerance: Tolerance, facts: Facts, limits: Limits): void {
  judged.checks["net_weight"] = "within";
  for (const [code, found] of UNIT_STEPS[tolerance.table]) {
    const limit = limits.get(code);
    const bound = (limit.bound ?? 0) * tolerance.tolerable_g;
    if (isShortBeyond(facts["declared_g"] as number, facts["net_g"] as number, bound)) {
      judged.checks["net_weight"] = "beyond";
      judged.findings.push(finding(found, limit, { measured: shortG, unit: "g", bound, sense: limit.sense, facts }));
      return;
    }
  }
}

function judgeGlazeFound(judged: Judged, carton: CartonFacts, ordered: Ordered, limits: Limits): void {
  const percent = glazeSharePercent(carton);
  judged.derived["glaze_percent"] = percent;
  const withGlazeG = glazedWeightG(carton);
  const withoutGlazeG = carton.deglazed_g;
  if (percent === null || withGlazeG === null || withoutGlazeG === null) {
    const isBackwards = withGlazeG !== null && withoutGlazeG !== null;
    judged.checks["glaze"] = isBackwards ? "cannot_tell" : "not_checked";
    return;
  }
  const declared = ordered.declared_glaze_percent;
  const limit = limits.get("glaze_over_percent");
  judged.checks["glaze"] = "within";
  if (declared === null) return;
  const answer = judgeGlaze(withGlazeG, withoutGlazeG, Math.max(declared, 0), limit.bound ?? 0);
  if (answer.kind === "beyond") {
    judged.checks["glaze"] = "beyond";
    const weighed = { glazed_g: withGlazeG, deglazed_g: withoutGlazeG };
    const facts = { glaze_percent: percent, declared_percent: declared, ...weighed };
    judged.findings.push(againstItsLimit("GLAZE-OVER", limit, answer.facts["over_points"] as number, facts));
  }
}

export function weighedUnits(line: LineFacts, ordered: Ordered): number[] {
  const weights = line.cartons.map((carton) => carton.deglazed_g);
  return weights.filter((netG) => netG !== null).filter((netG) => isOneUnit(netG, ordered));
}

export function meanNet(line: LineFacts, ordered: Ordered): number | null {
  const foundG = weighedUnits(line, ordered);
  let totalG = 0;
  for (const netG of foundG) totalG = totalG + netG;
  return foundG.length === 0 ? null : totalG / foundG.length;
}

export function meanFindings(line: LineFacts, ordered: Ordered, limits: Limits): Finding[] {
  const foundG = weighedUnits(line, ordered);
  const declaredG = unitNetG(ordered);
  const meanG = meanNet(line, ordered);
  const tolerated = limits.get("net_mean_short_percent");
  if (meanG === null || isFineFor(tolerated, shortPercent(meanG, declaredG))) return [];
  const spread = spreadOfUnits(declaredG, foundG);
  const measured = -spread.mean_error_g;
  if (!(measured > ROUNDING_G)) return [];
  const { units, deviation_g } = spread;
  const facts = { mean_g: meanG, declared_g: declaredG, units, deviation_g };
  const short = { measured, unit: "g", sense: "at_most" as const };
  const rule = MEANS[ordered.market];
  if (rule === undefined) {
    const bound = (declaredG * (tolerated.bound ?? 0)) / 100;
    return [finding("NET-MEAN", tolerated, { ...short, bound, facts })];
  }
  const [judge, code] = rule;
  const answer = judge(declaredG, foundG);
  const unsure = limits.get("net_mean.unsure");
  if (answer.kind === "cannot_tell" || answer.kind === "not_checked") {
    return [finding("NET-ONE-UNIT", unsure, { measured, unit: "g", facts })];
  }
  const { allowance_g, factor } = answer.facts as { allowance_g: number; factor: number };
  const judgedBy = { ...short, bound: allowance_g, facts: { ...facts, factor, allowance_g } };
  return [answer.kind === "beyond" ? finding("NET-MEAN", limits.get(code), judgedBy) : finding("NET-MEAN-UNSURE", unsure, judgedBy)];
}
