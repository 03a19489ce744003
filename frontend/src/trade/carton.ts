// Mirror of inspections/trade/carton.py.

import type { CartonFacts } from "./carton_facts";
import { judgeCondition } from "./condition";
import type { Judged } from "./findings";
import { judgeLabels } from "./labels";
import type { Limits } from "./limits";
import { judgeProbe } from "./temperature";
import { judgeSize } from "./size";
import { judgeSpecies } from "./species";
import type { Ordered } from "./specification";
import type { CartonVerdict, Reason } from "./types";
import { effect, isFault } from "./severity_ranking";
import { judgeWeight } from "./weight";
import { word } from "./wording";

export interface CartonJudged {
  facts: CartonFacts;
  judged: Judged;
}

export function isDefective(carton: CartonJudged): boolean {
  return carton.judged.findings.some(isFault);
}

export function leadsTo(carton: CartonJudged, ...effects: string[]): boolean {
  return carton.judged.findings.some((found) => effects.includes(effect(found)));
}

/** What settles the carton whatever else it shows, as a key of the words; "" while nothing does. */
export function settledBy(carton: CartonJudged): "carton_hazard" | "carton" | "" {
  if (leadsTo(carton, "hazard")) return "carton_hazard";
  return leadsTo(carton, "unfit", "sort_refuse") ? "carton" : "";
}

export function judgeCarton(
  carton: CartonFacts,
  ordered: Ordered,
  docketLot: string,
  arrivedDay: number | null,
  limits: Limits,
): CartonJudged {
  const judged = judgeProbe(carton, arrivedDay, limits);
  judged.join(judgeCondition(carton, ordered, limits));
  judged.join(judgeSpecies(carton, ordered.species_code, limits));
  judged.join(judgeLabels(carton, ordered, docketLot, arrivedDay, limits));
  judged.join(judgeWeight(carton, ordered, limits));
  judged.join(judgeSize(carton, ordered, limits));
  return { facts: carton, judged };
}

export function cartonJson(carton: CartonJudged, reasons: Reason[]): CartonVerdict {
  const by = settledBy(carton);
  return {
    carton_id: carton.facts.id,
    position: carton.facts.position,
    defective: isDefective(carton),
    settled: by === "" ? "" : word("settled", by),
    reasons,
    checks: carton.judged.checks,
    derived: carton.judged.derived,
  };
}
