// Mirror of inspections/trade/outcome.py, where the steps are explained in words.

import { isDefective, leadsTo, type CartonJudged } from "./carton";
import type { LineFacts } from "./facts";
import type { Finding } from "./findings";
import type { Stages } from "./opened";
import { isShown } from "./pooled";
import { whoseLimit } from "./reasons";
import type { LineVerdict, Step, Suggestion } from "./types";
import { effect, HAZARDS, HOLDS, isSerious } from "./severity_ranking";

export class LineJudged {
  readonly facts: LineFacts;
  readonly cartons: readonly CartonJudged[];
  readonly lineFindings: readonly Finding[];
  readonly needed: string[];
  readonly stages: Stages;
  readonly findings: readonly Finding[];
  readonly bad: number;
  readonly shownBad: number;

  constructor(facts: LineFacts, cartons: readonly CartonJudged[], lineFindings: readonly Finding[], needed: string[], stages: Stages) {
    this.facts = facts;
    this.cartons = cartons;
    this.lineFindings = lineFindings;
    this.needed = needed;
    this.stages = stages;
    this.findings = [...lineFindings, ...cartons.flatMap((carton) => carton.judged.findings)];
    this.bad = this.count("unfit", "defect");
    this.shownBad = cartons.filter((carton) => this.isShownBad(carton)).length;
  }

  get defective(): number {
    return this.cartons.filter(isDefective).length;
  }

  get isWhole(): boolean {
    const counted = this.facts.cartons_counted;
    return counted !== null && counted > 0 && this.cartons.length >= counted;
  }

  get isSorted(): boolean {
    const { cartons_counted: counted, sorted_by_label: told } = this.facts;
    return counted !== null && told !== null && told.read >= counted;
  }

  count(...effects: string[]): number {
    return this.cartons.filter((carton) => leadsTo(carton, ...effects)).length;
  }

  private isShownBad(carton: CartonJudged): boolean {
    if (leadsTo(carton, "unfit")) return true;
    return carton.judged.findings.some((found) => effect(found) === "defect" && isShown(found, this.cartons));
  }

  get isLowThroughout(): boolean {
    return this.cartons.length > 0 && this.bad === this.cartons.length && this.shownBad === 0;
  }

  get isClumped(): boolean {
    const clumped = this.findings.filter((found) => found.code === "CLUMPED" && effect(found) === "quality");
    return this.cartons.length > 0 && clumped.length === this.cartons.length;
  }

  get isHazard(): boolean {
    return this.findings.some((found) => HAZARDS.has(found.code));
  }

  isRefused(carton: CartonJudged): boolean {
    if (leadsTo(carton, "unfit", "sort_refuse")) return true;
    if (!leadsTo(carton, "defect")) return false;
    if (this.isShownBad(carton) || (this.isWhole && isDefectiveAsPublished(carton))) return true;
    return !(this.isWhole || this.isLowThroughout);
  }

  isOver(bad: number): boolean {
    const { stages } = this;
    const opened = this.cartons.length;
    if (bad === 0) return false;
    if (opened >= stages.planned && bad === opened) return true;
    return bad >= stages.rejection || (opened >= stages.total && bad > stages.last_acceptance);
  }

  get isSecondStageDue(): boolean {
    const { stages } = this;
    return this.bad > stages.acceptance && this.cartons.length < stages.total && !this.isLowThroughout;
  }
}

function isLineRefused(line: LineJudged): boolean {
  const { cartons } = line;
  if (line.isWhole) return cartons.every((carton) => line.isRefused(carton));
  const { cartons_counted: counted, sorted_by_label: told } = line.facts;
  const differing = line.count("sort_refuse");
  if (differing > 0 && cartons.length >= line.stages.planned && differing === cartons.length) return true;
  if (differing > 0 && line.isSorted && told !== null && told.differ >= (counted ?? 0)) return true;
  return line.isOver(line.bad) && line.isOver(line.shownBad);
}

/** A published limit makes it a defective unit by the count as it is, chance or not (CXS 92 §8). */
function isDefectiveAsPublished(carton: CartonJudged): boolean {
  return carton.judged.findings.some((found) => effect(found) === "defect" && whoseLimit(found) === "published");
}

function isLineHeld(line: LineJudged): boolean {
  const isHold = (found: Finding): boolean => HOLDS.includes(effect(found));
  if (line.isWhole) {
    const left = line.cartons.filter((carton) => !line.isRefused(carton));
    const areHeld = left.length > 0 && left.every((carton) => leadsTo(carton, ...HOLDS, "sort_hold"));
    return line.lineFindings.some(isHold) || areHeld;
  }
  const papers = line.count("sort_hold");
  const isAll = papers > 0 && papers === line.cartons.length && papers >= line.stages.planned;
  return isAll || line.count("unfit") > 0 || line.findings.some(isHold);
}

export function hasMoreToDo(line: LineJudged): boolean {
  if (line.isWhole) return false;
  return line.isSecondStageDue || (line.count("sort_refuse", "sort_hold") > 0 && !line.isSorted);
}

const SUGGESTIONS: Readonly<Record<Step, Suggestion>> = {
  a: "hold",
  b: "reject",
  c: "hold",
  d: "not_yet",
  e: "not_yet",
  f: "accept_with_allowance",
  g: "accept",
};

export function suggestionOf(step: Step, line: LineJudged): Suggestion {
  return step === "d" && line.facts.declined ? "hold" : SUGGESTIONS[step];
}

export function stepOf(line: LineJudged, hasAllowance: boolean): Step {
  if (line.isHazard) return "a";
  if (isLineRefused(line)) return "b";
  if (isLineHeld(line)) return "c";
  if (hasMoreToDo(line)) return "d";
  if (line.needed.length > 0) return "e";
  const isLess = line.isClumped || line.findings.some((found) => isSerious(found) && ["value", "wrap"].includes(effect(found)));
  const isSetAside = line.cartons.some((carton) => line.isRefused(carton) || leadsTo(carton, ...HOLDS, "sort_hold"));
  return isLess || isSetAside || hasAllowance ? "f" : "g";
}

export function splitFor(line: LineJudged, suggestion: Suggestion): LineVerdict["suggested_split"] {
  const counted = line.facts.cartons_counted;
  if (counted === null || suggestion === "not_yet") return null;
  if (suggestion === "reject") return { accepted: 0, refused: counted, held: 0 };
  const [knownRefused, knownHeld] = setAside(line);
  let refused = Math.min(knownRefused, counted);
  const held = Math.min(knownHeld, Math.max(0, counted - refused));
  if (suggestion === "hold") {
    const isKnownApart = (line.facts.declined !== "" || line.isWhole) && !line.isHazard;
    refused = isKnownApart ? refused : 0;
    return { accepted: 0, refused, held: counted - refused };
  }
  return { accepted: counted - refused - held, refused, held };
}

function setAside(line: LineJudged): [refused: number, held: number] {
  const refused = line.cartons.filter((carton) => line.isRefused(carton));
  const held = line.cartons.filter((carton) => !line.isRefused(carton) && leadsTo(carton, ...HOLDS, "sort_hold"));
  const told = line.facts.sorted_by_label;
  if (told === null) return [refused.length, held.length];
  const byLabel = refused.filter((carton) => leadsTo(carton, "sort_refuse")).length;
  if (line.count("sort_refuse") > 0) return [refused.length + Math.max(0, told.differ - byLabel), held.length];
  return [refused.length, Math.max(held.length, told.differ)];
}
