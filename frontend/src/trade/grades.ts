// Mirror of inspections/trade/grades.py.

import sizes from "@trade-data/grades.json";
import { MAX_PIECES, UnusableGrade } from "./quantities";

export type Per = "lb" | "kg";
export type GapRule = "whole_prawn" | "literal";
export type GradeBasis = "as_packed" | "finished" | "peeled_from";
export type Grade = {
  kind: "range" | "under" | "over" | "broken";
  low: number | null;
  high: number | null;
  per: Per;
  is_per_stated: boolean;
  basis: GradeBasis;
  text: string;
};
export type Edges = { low: number | null; high: number | null; is_high_in: boolean };
export type PriceEffect = {
  basis: "prices" | "count";
  found: string;
  per_kg: number | null;
  percent: number | null;
};

export const SIZES = sizes;
export const GAP_RULE = sizes.gap_rule as GapRule;
export const GAP_RULES = sizes.gap_rules as GapRule[];
export const HEAD_ON = ["HOSO"];

const DASHES = /[\u2010\u2011\u2012\u2013\u2014\u2212]/g;
const BROKEN = /^(?:(?:soft(?: ?(?:and|&|\/|\+) ?broken)?|broken|s ?(?:&|and) ?b|brk)(?: pieces)?)$/;
const PER = / ?(?:(?:count|ct|pcs|pieces)\.? ?)?(?:per|to the|to a|to|\/|a)? ?(lbs?|pounds?|kgs?|kilos?|kilograms?|kilogrammes?)\.?$/;
const COUNT_WORD = / ?(?:count|ct|pcs|pieces)\.?$/;
const BASIS = /(?:^| )(peeled from|pf|finished count|finished|fc)(?:$| )/;
const UNDER = /^(?:(?:u|under|<|fewer than|less than) ?[/-]? ?([0-9]{1,4}))$/;
const OVER = /^(?:([0-9]{1,4}) ?(?:[/-] ?)?(?:ov|over|up|\+|and over|and up|or more)|(?:over|ov) ?[/-]? ?([0-9]{1,4}))$/;
const RANGE = /^(?:([0-9]{1,4}) ?(?:\/|-|to) ?([0-9]{1,4}))$/;

export const gradeUnit = (grade: Grade): string => `per_${grade.per}`;

export function customaryPer(presentation: string): Per {
  return HEAD_ON.includes(presentation) ? "kg" : "lb";
}

export function isSoftAndBroken(text: string): boolean {
  try {
    return parseGrade(text).kind === "broken";
  } catch (problem) {
    if (problem instanceof UnusableGrade) return false;
    throw problem;
  }
}

export function parseGrade(text: unknown, defaultPer: Per = "lb"): Grade {
  if (typeof text !== "string" || /^[ \t\u00a0]*$/.test(text)) throw new UnusableGrade("GRADE-01");
  const plain = text
    .replace(DASHES, "-")
    .replace(/\u00a0/g, " ")
    .replace(/\u2044/g, "/")
    .replace(/[A-Z]/g, (letter) => letter.toLowerCase())
    .replace(/[ \t]+/g, " ")
    .replace(/^ +| +$/g, "");
  if (BROKEN.test(plain)) {
    return {
      kind: "broken",
      low: null,
      high: null,
      per: defaultPer,
      is_per_stated: false,
      basis: "as_packed",
      text: "soft and broken",
    };
  }
  const [unbased, basis] = takeBasis(plain);
  const [rest, stated] = takePer(unbased);
  const { kind, low, high } = numbers(rest, text);
  const per = stated ?? defaultPer;
  return { kind, low, high, per, is_per_stated: stated !== null, basis, text: spelling(kind, low, high, per, basis) };
}

export function edgesOf(grade: Grade, gapRule: GapRule = GAP_RULE): Edges {
  if (!GAP_RULES.includes(gapRule) || grade.kind === "broken") {
    throw new Error(`No edges for ${grade.kind} under ${gapRule}.`);
  }
  const slack = gapRule === "whole_prawn" ? 0.5 : 0;
  const low = grade.low === null ? null : grade.low - slack;
  if (grade.kind === "under") return { low, high: grade.high! - slack, is_high_in: false };
  const high = grade.high === null ? null : grade.high + slack;
  return { low, high, is_high_in: gapRule === "literal" };
}

export function holds(edges: Edges, count: number): boolean {
  if (edges.low !== null && count < edges.low) return false;
  if (edges.high === null) return true;
  return edges.is_high_in ? count <= edges.high : count < edges.high;
}

