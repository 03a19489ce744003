// Mirror of inspections/trade/allowance.py.

import type { CartonJudged } from "./carton";
import type { LineFacts } from "./facts";
import type { Finding } from "./findings";
import { isFineFor } from "./limits";
import type { LineJudged } from "./outcome";
import { KIND_OF, pooledOf } from "./pooled";
import type { Ordered } from "./specification";
import type { Allowance, Limit } from "./types";
import { effect, isSerious } from "./severity_ranking";
import { counted, filled, shownMeasure, word, WORDS } from "./wording";

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

function shortWeight(ordered: Ordered, cartons: readonly CartonJudged[], lineFindings: readonly Finding[], kept: number): Allowance | null {
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
    if (found.code === "COUNT-BEYOND" && found.bound !== null) {
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

function lessOnTheLabel(line: LineJudged, kept: number): Allowance | null {
  const stated = line.cartons.flatMap((carton) => carton.judged.findings).filter((found) => found.code === "LABEL-NET" && isSerious(found));
  if (stated.length === 0 || stated.length < line.cartons.length) return null;
  let shortG = 0;
  for (const { facts } of stated) shortG = shortG + ((facts["ordered_g"] as number) - (facts["found_g"] as number));
  const meanG = shortG / stated.length;
  const quantity = (meanG * kept) / 1000;
  return allowance("label_weight", quantity, "kg", {
    mean_g: shownMeasure(meanG, "g"),
    cartons: counted(kept, "carton"),
    quantity: shownMeasure(quantity, "kg"),
  });
}

function quality(line: LineJudged): Allowance[] {
  const given: Allowance[] = [];
  for (const [kind, { limit, isLow }] of kindsOf(line)) {
    const together = pooledOf(line.cartons, kind);
    if (together === null || limit.bound === null || isFineFor(limit, together.share)) continue;
    if (!isLow && isFineFor(limit, together.low)) continue;
    const points = 100 * together.share - 100 * limit.bound;
    given.push(
      allowance("quality", points, "percent", {
        what: word("not_checked", kind),
        share: shownMeasure(together.share, "share"),
        bound: shownMeasure(limit.bound, "share"),
        quantity: shownMeasure(points, "points"),
      }),
    );
  }
  return given;
}

function kindsOf(line: LineJudged): Map<string, { limit: Limit; isLow: boolean }> {
  const found = new Map<string, { limit: Limit; isLow: boolean }>();
  for (const one of line.cartons.flatMap((carton) => carton.judged.findings)) {
    const kind = KIND_OF.get(one.code);
    const isLow = line.isLowThroughout && effect(one) === "defect";
    if (kind !== undefined && !found.has(kind) && (effect(one) === "quality" || isLow)) {
      found.set(kind, { limit: one.limit, isLow });
    }
  }
  return found;
}

function uneven(line: LineJudged): Allowance | null {
  const ratios = line.cartons.map(({ judged }) => judged.derived["uniformity"] ?? null).filter((one) => one !== null);
  const past = line.cartons
    .flatMap((carton) => carton.judged.findings)
    .filter((found) => found.code === "UNIFORMITY" && effect(found) === "quality");
  if (past.length === 0 || 2 * past.length <= ratios.length) return null;
  const bound = past[0]!.bound || 1;
  let total = 0;
  for (const ratio of ratios) total = total + ratio;
  const mean = total / ratios.length;
  const percent = (100 * (mean - bound)) / bound;
  const places = {
    ratio: shownMeasure(mean, "ratio"),
    bound: shownMeasure(bound, "ratio"),
    quantity: shownMeasure(percent, "percent"),
  };
  return percent > 0 ? allowance("uniformity", percent, "percent", places) : null;
}

export function allowancesFor(line: LineJudged, ordered: Ordered, kept: number): Allowance[] {
  const found = [
    shortCartons(line.facts),
    shortWeight(ordered, line.cartons, line.lineFindings, kept),
    lessOnTheLabel(line, kept),
    smallerGrade(line.cartons),
    ...quality(line),
    uneven(line),
  ];
  return found.filter((one) => one !== null);
}
