// Mirror of inspections/trade/allowance.py.

import type { CartonJudged } from "./carton";
import type { LineFacts } from "./facts";
import { unitNetG, type Ordered } from "./specification";
import type { Allowance } from "./types";
import { isOneUnit } from "./weight";
import { counted, filled, shownMeasure, WORDS } from "./wording";

export interface MeanNet {
  mean_g: number;
  units: number;
}

export function meanNet(line: LineFacts, ordered: Ordered): MeanNet | null {
  let totalG = 0;
  let units = 0;
  for (const carton of line.cartons) {
    if (carton.deglazed_g !== null && isOneUnit(carton.deglazed_g, ordered)) {
      totalG = totalG + carton.deglazed_g;
      units = units + 1;
    }
  }
  return units === 0 ? null : { mean_g: totalG / units, units };
}

function allowance(
  basis: Allowance["basis"],
  quantity: number,
  unit: Allowance["unit"],
  places: Record<string, string>,
): Allowance {
  return { basis, quantity, unit, formula: filled((WORDS["allowance"] as Record<string, string>)[basis]!, places) };
}

function shortCartons(line: LineFacts): Allowance | null {
  const { cartons_on_docket: docket, cartons_counted: found } = line;
  if (docket === null || found === null || found >= docket) return null;
  const quantity = counted(docket - found, "carton");
  return allowance("short_cartons", docket - found, "cartons", {
    docket: String(docket),
    counted: String(found),
    quantity,
  });
}

function shortWeight(line: LineFacts, ordered: Ordered, kept: number, maxPercent: number): Allowance | null {
  const mean = meanNet(line, ordered);
  const declaredG = unitNetG(ordered);
  if (mean === null || !((100 * (declaredG - mean.mean_g)) / declaredG > maxPercent)) return null;
  const quantity = ((declaredG - mean.mean_g) * ordered.units_per_carton * kept) / 1000;
  return allowance("short_weight", quantity, "kg", {
    declared_g: shownMeasure(declaredG, "g"),
    mean_g: shownMeasure(mean.mean_g, "g"),
    units: String(ordered.units_per_carton),
    cartons: counted(kept, "carton"),
    quantity: shownMeasure(quantity, "kg"),
  });
}

function smallerGrade(cartons: readonly CartonJudged[]): Allowance | null {
  let total = 0;
  let cartonsBeyond = 0;
  let bound = 0;
  let unit = "per_lb";
  for (const found of cartons.flatMap((carton) => carton.judged.findings)) {
    if (found.code === "COUNT-BEYOND" && found.sense !== "at_least" && found.bound !== null) {
      total = total + (found.measured ?? 0);
      cartonsBeyond = cartonsBeyond + 1;
      bound = found.bound;
      unit = found.unit ?? unit;
    }
  }
  if (cartonsBeyond === 0) return null;
  const mean = total / cartonsBeyond;
  const percent = (100 * (mean - bound)) / bound;
  return allowance("grade", percent, "percent", {
    count: shownMeasure(mean, unit),
    bound: shownMeasure(bound, unit),
    quantity: shownMeasure(percent, "percent"),
  });
}

function broken(cartons: readonly CartonJudged[]): Allowance | null {
  for (const found of cartons.flatMap((carton) => carton.judged.findings)) {
    if (found.code === "BROKEN-NOTE" && found.measured !== null && found.bound !== null) {
      const points = 100 * found.measured - 100 * found.bound;
      return allowance("broken", points, "percent", {
        share: shownMeasure(found.measured, "share"),
        bound: shownMeasure(found.bound, "share"),
        quantity: shownMeasure(points, "points"),
      });
    }
  }
  return null;
}

export function allowancesFor(
  line: LineFacts,
  ordered: Ordered,
  cartons: readonly CartonJudged[],
  kept: number,
  maxShortPercent: number,
): Allowance[] {
  const found = [
    shortCartons(line),
    shortWeight(line, ordered, kept, maxShortPercent),
    smallerGrade(cartons),
    broken(cartons),
  ];
  return found.filter((one) => one !== null);
}
