// Mirror of inspections/trade/verdict.py, where the order of the reasons is explained in words.

import { allowancesFor } from "./allowance";
import { cartonJson, judgeCarton, settledBy, type CartonJudged } from "./carton";
import { cartonCountFindings, vehicleFindings } from "./delivered";
import { deliveryWording, lineWording } from "./docket";
import { factsFromDocument, type DeliveryFacts, type LineFacts } from "./facts";
import { finding, type Finding } from "./findings";
import { nextStep } from "./following";
import { limitsFor, limitsFromJson, UnusableLimits, type Limits } from "./limits";
import { openedShown, singleStage, stagesOf } from "./opened";
import { LineJudged, splitFor, stepOf, suggestionOf } from "./outcome";
import { hasEnoughReadings, leftOutOf, neededFor, notCheckedIn, settledWords } from "./readiness";
import { reasonJson } from "./reasons";
import { unknownThermometers } from "./temperature";
import { specificationsFromJson, type Ordered } from "./specification";
import type { Allowance, Judgement, LineVerdict, Reason, Step, Suggestion, Unusable } from "./types";
import { compareWeight, weightKey, type Weight } from "./severity_ranking";
import { meanFindings } from "./weight";

export const JUDGEMENT_VERSION = 5;

/** Bad cartons that refuse the line by the plan that was used, as a finding of the line with that plan's source. */
function tally(line: LineJudged, limits: Limits): Finding[] {
  if (line.isWhole || !line.isOver(line.bad) || !line.isOver(line.shownBad)) return [];
  const { stages } = line;
  const own = limits.get("defective_cartons");
  const limit = stages.basis === null ? own : { ...own, basis: stages.basis };
  const isLast = line.cartons.length >= stages.total;
  const bound = isLast ? stages.last_acceptance : stages.rejection - 1;
  const facts = { opened: line.cartons.length };
  const { unit, sense } = limit;
  return [finding("DEFECTIVE-OVER", limit, { measured: line.bad, unit, bound, sense, facts })];
}

interface Weighed {
  weight: Weight;
  reason: Reason;
}

function inOrder(weighed: readonly Weighed[]): Reason[] {
  return [...weighed].sort((a, b) => compareWeight(a.weight, b.weight)).map((entry) => entry.reason);
}

function weighedOf(findings: readonly Finding[], position: number | null, place: number): Weighed[] {
  return findings.map((found) => ({
    weight: weightKey(found, place),
    reason: reasonJson(found, position, place >= 0),
  }));
}

function lineJson(line: LineJudged, ordered: Ordered, unchecked: readonly string[]): LineVerdict {
  const [step, suggestion, allowances] = suggested(line, ordered);
  const weighed = line.cartons.map((carton, place) => weighedOf(carton.judged.findings, carton.facts.position, place));
  const settled = settledWords(step);
  const needed = settled === "" ? line.needed : [];
  const leftOut = leftOutOf(line.facts, unchecked);
  const told = leftOut.map(({ check }) => check);
  const askedOf = settled === "" ? line.cartons.filter((carton) => settledBy(carton) === "") : [];
  const verdict = {
    line_id: line.facts.id,
    suggestion,
    step,
    reasons: inOrder([...weighedOf(line.lineFindings, null, -1), ...weighed.flat()]),
    needed,
    settled,
    unasked: unchecked.filter((name) => !needed.includes(name) && !told.includes(name)),
    left_out: leftOut,
    not_checked: notCheckedIn([...new Set([...needed, ...told])], askedOf, ordered),
    next: nextStep(line, suggestion),
    cartons: line.cartons.map((carton, place) => cartonJson(carton, inOrder(weighed[place]!))),
    sampling: openedShown(line.facts, line.stages, line.defective),
    allowance: allowances[0] ?? null,
    allowances,
    suggested_split: splitFor(line, suggestion),
  };
  return { ...verdict, wording: lineWording(verdict, line.facts, ordered.name) };
}

