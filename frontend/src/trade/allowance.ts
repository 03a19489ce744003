// Mirror of inspections/trade/allowance.py.

import type { CartonJudged } from "./carton";
import type { LineFacts } from "./facts";
import type { Finding } from "./findings";
import type { Ordered } from "./specification";
import type { Allowance } from "./types";
import { counted, filled, shownMeasure, WORDS } from "./wording";

function allowance(
  basis: Allowance["basis"],
  quantity: number,
  unit: Allowance["unit"],
  places: Record<string, string>,
  words: string = basis,
): Allowance {
  return { basis, quantity, unit, formula: filled((WORDS["allowance"] as Record<string, string>)[words]!, places) };
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

function shortWeight(
  ordered: Ordered,
  cartons: readonly CartonJudged[],
  lineFindings: readonly Finding[],
  kept: number,
): Allowance | null {
  const mean = lineFindings.find((found) => found.code === "NET-MEAN");
  if (mean !== undefined) return shortMean(mean, ordered, kept);
  let shortG = 0;
  let units = 0;
  for (const found of cartons.flatMap((carton) => carton.judged.findings)) {
    if (found.code === "NET-UNIT" && found.measured !== null) {
      shortG = shortG + found.measured;
      units = units + 1;
    }
  }
  if (units === 0) return null;
  const places = { units: counted(units, "unit"), quantity: shownMeasure(shortG / 1000, "kg") };
  return allowance("short_weight", shortG / 1000, "kg", places, "short_units");
}

function shortMean(found: Finding, ordered: Ordered, kept: number): Allowance {
  const quantity = ((found.measured ?? 0) * ordered.units_per_carton * kept) / 1000;
  return allowance("short_weight", quantity, "kg", {
    declared_g: shownMeasure(found.facts["declared_g"] as number, "g"),
    mean_g: shownMeasure(found.facts["mean_g"] as number, "g"),
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
  lineFindings: readonly Finding[],
  kept: number,
): Allowance[] {
  const found = [
    shortCartons(line),
    shortWeight(ordered, cartons, lineFindings, kept),
    smallerGrade(cartons),
    broken(cartons),
  ];
  return found.filter((one) => one !== null);
}
