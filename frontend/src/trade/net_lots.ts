// Mirror of inspections/trade/net_lots.py.

import netPlans from "@trade-data/net_plans.json";
import type { Basis } from "./basis";
import { UnusablePlan } from "./quantities";
import { MAX_LOT } from "./sampling";
import { judgeAverageEu, judgeAverageUs, maximumAllowableVariation, shortageG, tolerableDeficiency } from "./shortage";
import { checkWeight } from "./uniformity";

export const NET_PLANS = netPlans;

type Scheme = "us" | "oiml" | "eu_destructive";
type Table = {
  basis: Basis;
  lot_at_least?: number;
  rows: { lot_at_most: number | null; n: number | null; beyond_allowed: number }[];
};
const TABLES: Record<Scheme, Table> = {
  us: netPlans.us as Table,
  oiml: netPlans.oiml as Table,
  eu_destructive: netPlans.eu_destructive as Table,
};

export type NetPlan = { scheme: string; lot: number; n: number; beyond_allowed: number; basis: Basis };
export type NetLot = { average: string; beyond: number | null; beyond_t2: number; passes: boolean | null };

const isWhole = (value: unknown): value is number => typeof value === "number" && Number.isInteger(value);

export function netPlan(scheme: string, lot: number): NetPlan {
  if (!Object.hasOwn(TABLES, scheme)) throw new UnusablePlan("SAMPLE-01", { plan: scheme });
  if (!isWhole(lot) || lot < 1) throw new UnusablePlan("SAMPLE-02", { lot });
  if (lot > MAX_LOT) throw new UnusablePlan("SAMPLE-03", { lot, plan: scheme });
  const table = TABLES[scheme as Scheme];
  const least = table.lot_at_least ?? 1;
  if (lot < least) throw new UnusablePlan("SAMPLE-07", { lot, plan: scheme, least });
  const row = table.rows.find((each) => each.lot_at_most === null || lot <= each.lot_at_most)!;
  return { scheme, lot, n: row.n ?? lot, beyond_allowed: row.beyond_allowed, basis: table.basis };
}

export function judgeNetLot(plan: NetPlan, declaredG: number, foundG: readonly number[]): NetLot {
  const shortages = foundG.map((each) => shortageG(declaredG, each));
  const isUs = plan.scheme === "us";
  const average = (isUs ? judgeAverageUs : judgeAverageEu)(declaredG, foundG).kind;
  const allowedG = isUs ? maximumAllowableVariation(declaredG) : tolerableDeficiency(declaredG).tolerable_g;
  const beyond = allowedG === null ? null : shortages.filter((each) => each > allowedG).length;
  const beyond_t2 = isUs || allowedG === null ? 0 : shortages.filter((each) => each > 2 * allowedG).length;
  const isUnsure = beyond === null || average === "cannot_tell" || shortages.length < plan.n;
  const fails = average === "beyond" || beyond_t2 > 0 || (beyond !== null && beyond > plan.beyond_allowed);
  return { average, beyond, beyond_t2, passes: fails ? false : isUnsure ? null : true };
}

export function mostBeyondT1(packs: number, place: string): number {
  const shares: Record<string, unknown> = netPlans.share_beyond_t1;
  const share = Object.hasOwn(shares, place) ? shares[place] : null;
  if (typeof share !== "number") throw new UnusablePlan("SAMPLE-01", { plan: place });
  if (!isWhole(packs) || packs < 1) throw new UnusablePlan("SAMPLE-02", { lot: packs });
  return Math.floor((packs * Math.trunc(share * 1000)) / 1000);
}

export function isScaleFineEnough(divisionG: number, largestG: number, labelG: number): boolean | null {
  const allowedG = maximumAllowableVariation(labelG);
  for (const weightG of [divisionG, largestG]) checkWeight(weightG);
  return allowedG === null ? null : isDivisionFineEnough(divisionG, largestG, allowedG);
}

export function isDivisionFineEnough(divisionG: number, largestG: number, allowedG: number): boolean {
  const { least_divisions, largest_share_of_mav } = netPlans.scale;
  return largestG >= least_divisions * divisionG && largest_share_of_mav * divisionG <= allowedG;
}
