// Mirror of inspections/trade/switching.py.

import { UnusablePlan } from "./quantities";
import { isAccepted, ISO_NAMES, type Plan, planFor, PLANS } from "./sampling";

const RULES = PLANS.iso.switching;
const STOPS: Record<string, { rejected_on_tightened?: number; lots_on_tightened?: number }> = RULES.stop;

export type Standing = {
  inspection: "normal" | "tightened" | "reduced";
  recent: boolean[];
  accepted_in_a_row: number;
  score: number;
  lots_on_tightened: number;
  rejected_on_tightened: number;
  is_stopped: boolean;
};
export type LotSeen = { plan: Plan; defective: number; accepted: boolean; next: Standing };
export type LotResult = {
  accepted: boolean;
  passes_tighter?: boolean;
  acceptance?: number;
  in_gap?: boolean;
  is_steady?: boolean;
  edition?: string;
};

export const BEGINNING: Standing = {
  inspection: "normal",
  recent: [],
  accepted_in_a_row: 0,
  score: 0,
  lots_on_tightened: 0,
  rejected_on_tightened: 0,
  is_stopped: false,
};

export function afterLot(standing: Standing, result: LotResult): Standing {
  const { accepted, passes_tighter = false, acceptance = 0, in_gap = false, is_steady = true, edition = "iso" } = result;
  if (!(edition in STOPS)) throw new UnusablePlan("SAMPLE-01", { plan: edition });
  if (standing.is_stopped) {
    throw new UnusablePlan("SAMPLE-06", { rejected_on_tightened: standing.rejected_on_tightened });
  }
  if (standing.inspection === "normal") {
    return afterNormal(standing, accepted, passes_tighter, acceptance, is_steady);
  }
  if (standing.inspection === "tightened") return afterTightened(standing, accepted, edition);
  return accepted && !in_gap && is_steady ? counted(standing, accepted) : BEGINNING;
}

export function runOfLots(
  name: string,
  aql: string,
  lots: [number, number][],
  isSteady = true,
  edition = "iso",
): LotSeen[] {
  if (!(ISO_NAMES as readonly string[]).includes(name)) throw new UnusablePlan("SAMPLE-01", { plan: name });
  let standing = BEGINNING;
  const seen: LotSeen[] = [];
  for (const [lot, defective] of lots) {
    if (standing.is_stopped) break;
    const plan = planFor(name, lot, null, aql, standing.inspection);
    const accepted = isAccepted(plan, defective);
    standing = afterLot(standing, {
      accepted,
      passes_tighter: accepted && passesTighter(name, lot, aql, defective),
      acceptance: plan.acceptance,
      in_gap: accepted && defective > plan.acceptance,
      is_steady: isSteady,
      edition,
    });
    seen.push({ plan, defective, accepted, next: standing });
  }
  return seen;
}

function afterNormal(
  standing: Standing,
  accepted: boolean,
  passesTighter: boolean,
  acceptance: number,
  isSteady: boolean,
): Standing {
  const { recent, accepted_in_a_row } = counted(standing, accepted);
  if (recent.filter((each) => !each).length >= RULES.reject_to_tighten) return { ...BEGINNING, inspection: "tightened" };
  const gained = acceptance <= 1 ? RULES.score_when_small : RULES.score_when_tighter_passes;
  const earned = accepted && (acceptance <= 1 || passesTighter);
  const score = earned ? standing.score + gained : 0;
  if (score >= RULES.score_to_reduce && isSteady) return { ...BEGINNING, inspection: "reduced" };
  return { ...BEGINNING, recent, accepted_in_a_row, score };
}

function afterTightened(standing: Standing, accepted: boolean, edition: string): Standing {
  const { recent, accepted_in_a_row } = counted(standing, accepted);
  if (accepted_in_a_row >= RULES.accept_to_normal) return BEGINNING;
  const lots_on_tightened = standing.lots_on_tightened + 1;
  const rejected_on_tightened = standing.rejected_on_tightened + (accepted ? 0 : 1);
  const stop = STOPS[edition]!;
  const is_stopped =
    rejected_on_tightened >= (stop.rejected_on_tightened ?? Infinity) ||
    lots_on_tightened >= (stop.lots_on_tightened ?? Infinity);
  return { ...BEGINNING, inspection: "tightened", recent, accepted_in_a_row, lots_on_tightened, rejected_on_tightened, is_stopped };
}

function counted(standing: Standing, accepted: boolean): Standing {
  const recent = [...standing.recent, accepted].slice(-RULES.within_lots);
  const accepted_in_a_row = accepted ? standing.accepted_in_a_row + 1 : 0;
  return { ...BEGINNING, inspection: standing.inspection, recent, accepted_in_a_row };
}

function passesTighter(name: string, lot: number, aql: string, defective: number): boolean {
  const place = PLANS.iso.aql.indexOf(aql);
  return place > 0 && isAccepted(planFor(name, lot, null, PLANS.iso.aql[place - 1]!), defective);
}
