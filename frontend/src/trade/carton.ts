// Mirror of inspections/trade/carton.py.

import { judgeCondition } from "./condition";
import type { CartonFacts } from "./facts";
import { finding, Judged } from "./findings";
import { judgeLabels } from "./labels";
import { isFineFor, type Limits } from "./limits";
import { judgeSize } from "./size";
import { judgeSpecies } from "./species";
import type { Ordered } from "./specification";
import type { CartonVerdict, Reason } from "./types";
import { isDefect } from "./weighing";
import { judgeWeight } from "./weight";

const COLD_STEPS = [
  ["product_c.reject", "TEMP-REJECT"],
  ["product_c.tolerance", "TEMP-OUTSIDE"],
  ["product_c.within", "TEMP-TOLERANCE"],
] as const;

export interface CartonJudged {
  facts: CartonFacts;
  judged: Judged;
}

export function isDefective(carton: CartonJudged): boolean {
  return carton.judged.findings.some(isDefect);
}

export function judgeTemperature(carton: CartonFacts, limits: Limits): Judged {
  const judged = new Judged();
  const measured = carton.product_c;
  judged.derived["product_c"] = measured;
  if (measured === null) {
    judged.leave("product_c");
  } else if (carton.probe === "surface") {
    judged.checks["product_c"] = "cannot_tell";
    judged.findings.push(finding("TEMP-SURFACE", limits.get("product_c.surface"), { measured, unit: "C" }));
  } else {
    for (const [code, found] of COLD_STEPS) {
      if (judged.measure("product_c", measured, found, limits.get(code))) break;
    }
    if (isFineFor(limits.get("product_c.tolerance"), measured)) judged.checks["product_c"] = "within";
    noteNearBound(judged, measured, limits);
  }
  return judged;
}

function noteNearBound(judged: Judged, measured: number, limits: Limits): void {
  const limit = limits.get("product_c.accuracy");
  const accuracy = limit.bound;
  for (const [code] of COLD_STEPS.slice(0, 2)) {
    const { bound, sense } = limits.get(code);
    if (bound !== null && accuracy !== null && Math.abs(measured - bound) < accuracy) {
      const rest = { measured, unit: "C", bound, sense, facts: { accuracy_c: accuracy } };
      judged.findings.push(finding("TEMP-NEAR", limit, rest));
      return;
    }
  }
}

export function judgeCarton(
  carton: CartonFacts,
  ordered: Ordered,
  docketLot: string,
  arrivedDay: number | null,
  limits: Limits,
): CartonJudged {
  const judged = judgeTemperature(carton, limits);
  judged.join(judgeCondition(carton, limits));
  judged.join(judgeSpecies(carton, ordered.species_code, limits));
  judged.join(judgeLabels(carton, ordered, docketLot, arrivedDay, limits));
  judged.join(judgeWeight(carton, ordered, limits));
  judged.join(judgeSize(carton, ordered, limits));
  return { facts: carton, judged };
}

export function cartonJson(carton: CartonJudged, reasons: Reason[]): CartonVerdict {
  return {
    carton_id: carton.facts.id,
    position: carton.facts.position,
    defective: isDefective(carton),
    reasons,
    checks: carton.judged.checks,
    derived: carton.judged.derived,
  };
}
