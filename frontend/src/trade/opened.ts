// Mirror of inspections/trade/opened.py.

import type { LineFacts } from "./facts";
import { UnusablePlan } from "./quantities";
import { PLAN_NAMES, planFor, samplingShown, type Plan } from "./sampling";
import { unitNetG, type Ordered } from "./specification";
import type { SamplingShown } from "./types";

function tablePlans(line: LineFacts, unitG: number): Plan[] {
  const plans: Plan[] = [];
  for (const lot of [line.cartons_counted, line.cartons_on_docket]) {
    if (line.plan === null || !(PLAN_NAMES as readonly string[]).includes(line.plan) || lot === null || lot <= 0) {
      continue;
    }
    try {
      plans.push(planFor(line.plan, lot, unitG));
    } catch (problem) {
      if (!(problem instanceof UnusablePlan)) throw problem;
    }
  }
  return plans;
}

export function plannedAndAcceptance(line: LineFacts, ordered: Ordered): [planned: number, acceptance: number] {
  let planned = Math.max(1, line.planned ?? 0);
  let acceptance = line.acceptance ?? 0;
  const plans = tablePlans(line, unitNetG(ordered));
  if (plans.length > 0) {
    planned = Math.max(planned, Math.min(...plans.map((plan) => plan.n)));
    acceptance = Math.min(acceptance, Math.max(...plans.map((plan) => plan.acceptance)));
  }
  if (line.cartons_counted !== null) planned = Math.min(planned, line.cartons_counted);
  return [planned, acceptance];
}

export function openedShown(
  line: LineFacts,
  planned: number | null,
  acceptance: number,
  defective: number,
): SamplingShown {
  const lot = line.cartons_counted ?? line.cartons_on_docket;
  return samplingShown(lot, line.cartons.length, planned, acceptance, defective);
}
