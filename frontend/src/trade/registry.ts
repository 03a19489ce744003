// Mirror of inspections/trade/registry.py; what the walk reads of a row (step, place, tone, words) is here as well.

import registry from "@trade-data/checks.json";

export interface Outcome {
  code: string;
  limit: string;
  after: string;
  leads_to?: string;
  acts_on?: string;
}
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
  every_carton?: boolean;
  asked_for?: Record<string, unknown[]>;
  /** The step of the walk that asks it, its place there, and the key of the note that goes with a fault. */
  step?: string;
  place?: number;
  note?: string;
  /** The day from which sets of limits know it. */
  since?: string;
}

type Row = Omit<Check, "answers" | "outcomes" | "choices"> & Partial<Check>;
export const CHECKS: readonly Check[] = (registry.checks as unknown as Row[]).map((row) => ({
  answers: row.name,
  outcomes: [],
  choices: {},
  ...row,
}));
const BY_NAME = new Map(CHECKS.map((check) => [check.name, check]));
export const outcomesOf = (check: Check): Outcome[] => [
  ...check.outcomes,
  ...Object.values(check.choices).filter(isOutcome),
];
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

export const checksOn = (on: string): Check[] => CHECKS.filter((check) => check.on === on);
export const checkNamed = (name: string): Check => BY_NAME.get(name)!;
export const choicesOf = (name: string): string[] => Object.keys(checkNamed(name).choices);

export function isAskedFor(check: Check, ordered: object | null): boolean {
  return Object.entries(check.asked_for ?? {}).every(([key, values]) =>
    values.includes((ordered as Record<string, unknown>)[key]),
  );
}