export function gradeMet(count: number, per: Per, gapRule: GapRule = GAP_RULE): Grade | null {
  return LADDER[per].find((grade) => holds(edgesOf(grade, gapRule), count)) ?? null;
}

export function nearestGrade(count: number, per: Per, gapRule: GapRule = GAP_RULE): Grade {
  const met = gradeMet(count, per, gapRule);
  if (met !== null) return met;
  let best = LADDER[per][0]!;
  let bestDistance: number | null = null;
  for (const grade of LADDER[per]) {
    const distance = distanceTo(grade, count, gapRule);
    if (bestDistance === null || distance < bestDistance) [best, bestDistance] = [grade, distance];
  }
  return best;
}

export function distanceTo(grade: Grade, count: number, gapRule: GapRule = GAP_RULE): number {
  const edges = edgesOf(grade, gapRule);
  if (edges.low !== null && count < edges.low) return edges.low - count;
  if (edges.high !== null && count > edges.high) return count - edges.high;
  return 0;
}

export function priceEffect(ordered: Grade, count: number, prices: Record<string, number> | null = null): PriceEffect {
  const found = nearestGrade(count, ordered.per).text;
  const paid = prices?.[ordered.text];
  const worth = prices?.[found];
  if (paid !== undefined && worth !== undefined && paid > 0) {
    const less = paid - worth;
    return { basis: "prices", found, per_kg: less, percent: (less / paid) * 100 };
  }
  let percent: number | null = null;
  if (ordered.high !== null && count > ordered.high) percent = ((count - ordered.high) / ordered.high) * 100;
  else if (ordered.low !== null && count < ordered.low) percent = ((count - ordered.low) / ordered.low) * 100;
  return { basis: "count", found, per_kg: null, percent };
}

function takeBasis(rest: string): [string, GradeBasis] {
  const match = BASIS.exec(rest);
  if (match === null) return [rest, "as_packed"];
  const basis = match[1]![0] === "p" ? "peeled_from" : "finished";
  const left = `${rest.slice(0, match.index)} ${rest.slice(match.index + match[0].length)}`;
  return [left.replace(/^ +| +$/g, ""), basis];
}

function takePer(rest: string): [string, Per | null] {
  const match = PER.exec(rest);
  if (match !== null) return [rest.slice(0, match.index), match[1]![0] === "k" ? "kg" : "lb"];
  return [rest.replace(COUNT_WORD, ""), null];
}

function numbers(rest: string, text: string): Pick<Grade, "kind" | "low" | "high"> {
  let found: Pick<Grade, "kind" | "low" | "high">;
  let match: RegExpExecArray | null;
  if ((match = UNDER.exec(rest)) !== null) found = { kind: "under", low: null, high: Number(match[1]) };
  else if ((match = RANGE.exec(rest)) !== null) {
    found = { kind: "range", low: Number(match[1]), high: Number(match[2]) };
  } else if ((match = OVER.exec(rest)) !== null) {
    found = { kind: "over", low: Number(match[1] ?? match[2]), high: null };
  } else throw new UnusableGrade("GRADE-02", { entered: text });
  const { kind, low, high } = found;
  const stated = [low, high].filter((number) => number !== null);
  const isOutside = stated.some((number) => number < 1 || number > MAX_PIECES);
  if (isOutside || (low !== null && high !== null && low > high) || (kind === "under" && high! < 2)) {
    throw new UnusableGrade("GRADE-03", { entered: text });
  }
  return found;
}

function spelling(kind: Grade["kind"], low: number | null, high: number | null, per: Per, basis: GradeBasis): string {
  const sizes = kind === "under" ? `U/${high}` : kind === "over" ? `${low}/OV` : `${low}/${high}`;
  const tail = basis === "finished" ? " finished count" : basis === "peeled_from" ? " peeled from" : "";
  return sizes + (per === "kg" ? " per kg" : "") + tail;
}

type Row = { kind: string; low: number | null; high: number | null; per: string; text: string };
const fromRow = (row: Row): Grade => ({
  kind: row.kind as Grade["kind"],
  low: row.low,
  high: row.high,
  per: row.per as Per,
  is_per_stated: true,
  basis: "as_packed",
  text: row.text,
});

export const LADDER: Record<Per, Grade[]> = { lb: sizes.ladder.lb.map(fromRow), kg: sizes.ladder.kg.map(fromRow) };
