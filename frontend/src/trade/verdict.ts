// Mirror of inspections/trade/verdict.py, where the order of the reasons is explained in words.

import { allowancesFor } from "./allowance";
import { cartonJson, isDefective, judgeCarton, type CartonJudged } from "./carton";
import { cartonCountFindings, vehicleFindings } from "./delivered";
import { deliveryWording, lineWording } from "./docket";
import { factsFromDocument, type DeliveryFacts, type LineFacts } from "./facts";
import { finding, type Finding } from "./findings";
import { limitsFor, limitsFromJson, UnusableLimits, type Limits } from "./limits";
import { openedShown, plannedAndAcceptance } from "./opened";
import { unknownThermometers } from "./temperature";
import { hasEnoughReadings, neededFor, notCheckedIn } from "./readiness";
import { reasonJson } from "./reasons";
import { specificationsFromJson, type Ordered } from "./specification";
import type { Allowance, Judgement, LineVerdict, Reason, Suggestion, Unusable } from "./types";
import { compareWeight, DOUBTS, HAZARDS, isSerious, SHORT_VALUE, SUBSTITUTIONS, weightKey, type Weight } from "./weighing";
import { meanFindings } from "./weight";

export const JUDGEMENT_VERSION = 2;

interface LineJudged {
  facts: LineFacts;
  cartons: CartonJudged[];
  lineFindings: Finding[];
  needed: string[];
  planned: number;
  acceptance: number;
}

const defectiveOf = (cartons: readonly CartonJudged[]): number => cartons.filter(isDefective).length;

export function suggestionFor(line: LineJudged, hasAllowance: boolean): Suggestion {
  const findings = [...line.lineFindings, ...line.cartons.flatMap((carton) => carton.judged.findings)];
  const serious = findings.filter(isSerious);
  const defective = defectiveOf(line.cartons);
  if (findings.some((found) => HAZARDS.has(found.code))) return "hold";
  if (serious.some((found) => found.limit.severity === "critical" || SUBSTITUTIONS.has(found.code))) return "reject";
  if (defective > line.acceptance) return "reject";
  if (serious.some((found) => DOUBTS.has(found.code))) return "hold";
  if (line.needed.length > 0) return "not_yet";
  const hasShortValue = serious.some((found) => SHORT_VALUE.has(found.code));
  if (defective > 0 || hasAllowance || hasShortValue) return "accept_with_allowance";
  return "accept";
}

function tally(cartons: readonly CartonJudged[], acceptance: number, limits: Limits): Finding[] {
  const measured = defectiveOf(cartons);
  if (measured <= acceptance) return [];
  const limit = limits.get("defective_cartons");
  const facts = { opened: cartons.length };
  return [
    finding("DEFECTIVE-OVER", limit, { measured, unit: limit.unit, bound: acceptance, sense: limit.sense, facts }),
  ];
}

function splitFor(line: LineJudged, suggestion: Suggestion): LineVerdict["suggested_split"] {
  const counted = line.facts.cartons_counted;
  if (counted === null || suggestion === "not_yet") return null;
  if (suggestion === "hold") return { accepted: 0, refused: 0, held: counted };
  if (suggestion === "reject") return { accepted: 0, refused: counted, held: 0 };
  const refused = suggestion === "accept_with_allowance" ? Math.min(defectiveOf(line.cartons), counted) : 0;
  return { accepted: counted - refused, refused, held: 0 };
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

function allowancesShown(allowances: Allowance[], suggestion: Suggestion): Pick<LineVerdict, "allowance" | "allowances"> {
  const shown = suggestion === "accept_with_allowance" ? allowances : [];
  return { allowance: shown[0] ?? null, allowances: shown };
}

function lineJson(line: LineJudged, ordered: Ordered): LineVerdict {
  const defective = defectiveOf(line.cartons);
  const kept = Math.max(0, (line.facts.cartons_counted ?? 0) - defective);
  const allowances = allowancesFor(line.facts, ordered, line.cartons, line.lineFindings, kept);
  const suggestion = suggestionFor(
    line,
    allowances.some((allowance) => allowance.basis !== "broken"),
  );
  const weighed = line.cartons.map((carton, place) =>
    weighedOf(carton.judged.findings, carton.facts.position, place),
  );
  const verdict = {
    line_id: line.facts.id,
    suggestion,
    reasons: inOrder([...weighedOf(line.lineFindings, null, -1), ...weighed.flat()]),
    needed: line.needed,
    not_checked: notCheckedIn(line.needed, line.cartons),
    cartons: line.cartons.map((carton, place) => cartonJson(carton, inOrder(weighed[place]!))),
    sampling: openedShown(line.facts, line.planned, line.acceptance, defective),
    ...allowancesShown(allowances, suggestion),
    suggested_split: splitFor(line, suggestion),
  };
  return { ...verdict, wording: lineWording(verdict, line.facts, ordered.name) };
}

function judgeLine(
  line: LineFacts,
  ordered: Ordered,
  delivery: DeliveryFacts,
  limits: Limits,
  hasReadings: boolean,
): LineVerdict {
  const cartons = line.cartons.map((carton) => judgeCarton(carton, ordered, line.lot, delivery.arrived_day, limits));
  const [planned, acceptance] = plannedAndAcceptance(line, ordered);
  const lineFindings = [
    ...tally(cartons, acceptance, limits),
    ...cartonCountFindings(line, limits),
    ...meanFindings(line, ordered, limits),
    ...unknownThermometers(line.cartons, limits),
  ];
  const needed = neededFor(line, cartons, planned, hasReadings);
  return lineJson({ facts: line, cartons, lineFindings, needed, planned, acceptance }, ordered);
}

function unspecifiedLine(line: LineFacts): LineVerdict {
  const verdict = {
    line_id: line.id,
    suggestion: "not_yet" as const,
    reasons: [],
    needed: ["specification"],
    not_checked: ["specification"],
    cartons: [],
    sampling: openedShown(line, line.planned, line.acceptance ?? 0, 0),
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
