// Mirror of inspections/trade/readiness.py.

import type { CartonJudged } from "./carton";
import type { DeliveryFacts, LineFacts } from "./facts";
import type { Limits } from "./limits";
import { CHECKS } from "./registry";

const EVERY_CARTON = CHECKS.filter((check) => check.every_carton).map((check) => check.answers);

export function neededFor(line: LineFacts, cartons: CartonJudged[], planned: number, hasReadings: boolean): string[] {
  const needed: string[] = [];
  if (line.cartons_counted === null) needed.push("cartons_counted");
  if (cartons.length < planned) needed.push("cartons_opened");
  if (!hasReadings) needed.push("product_readings");
  for (const name of EVERY_CARTON) {
    if (cartons.some((carton) => carton.judged.checks[name] === "not_checked")) needed.push(name);
  }
  if (cartons.length > 0 && cartons.every((carton) => (carton.judged.derived["count_per_lb"] ?? null) === null)) {
    needed.push("count");
  }
  if (cartons.length > 0 && cartons.every((carton) => carton.facts.label === null)) needed.push("label");
  return needed;
}

export function notCheckedIn(needed: readonly string[], cartons: readonly CartonJudged[]): string[] {
  const names = [...needed];
  for (const carton of cartons) {
    for (const [name, state] of Object.entries(carton.judged.checks)) {
      if (state === "not_checked" && !names.includes(name)) names.push(name);
    }
  }
  return names;
}

export function hasEnoughReadings(delivery: DeliveryFacts, limits: Limits): boolean {
  const cartons = delivery.lines.flatMap((line) => line.cartons);
  const readings = cartons.filter((carton) => carton.product_c !== null && carton.probe !== "surface").length;
  return readings >= Math.min(limits.get("product_readings").bound ?? 0, cartons.length);
}