/** The step that decides, its suggestion, and the allowances that go with what is decided, or else with it. */
function suggested(line: LineJudged, ordered: Ordered): [Step, Suggestion, Allowance[]] {
  const { decision } = line.facts;
  const kept = decision?.accepted ?? splitFor(line, "accept_with_allowance")?.accepted ?? 0;
  const allowances = allowancesFor(line, ordered, kept);
  const step = stepOf(line, allowances.length > 0);
  const suggestion = suggestionOf(step, line);
  return [step, suggestion, (decision?.kind ?? suggestion) === "accept_with_allowance" ? allowances : []];
}

function judgeLine(line: LineFacts, ordered: Ordered, delivery: DeliveryFacts, limits: Limits, hasReadings: boolean): LineVerdict {
  const cartons = line.cartons.map((carton) => judgeCarton(carton, ordered, line.lot, delivery.arrived_day, limits));
  const stages = stagesOf(line, ordered);
  const findings = [
    ...cartonCountFindings(line, limits),
    ...meanFindings(line, ordered, limits),
    ...unknownThermometers(line.cartons, limits),
  ];
  const neededOf = (about: readonly CartonJudged[]): string[] =>
    neededFor(line, ordered, cartons, stages.planned, limits, hasReadings, about);
  const unchecked = neededOf(cartons);
  const needed = neededOf(cartons.filter((carton) => settledBy(carton) === ""));
  const leftOut = leftOutOf(line, unchecked).map(({ check }) => check);
  const open = needed.filter((name) => !leftOut.includes(name));
  const judged = new LineJudged(line, cartons, findings, open, stages);
  const tallied = new LineJudged(line, cartons, [...findings, ...tally(judged, limits)], open, stages);
  return lineJson(tallied, ordered, unchecked);
}

function unspecifiedLine(line: LineFacts): LineVerdict {
  const verdict = {
    line_id: line.id,
    suggestion: "not_yet" as const,
    step: "e" as const,
    reasons: [],
    needed: ["specification"],
    settled: "",
    unasked: [],
    left_out: [],
    not_checked: ["specification"],
    next: null,
    cartons: [],
    sampling: openedShown(line, singleStage(line.planned ?? 0, line.acceptance ?? 0, null), 0),
    allowance: null,
    allowances: [],
    suggested_split: null,
  };
  return { ...verdict, wording: lineWording(verdict, line, "") };
}

function limitsOf(ordered: Ordered, limits: Limits, unusable: Unusable[]): Limits {
  const overrides: Record<string, unknown> = { ...ordered.overrides };
  if (ordered.min_life_share !== null && !("life_share" in overrides)) {
    overrides["life_share"] = ordered.min_life_share;
  }
  try {
    return limitsFor(limits, overrides);
  } catch (problem) {
    if (!(problem instanceof UnusableLimits)) throw problem;
    const path = `specifications.${ordered.id}.overrides`;
    if (!unusable.some((entry) => entry.path === path)) {
      unusable.push({ path, code: "SPEC-01", facts: { limits_code: problem.code } });
    }
    return limits;
  }
}

/** Judge one delivery: the one entrance that everybody else uses. Throws UnusableLimits only. */
export function judgeDocument(document: unknown, specifications: unknown, limits: unknown): Judgement {
  const readLimits = limitsFromJson(limits);
  const delivery = factsFromDocument(document);
  const { byId, unusable: unusableSpecifications } = specificationsFromJson(specifications);
  const unusable = [...delivery.unusable, ...unusableSpecifications];
  const hasReadings = hasEnoughReadings(delivery, readLimits);
  const lines = delivery.lines.map((line) => {
    const ordered = byId.get(line.specification_id);
    if (ordered === undefined) return unspecifiedLine(line);
    return judgeLine(line, ordered, delivery, limitsOf(ordered, readLimits, unusable), hasReadings);
  });
  const vehicle = inOrder(weighedOf(vehicleFindings(delivery, readLimits), null, -1));
  return {
    judgement_version: JUDGEMENT_VERSION,
    limits_id: readLimits.id,
    unusable,
    vehicle: { reasons: vehicle },
    lines,
    wording: deliveryWording(delivery.docket_number, lines, vehicle),
  };
}
