// Mirror of inspections/trade/size.py.

import { countPerKg, countPerLb, deglazedWeightG, judgeCount } from "./counts";
import type { CartonFacts } from "./carton_facts";
import { finding, Judged } from "./findings";
import { customaryPer, gradeUnit, parseGrade, type Grade } from "./grades";
import type { Limits } from "./limits";
import { MAX_MASS_G, UnusableGrade } from "./quantities";
import { orderedSoftAndBroken, type Ordered } from "./specification";
import { LEAST_PIECES_FOR_TENTHS, tenthOf, uniformityRatio, type Sample } from "./uniformity";
import { glazeSharePercent } from "./weight";

export function sampleOf(carton: CartonFacts): Sample | null {
  const entered = carton.sample;
  if (entered === null || entered.pieces === null || entered.weight_g === null || entered.weight_is === null) {
    return null;
  }
  const glaze = entered.weight_is === "glazed" ? glazeSharePercent(carton) : null;
  return {
    pieces: entered.pieces,
    weight_g: entered.weight_g,
    weight_is: entered.weight_is as Sample["weight_is"],
    largest_g: entered.largest_g,
    smallest_g: entered.smallest_g,
    glaze_percent: glaze !== null && glaze >= 100 ? null : glaze,
    unit_g: null,
  };
}

export function orderedGrade(ordered: Ordered): Grade | null {
  try {
    return parseGrade(ordered.grade, customaryPer(ordered.presentation));
  } catch (problem) {
    if (problem instanceof UnusableGrade) return null;
    throw problem;
  }
}

export function judgeSize(carton: CartonFacts, ordered: Ordered, limits: Limits): Judged {
  const judged = new Judged();
  const sample = sampleOf(carton);
  for (const name of ["count_per_lb", "count_per_kg", "uniformity"]) judged.derived[name] = null;
  if (sample === null) {
    judged.leave("count", "uniformity");
    return judged;
  }
  addCounts(judged, sample);
  judgeCountFound(judged, sample, orderedGrade(ordered), limits);
  if (!orderedSoftAndBroken(ordered)) judgeUniformityFound(judged, sample, limits);
  return judged;
}

function addCounts(judged: Judged, sample: Sample): void {
  const deglazedG = deglazedWeightG(sample);
  if (deglazedG !== null && deglazedG > 0 && deglazedG <= MAX_MASS_G) {
    judged.derived["count_per_lb"] = countPerLb(sample.pieces, deglazedG);
    judged.derived["count_per_kg"] = countPerKg(sample.pieces, deglazedG);
  }
}

function judgeCountFound(judged: Judged, sample: Sample, grade: Grade | null, limits: Limits): void {
  const isCounted = judged.derived["count_per_lb"] !== null;
  const answer = grade === null || !isCounted ? null : judgeCount(sample, grade);
  if (answer?.kind === "within") {
    judged.checks["count"] = "within";
  } else if (answer?.kind === "beyond") {
    judged.checks["count"] = "beyond";
    const { measured, unit, bound, sense, facts } = answer;
    const [code, limit] = sense === "at_least" ? ["COUNT-LARGER", "count_larger"] : ["COUNT-BEYOND", "count"];
    judged.findings.push(finding(code!, limits.get(limit!), { measured, unit, bound, sense, facts }));
  } else {
    judged.checks["count"] = "cannot_tell";
    if (answer?.kind === "cannot_tell" && answer.reasons[0] === "COUNT-UNSURE" && grade !== null) {
      const measured = judged.derived[`count_per_${grade.per}`] ?? null;
      const rest = { measured, unit: gradeUnit(grade), facts: answer.facts };
      judged.findings.push(finding("COUNT-UNSURE", limits.get("count_unsure"), rest));
    } else if (!isCounted) {
      judged.findings.push(finding("COUNT-GLAZED", limits.get("count_unsure")));
    }
  }
}

function judgeUniformityFound(judged: Judged, sample: Sample, limits: Limits): void {
  const largestG = sample.largest_g ?? null;
  const smallestG = sample.smallest_g ?? null;
  if (largestG === null || smallestG === null) {
    judged.leave("uniformity");
  } else if (sample.pieces < LEAST_PIECES_FOR_TENTHS) {
    judged.checks["uniformity"] = "cannot_tell";
  } else {
    const ratio = uniformityRatio(largestG, smallestG);
    judged.derived["uniformity"] = ratio;
    judged.measure("uniformity", ratio, "UNIFORMITY", limits.get("uniformity"), { tenth: tenthOf(sample.pieces) });
  }
}
