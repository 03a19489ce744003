// Mirror of inspections/trade/shortage.py.

import { againstLimit, type Answer, cannotTell, within } from "./answer";
import { SCREENING, TOLERANCES } from "./glaze";
import { type Facts, UnusableReading } from "./quantities";
import { checkWeight } from "./uniformity";

/** Decimal weights carry a rounding of far less than this, and no scale shows so little. */
export const ROUNDING_G = 1e-6;

export type Deficiency = { tolerable_g: number; least_t1_g: number; least_t2_g: number; known: string; cv: string };
export type UnitSpread = { units: number; mean_error_g: number; deviation_g: number };

export function shortageG(declaredG: number, foundG: number): number {
  checkWeight(declaredG);
  checkWeight(foundG);
  return declaredG - foundG;
}

export function tolerableDeficiency(nominalG: number): Deficiency {
  checkWeight(nominalG);
  if (nominalG < TOLERANCES.tolerable_over_g) throw new UnusableReading("NET-01", { declared_g: nominalG });
  const row = TOLERANCES.tolerable.find((each) => each.to_g === null || nominalG <= each.to_g)!;
  const tenths = row.kind === "tenths_of_percent" ? Math.ceil((nominalG * row.value) / 100) : row.value;
  const tolerable = tenths / 10;
  return {
    tolerable_g: tolerable,
    least_t1_g: nominalG - tolerable,
    least_t2_g: nominalG - 2 * tolerable,
    known: row.known,
    cv: row.cv,
  };
}

export type Tolerance = { table: "T" | "MAV"; tolerable_g: number; known: string; cv: string };

export function toleranceFor(market: string, declaredG: number): Tolerance | null {
  checkWeight(declaredG);
  if (market === "US") {
    const allowedG = maximumAllowableVariation(declaredG);
    return allowedG === null ? null : { table: "MAV", tolerable_g: allowedG, known: "from_memory", cv: "CV-4-22" };
  }
  if (declaredG < TOLERANCES.tolerable_over_g) return null;
  const { tolerable_g, known, cv } = tolerableDeficiency(declaredG);
  return { table: "T", tolerable_g, known, cv };
}

export function shortPercent(foundG: number, declaredG: number): number {
  return (100 * shortageG(declaredG, foundG)) / declaredG;
}

export function isShortBeyond(declaredG: number, foundG: number, tolerableG: number): boolean {
  return declaredG - foundG > tolerableG + ROUNDING_G;
}

export function maximumAllowableVariation(labelG: number): number | null {
  checkWeight(labelG);
  for (const row of TOLERANCES.mav) {
    if (labelG > row.over_g && (row.to_g === null || labelG <= row.to_g)) {
      return row.mav_g === null ? labelG * TOLERANCES.mav_share_above : row.mav_g;
    }
  }
  return null;
}

export function spreadOfUnits(declaredG: number, foundG: readonly number[]): UnitSpread {
  const errors = foundG.map((weightG) => -shortageG(declaredG, weightG));
  if (errors.length === 0) throw new UnusableReading("NET-02");
  let total = 0;
  for (const error of errors) total = total + error;
  const mean = total / errors.length;
  let squares = 0;
  for (const error of errors) squares = squares + (error - mean) * (error - mean);
  const deviation = errors.length > 1 ? Math.sqrt(squares / (errors.length - 1)) : 0;
  return { units: errors.length, mean_error_g: mean, deviation_g: deviation };
}

export function sampleCorrectionFactor(units: number): number {
  return studentT(TOLERANCES.t975, units) / Math.sqrt(units);
}

export function judgeAverageUs(declaredG: number, foundG: readonly number[]): Answer {
  const spread = spreadOfUnits(declaredG, foundG);
  const facts = averageFacts(spread);
  if (spread.mean_error_g >= 0) return within(spread.mean_error_g, "g", facts);
  if (spread.units < 2) return cannotTell(["NET-ONE-UNIT"], facts);
  const factor = sampleCorrectionFactor(spread.units);
  const allowanceG = factor * spread.deviation_g;
  const all = { ...facts, factor, allowance_g: allowanceG };
  return againstLimit(spread.mean_error_g + allowanceG, "g", 0, "at_least", all);
}

export function judgeAverageEu(declaredG: number, foundG: readonly number[]): Answer {
  const spread = spreadOfUnits(declaredG, foundG);
  const facts = averageFacts(spread);
  if (spread.mean_error_g >= 0) return within(spread.mean_error_g, "g", facts);
  if (spread.units < 2) return cannotTell(["NET-ONE-UNIT"], facts);
  const factor = studentT(TOLERANCES.t995, spread.units) / Math.sqrt(spread.units);
  const allowanceG = factor * spread.deviation_g;
  const all = { ...facts, factor, allowance_g: allowanceG };
  return againstLimit(spread.mean_error_g, "g", -allowanceG, "above", all);
}

export function claimAmount(cartons: number, declaredG: number, meanFoundG: number, pricePerKg: number): number {
  const shortG = shortageG(declaredG, meanFoundG);
  return shortG > 0 ? ((cartons * shortG) / 1000) * pricePerKg : 0;
}

const averageFacts = (spread: UnitSpread): Facts => ({
  units: spread.units,
  mean_error_g: spread.mean_error_g,
  deviation_g: spread.deviation_g,
  screening: SCREENING,
});

function studentT(table: number[][], units: number): number {
  if (units < 2) throw new UnusableReading("NET-02");
  let best = table[0]![1]!;
  for (const [rowUnits, value] of table) if (rowUnits! <= units) best = value!;
  return best;
}
