// Mirror of inspections/trade/registry.py; what the walk reads of a row (step, place, tone, words) is here as well.

import registry from "@trade-data/checks.json";
import { isSoftAndBroken } from "./grades";

export interface Outcome {
  code: string;
  limit: string;
  after: string;
  leads_to: string;
  acts_on: string;
  for?: Goods;
  any_of?: string[];
  beside?: Record<string, unknown[]>;
}
type Goods = Record<string, unknown[]>;
export type Tone = "good" | "warn" | "bad" | "hold" | "";
export type Choice = Partial<Outcome> & { tone?: Tone };
export interface Check {
  name: string;
  on: "vehicle" | "carton" | "label";
  at: string;
  type: "choice" | "flags" | "whole" | "score" | "pieces" | "reading" | "part" | "text";
  answers: string;
  outcomes: Outcome[];
  choices: Record<string, Choice>;
  acts_on?: string;
  scores?: number[];
  low?: number;
  high?: number;
  quantity?: string;
  of?: string;
  numbers?: [string, string];
  counted_by?: string;
  sum?: string;
  part_of?: string;
  comparison?: "is" | "alike" | "one_of" | "grade" | "near";
  ordered?: string;
  judged_by?: string;
  every_carton?: boolean | Goods;
  offered?: boolean | Goods;
  asked_for?: Goods;
  /** The step of the walk that asks it, its place there, and the key of the note that goes with a fault. */
  step?: string;
  place?: number;
  note?: string;
  /** The word for no sign at all, which stood alone in documents written when one sign only could be given. */
  none?: string;
  /** The day from which sets of limits know it. */
  since?: string;
}

type Row = Omit<Check, "answers" | "outcomes" | "choices"> & Partial<Check>;
const told = <T extends object>(row: Row, entry: T): T => ({ leads_to: "defect", acts_on: row.acts_on, ...entry });
export const CHECKS: readonly Check[] = (registry.checks as unknown as Row[]).map((row) => ({
  answers: row.name,
  ...row,
  outcomes: (row.outcomes ?? []).map((one) => told(row, one)),
  choices: Object.fromEntries(Object.entries(row.choices ?? {}).map(([value, one]) => [value, told(row, one)])),
}));
const BY_NAME = new Map(CHECKS.map((check) => [check.name, check]));
export const outcomesOf = (check: Check): Outcome[] => [...check.outcomes, ...Object.values(check.choices).filter(isOutcome)];
export const OUTCOMES: readonly Outcome[] = CHECKS.flatMap(outcomesOf);

const SUMS: Partial<Record<Check["type"], string>> = {
  choice: "seen",
  flags: "seen",
  pieces: "share",
  part: "weight_share",
  reading: "value",
  score: "score",
};
const sumOf = (check: Check) => (check.comparison === undefined ? (check.sum ?? SUMS[check.type]!) : "label");
/** The kind of sum that explains a finding: a key of `why` in the file of sentences. */
export const SUM_OF_CODE: ReadonlyMap<string, string> = new Map(
  CHECKS.flatMap((check) => outcomesOf(check).map(({ code }): [string, string] => [code, sumOf(check)])),
);

export function isOutcome(choice: Choice): choice is Outcome {
  return choice.code !== undefined;
}

/** A path as the key of what holds the entry ("" for the top) and its own key. */
export function splitPath(path: string): [holder: string, key: string] {
  const dot = path.lastIndexOf(".");
  return [path.slice(0, Math.max(dot, 0)), path.slice(dot + 1)];
}

export const checksOn = (on: string): Check[] => CHECKS.filter((check) => check.on === on);
export const checkNamed = (name: string): Check => BY_NAME.get(name)!;
export const choicesOf = (name: string): string[] => Object.keys(checkNamed(name).choices);

const PEELED = ["PTO", "PDTO", "PUD", "PD", "BTTY", "PPV"];
/** Peeled goods come frozen singly in sealed bags unless the specification says otherwise (common practice). */
export function packOf(of: { pack?: string | null; units_per_carton: number; presentation: string }): string {
  return of.pack || (of.units_per_carton > 1 && PEELED.includes(of.presentation) ? "sealed_bags" : "lined_carton");
}

/** What follows from other entries of an order. */
const FOLLOWS: Record<string, (ordered: never) => unknown> = {
  is_soft_and_broken: ({ grade }: { grade: string }) => isSoftAndBroken(grade),
  pack: packOf,
};

function are(ordered: object | null, goods: Goods): boolean {
  return Object.entries(goods).every(([key, values]) =>
    values.includes(FOLLOWS[key]?.(ordered as never) ?? (ordered as Record<string, unknown>)[key]),
  );
}

export const isFor = (outcome: Outcome, ordered: object | null): boolean => are(ordered, outcome.for ?? {});
export const outcomesFor = (check: Check, ordered: object | null): Outcome[] => check.outcomes.filter((outcome) => isFor(outcome, ordered));

export function isAskedFor(check: Check, ordered: object | null): boolean {
  return are(ordered, check.asked_for ?? {}) && (check.outcomes.length === 0 || outcomesFor(check, ordered).length > 0);
}

const isSo = (told: boolean | Goods | undefined, ordered: object): boolean =>
  typeof told === "object" ? are(ordered, told) : told === true;

export const isWaitedFor = (check: Check, ordered: object): boolean => isAskedFor(check, ordered) && isSo(check.every_carton, ordered);
/** Whether it is offered for such goods and asked of nobody: black on the meat under a shell. */
export const isOffered = (check: Check, ordered: object): boolean => isSo(check.offered, ordered);

export function fits(outcome: Outcome, signs: readonly string[], seen: Record<string, unknown>): boolean {
  const isAmong = outcome.any_of === undefined || signs.some((sign) => outcome.any_of!.includes(sign));
  return isAmong && Object.entries(outcome.beside ?? {}).every(([name, values]) => values.includes(seen[name]));
}
