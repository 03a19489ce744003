// Mirror of inspections/trade/opened.py.

import type { Basis } from "./basis";
import type { LineFacts } from "./facts";
import { UnusablePlan } from "./quantities";
import { PLAN_NAMES, planFor, samplingShown, secondStage, type Plan } from "./sampling";
import { unitNetG, type Ordered } from "./specification";
import type { SamplingShown } from "./types";

export interface Stages {
  planned: number;
  acceptance: number;
  rejection: number;
  total: number;
  last_acceptance: number;
  basis: Basis | null;
}

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

export function singleStage(planned: number, acceptance: number, basis: Basis | null): Stages {
  return { planned, acceptance, rejection: acceptance + 1, total: planned, last_acceptance: acceptance, basis };
}

export function stagesOf(line: LineFacts, ordered: Ordered): Stages {
  let planned = Math.max(1, line.planned ?? 0);
  let acceptance = line.acceptance ?? 0;
  const plans = tablePlans(line, unitNetG(ordered));
  if (plans.length > 0) {
    planned = Math.max(planned, Math.min(...plans.map((plan) => plan.n)));
    acceptance = Math.min(acceptance, Math.max(...plans.map((plan) => plan.acceptance)));
  }
  const counted = line.cartons_counted;
  if (counted !== null) planned = Math.min(planned, counted);
  if (plans.length === 0) return singleStage(planned, acceptance, null);
  const plan = plans[0]!;
  const second = secondStage(plan, unitNetG(ordered));
  if (second === null) return singleStage(planned, acceptance, plan.basis);
  let total = planned + second.total - plan.n;
  if (counted !== null) total = Math.min(total, counted);
  const { rejection, acceptance: last, basis } = second;
  return { planned, acceptance, rejection, total, last_acceptance: last, basis };
}

export function openedShown(line: LineFacts, stages: Stages, defective: number): SamplingShown {
  const lot = line.cartons_counted ?? line.cartons_on_docket;
  const shown = samplingShown(lot, line.cartons.length, stages.planned, stages.acceptance, defective);
  return { ...shown, rejection: stages.rejection, total: stages.total, last_acceptance: stages.last_acceptance };
}
