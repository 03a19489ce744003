// Mirror of inspections/trade/readiness.py.

import type { CartonJudged } from "./carton";
import { numberSeen } from "./checks";
import type { DeliveryFacts, LineFacts } from "./facts";
import { isFineFor, type Limits } from "./limits";
import { LABEL_CHECKS } from "./labels";
import { CHECKS, isOffered, isWaitedFor } from "./registry";
import { orderedSoftAndBroken, WITHOUT_MARKS, type Ordered } from "./specification";
import { countsAsReading } from "./temperature";
import type { Step } from "./types";
import { word } from "./wording";

const NEVER_LEFT_OUT = ["specification", "cartons_counted", "cartons_opened", "product_readings", "temperature_sign"];
/** Offered under “More checks”, asked of nobody. */
export const offeredFor = (ordered: object): string[] => [
  ...["net_weight", "glaze", "uniformity"],
  ...CHECKS.filter((check) => isOffered(check, ordered)).map((check) => check.answers),
];
const ONCE_A_LINE = ["odour", "count", "marks", "species", ...LABEL_CHECKS];
const ASKED_BY = [
  ["TEMP-SIGN", "temperature_sign"],
  ["TEMP-BETWEEN", "core_reading"],
  ["PIECES-UNSURE", "more_pieces"],
  ["LABEL-DATES", "dates_again"],
] as const;

export function cartonChecks(ordered: Ordered): string[] {
  return CHECKS.filter((check) => isWaitedFor(check, ordered)).map((check) => check.answers);
}

export function canBeLeftOut(check: string): boolean {
  return !NEVER_LEFT_OUT.includes(check);
}

const codesOf = (carton: CartonJudged): string[] => carton.judged.findings.map((found) => found.code);
const isOpen = (carton: CartonJudged, name: string): boolean => (carton.judged.checks[name] ?? "not_checked") === "not_checked";

export function neededFor(
  line: LineFacts,
  ordered: Ordered,
  cartons: readonly CartonJudged[],
  planned: number,
  limits: Limits,
  hasReadings: boolean,
  about: readonly CartonJudged[],
): string[] {
  const needed: string[] = [];
  if (line.cartons_counted === null) needed.push("cartons_counted");
  if (cartons.length < planned) needed.push("cartons_opened");
  const codes = new Set(about.flatMap(codesOf));
  if (!hasReadings && !codes.has("TEMP-SIGN")) needed.push("product_readings");
  needed.push(...cartonChecks(ordered).filter((name) => about.some((carton) => isOpen(carton, name))));
  if (about.length > 0) {
    needed.push(...onceALine(ordered, cartons));
    needed.push(...ASKED_BY.filter(([code]) => codes.has(code)).map(([, name]) => name));
    needed.push(...askedAgain(about, codes, limits));
  }
  return needed;
}

/** What ends the questions of a line, in words, from its step: a hazard, or that it is refused. */
export function settledWords(step: Step): string {
  return step === "a" || step === "b" ? word("settled", step === "a" ? "hazard" : "refused") : "";
}

function onceALine(ordered: Ordered, cartons: readonly CartonJudged[]): string[] {
  const every = (name: string): boolean => cartons.every((carton) => isOpen(carton, name));
  const needed = every("odour") ? ["odour"] : [];
  const isUncounted = cartons.every((carton) => (carton.judged.derived["count_per_lb"] ?? null) === null);
  if (!orderedSoftAndBroken(ordered) && isUncounted) needed.push("count");
  if (cartons.every((carton) => carton.facts.label === null)) needed.push("label");
  if (!WITHOUT_MARKS.includes(ordered.presentation) && every("marks")) needed.push("marks");
  return needed;
}

function askedAgain(cartons: readonly CartonJudged[], codes: ReadonlySet<string>, limits: Limits): string[] {
  const asked: string[] = [];
  const lookedAt = cartons.map((carton) => numberSeen(carton.facts.seen, "looked_at")).filter((number) => number !== null);
  const sum = lookedAt.reduce((total, number) => total + number, 0);
  if (lookedAt.length > 0 && !codes.has("PIECES-UNSURE") && !isFineFor(limits.get("looked_at"), sum)) {
    asked.push("more_pieces");
  }
  const isTold = (name: string): boolean =>
    cartons.some(({ judged }) => judged.checks[name] === "within" || judged.checks[name] === "beyond");
  if (codes.has("COUNT-UNSURE") && !isTold("count")) asked.push("count_more");
  if (codes.has("NET-UNLIKELY") && !isTold("net_weight")) asked.push("net_again");
  const slight = cartons.filter((carton) => codesOf(carton).includes("ODOUR-SLIGHT"));
  if (slight.some((carton) => carton.facts.seen["odour_taken"] !== "thawed")) asked.push("odour_thawed");
  return asked;
}

export function leftOutOf(line: LineFacts, needed: readonly string[]): { check: string; reason: string }[] {
  const reasons = new Map(line.left_out);
  return needed.filter((name) => reasons.has(name) && canBeLeftOut(name)).map((name) => ({ check: name, reason: reasons.get(name)! }));
}

export function notCheckedIn(needed: readonly string[], cartons: readonly CartonJudged[], ordered: Ordered): string[] {
  const names = [...needed];
  const offered = offeredFor(ordered);
  for (const carton of cartons) {
    for (const name of Object.keys(carton.judged.checks)) {
      const askedOf = ONCE_A_LINE.includes(name) ? cartons : [carton];
      if (![...offered, ...names].includes(name) && askedOf.every((one) => isOpen(one, name))) names.push(name);
    }
    const { odour, odour_taken: taken } = carton.facts.seen;
    if (odour !== null && taken === null && !names.includes("odour_taken")) names.push("odour_taken");
  }
  return names;
}

export function hasEnoughReadings(delivery: DeliveryFacts, limits: Limits): boolean {
  const cartons = delivery.lines.flatMap((line) => line.cartons);
  const readings = cartons.filter((carton) => countsAsReading(carton, limits)).length;
  return readings >= Math.min(limits.get("product_readings").bound ?? 0, cartons.length);
}
