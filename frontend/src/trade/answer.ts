// Mirror of inspections/trade/answer.py; a union told apart by its kind.

import type { Facts } from "./quantities";

export type Sense = "at_most" | "below" | "at_least" | "above";
export type NotChecked = { kind: "not_checked"; what: string };
export type Within = { kind: "within"; measured: number; unit: string; facts: Facts };
export type Beyond = {
  kind: "beyond";
  measured: number;
  unit: string;
  bound: number | null;
  sense: Sense | null;
  facts: Facts;
};
export type CannotTell = { kind: "cannot_tell"; reasons: string[]; facts: Facts };
export type Answer = NotChecked | Within | Beyond | CannotTell;

export const within = (measured: number, unit: string, facts: Facts = {}): Within => ({
  kind: "within",
  measured,
  unit,
  facts,
});
export const beyond = (measured: number, unit: string, bound: number | null, sense: Sense | null, facts: Facts = {}): Beyond => ({
  kind: "beyond",
  measured,
  unit,
  bound,
  sense,
  facts,
});
export const cannotTell = (reasons: string[], facts: Facts = {}): CannotTell => ({
  kind: "cannot_tell",
  reasons,
  facts,
});

export function isFine(measured: number, bound: number, sense: Sense): boolean {
  switch (sense) {
    case "at_most":
      return measured <= bound;
    case "below":
      return measured < bound;
    case "at_least":
      return measured >= bound;
    case "above":
      return measured > bound;
    default:
      throw new Error(`Not a sense of a limit: ${String(sense)}`);
  }
}

export function againstLimit(measured: number, unit: string, bound: number, sense: Sense, facts: Facts = {}): Within | Beyond {
  return isFine(measured, bound, sense) ? within(measured, unit, facts) : beyond(measured, unit, bound, sense, facts);
}
