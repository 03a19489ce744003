// Mirror of inspections/trade/species.py.

import table from "@trade-data/species.json";
import { trimmed } from "./entries";
import type { CartonFacts } from "./carton_facts";
import { finding, Judged } from "./findings";
import type { Limits } from "./limits";
import { Unusable } from "./quantities";

export type TraitValue = boolean | string | null;
export type KeyAnswers = Record<string, TraitValue>;
export interface KeyQuestion {
  trait: string;
  view: "shell_on" | "head_on";
  question: string;
  drawings: Record<string, string>;
  answers: Record<string, boolean | string>;
  cv: string;
  known: string;
}
export interface NaturalColour {
  banded: boolean;
  dark: boolean;
  red: boolean;
  words: string;
}
export interface Species {
  code: string;
  name: string;
  scientific_name: string;
  split_names: string[];
  family: string;
  is_codex_family: boolean;
  names: Record<string, string>;
  names_known: string;
  teeth: string;
  source: string[];
  regions: string;
  head_on: string[];
  headless: string[];
  mistaken_for: string[];
  traits: Record<string, TraitValue>;
  natural: NaturalColour;
  cv: string;
  known: string;
}
export interface Mark {
  words: string;
  view: string;
  drawing: string | null;
  known: string;
}

export const TABLE = table as unknown as {
  species: Species[];
  marks: Record<string, Mark>;
  key: KeyQuestion[];
  shell_on: string[];
  head_on: string[];
  max_questions: number;
};
export const BY_CODE: ReadonlyMap<string, Species> = new Map(TABLE.species.map((species) => [species.code, species]));
export const MARKS = TABLE.marks;
export const KEY = TABLE.key;

export class UnusableAnswer extends Unusable {}

export function asciiLower(text: string): string {
  return text.replace(/[A-Z]/g, (sign) => String.fromCharCode(sign.charCodeAt(0) + 32));
}

export function speciesCode(text: string): string {
  const upper = trimmed(text).replace(/[a-z]/g, (sign) => String.fromCharCode(sign.charCodeAt(0) - 32));
  return /^[A-Z]{3}$/.test(upper) ? upper : "";
}

const CODE_BY_NAME = new Map(
  TABLE.species.flatMap((species) =>
    [species.scientific_name, ...species.split_names].map((name) => [asciiLower(name), species.code] as const),
  ),
);

export function codeOfName(scientificName: string): string {
  const words = asciiLower(scientificName)
    .split(/[ \t\r\n]+/)
    .filter((part) => part !== "");
  return CODE_BY_NAME.get(words.join(" ")) ?? "";
}

export function candidates(answers: KeyAnswers): string[] {
  for (const [trait, value] of Object.entries(answers)) {
    if (value !== null && !isAnswer(trait, value)) throw new UnusableAnswer("KEY-01", { trait });
  }
  return TABLE.species.filter((species) => fits(species, answers)).map((species) => species.code);
}

function isAnswer(trait: string, value: boolean | string): boolean {
  return KEY.some((row) => row.trait === trait && Object.values(row.answers).includes(value));
}

function fits(species: Species, answers: KeyAnswers): boolean {
  return Object.entries(answers).every(([trait, value]) => {
    const own = species.traits[trait] ?? null;
    return value === null || own === null || own === value;
  });
}

function largestRest(question: KeyQuestion, answers: KeyAnswers): number {
  return Math.max(...Object.values(question.answers).map((value) => candidates({ ...answers, [question.trait]: value }).length));
}

export function nextQuestion(answers: KeyAnswers, presentation: string): KeyQuestion | null {
  const rest = candidates(answers).length;
  const asked = Object.keys(answers);
  if (!TABLE.shell_on.includes(presentation) || asked.length >= TABLE.max_questions || rest < 2) return null;
  const hasHead = TABLE.head_on.includes(presentation);
  let best: KeyQuestion | null = null;
  let bestRest = rest;
  for (const row of KEY) {
    if (asked.includes(row.trait) || (!hasHead && row.view === "head_on")) continue;
    const left = largestRest(row, answers);
    if (left < bestRest) [best, bestRest] = [row, left];
  }
  return best;
}

export function marksToCheck(code: string, presentation: string): string[] {
  const species = BY_CODE.get(code);
  if (species === undefined || !TABLE.shell_on.includes(presentation)) return [];
  return [...(TABLE.head_on.includes(presentation) ? species.head_on : []), ...species.headless];
}

export function shownName(code: string): string {
  const species = BY_CODE.get(code);
  if (species === undefined) return code;
  return speciesCode(code) === "" ? species.name : `${species.name} (${code})`;
}

export function judgeSpecies(carton: CartonFacts, ordered: string, limits: Limits): Judged {
  const judged = new Judged();
  judgeLabel(judged, carton, ordered, limits);
  const facts = { ordered: shownName(ordered) };
  if (carton.marks === null) {
    judged.leave("marks");
  } else if (carton.marks === "unsure") {
    judged.checks["marks"] = "cannot_tell";
    judged.findings.push(finding("SPECIES-UNSURE", limits.get("species.unsure"), { facts }));
  } else {
    judged.see("marks", carton.marks === "disagree", "SPECIES-MARKS", limits.get("species.marks"), facts);
  }
  return judged;
}

function judgeLabel(judged: Judged, carton: CartonFacts, ordered: string, limits: Limits): void {
  const label = carton.label;
  if (label === null || (label.species_code === "" && label.scientific_name === "")) {
    judged.leave("species");
    return;
  }
  const coded = BY_CODE.has(label.species_code) ? label.species_code : speciesCode(label.species_code);
  const isSettling = speciesCode(ordered) !== "" || BY_CODE.has(coded);
  const stated = [isSettling ? coded : "", codeOfName(label.scientific_name)].filter((code) => code !== "");
  if (stated.length === 0) {
    judged.checks["species"] = "cannot_tell";
    return;
  }
  const others = stated.filter((code) => code !== ordered);
  judged.checks["species"] = others.length > 0 ? "beyond" : "within";
  if (others.length > 0) {
    const facts = { found: shownName(others[0]!), ordered: shownName(ordered) };
    judged.findings.push(finding("SPECIES-LABEL", limits.get("species.label"), { facts }));
  }
}
