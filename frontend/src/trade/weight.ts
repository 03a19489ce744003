// Mirror of inspections/trade/weight.py.

import type { CartonFacts } from "./facts";
import { againstItsLimit, finding, Judged } from "./findings";
import { glazedG, glazePercent } from "./glaze";
import { isFineFor, type Limits } from "./limits";
import { unitNetG, type Ordered } from "./specification";

export const MOST_UNITS_ON_SCALE = 1.5;

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

export function shortPercent(netG: number, declaredG: number): number {
  return (100 * (declaredG - netG)) / declaredG;
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
  judged.measure("net_weight", shortPercent(netG, declaredG), "NET-UNIT", limits.get("net_unit_short_percent"), facts);
}

function judgeGlazeFound(judged: Judged, carton: CartonFacts, ordered: Ordered, limits: Limits): void {
  const percent = glazeSharePercent(carton);
  judged.derived["glaze_percent"] = percent;
  if (percent === null) {
    const isBackwards = glazedWeightG(carton) !== null && carton.deglazed_g !== null;
    judged.checks["glaze"] = isBackwards ? "cannot_tell" : "not_checked";
    return;
  }
  const declared = ordered.declared_glaze_percent;
  if (declared === null) {
    judged.checks["glaze"] = "within";
    return;
  }
  const limit = limits.get("glaze_over_percent");
  const over = percent - declared;
  const fine = isFineFor(limit, over);
  judged.checks["glaze"] = fine ? "within" : "beyond";
  if (!fine) {
    const facts = { glaze_percent: percent, declared_percent: declared };
    judged.findings.push(againstItsLimit("GLAZE-OVER", limit, over, facts));
  }
}
