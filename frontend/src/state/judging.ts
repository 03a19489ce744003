/** The door to the judgements: the same functions as on the server, run here without a signal. */
import type { Inspection, Judgement, LimitSet, Line, SamplingDrawn, Specification } from "../store/document";
import { judgeDocument } from "../trade";
import { drawPositions } from "../trade/drawing";
import { Unusable } from "../trade/quantities";
import { chanceOfSeeingOne, oneInFive } from "../trade/chances";
import { planFor } from "../trade/sampling";

/** What the limits say of the document as it stands; null when the limits on this phone cannot be used. */
export function judge(document: Inspection, specifications: Specification[], limits: LimitSet): Judgement | null {
  try {
    return judgeDocument(document, specifications, limits);
  } catch (error) {
    if (error instanceof Unusable) return null;
    throw error;
  }
}

/**
 * Which cartons to open, drawn by the plan of the limits in force.
 *
 * The seed is the line's own id, so nobody can draw again until it suits, and the server can repeat it.
 */
export function drawCartons(line: Line, specification: Specification | null, limits: LimitSet, layers: number): SamplingDrawn {
  const lot = line.cartons_counted ?? line.cartons_on_docket;
  const plan = planFor(limits.default_plan, lot, specification ? unitNetG(specification) : null);
  const positions = drawPositions(lot, plan.n, line.id, layers);
  return { plan: limits.default_plan, layers, seed: line.id, n: plan.n, acceptance: plan.acceptance, positions };
}

function unitNetG(specification: Specification): number {
  return specification.carton_net_g / Math.max(1, specification.units_per_carton);
}

/** Chance that opening so many shows none of the bad ones, if one in five were bad. */
export function sampleSays(lot: number, opened: number): { bad: number; missChance: number } {
  const bad = oneInFive(lot);
  return { bad, missChance: 1 - chanceOfSeeingOne(lot, bad, opened) };
}
