// Mirror of inspections/trade/chances.py.

import plans from "@trade-data/plans.json";
import { UnusablePlan } from "./quantities";

export const MISS_CHANCE = plans.statement.miss_chance_at_most;

export function chanceOfExactly(lot: number, bad: number, opened: number, found: number): number {
  if (found > bad || opened - found > lot - bad) return 0;
  let term = 1;
  for (let i = 0; i < opened; i++) {
    if (i < found) term = term * (((bad - i) / (lot - i)) * ((opened - i) / (i + 1)));
    else term = term * ((lot - bad - (i - found)) / (lot - i));
  }
  return term;
}

export function chanceOfAcceptance(lot: number, bad: number, opened: number, acceptance: number): number {
  check(lot, bad, opened);
  let total = 0;
  for (let found = 0; found <= Math.min(acceptance, opened); found++) {
    total = total + chanceOfExactly(lot, bad, opened, found);
  }
  return total < 1 ? total : 1;
}

export function chanceOfDouble(
  lot: number,
  bad: number,
  first: [opened: number, acceptance: number, rejection: number],
  then: [more: number, acceptance: number],
): number {
  const [opened, acceptance, rejection] = first;
  const [more, last] = then;
  check(lot, bad, opened + more);
  let total = chanceOfAcceptance(lot, bad, opened, acceptance);
  for (let found = acceptance + 1; found < Math.min(rejection, last + 1); found++) {
    const met = chanceOfExactly(lot, bad, opened, found);
    if (met > 0) total = total + met * chanceOfAcceptance(lot - opened, bad - found, more, last - found);
  }
  return total < 1 ? total : 1;
}

export function chanceOfSeeingOne(lot: number, bad: number, opened: number): number {
  return 1 - chanceOfAcceptance(lot, bad, opened, 0);
}

export function cartonsToSeeOne(lot: number, bad: number, chance = 0.95): number | null {
  check(lot, bad, 0);
  if (bad === 0) return null;
  let miss = 1;
  let opened = 0;
  while (1 - miss < chance && opened < lot) {
    miss = miss * ((lot - bad - opened) / (lot - opened));
    opened = opened + 1;
  }
  return opened;
}

export function mostBadLeft(lot: number, opened: number, found: number, missChance: number = MISS_CHANCE): number {
  check(lot, found, opened);
  if (found > opened) throw new UnusablePlan("SAMPLE-04", { lot, bad: found, opened });
  let low = found;
  let high = lot - (opened - found);
  while (low < high) {
    const middle = Math.floor((low + high + 1) / 2);
    if (chanceOfAcceptance(lot, middle, opened, found) >= missChance) low = middle;
    else high = middle - 1;
  }
  return low;
}

export function oneInFive(lot: number): number {
  return Math.max(1, Math.floor((2 * lot + 5) / 10));
}

export function cartonsWorth(opened: number, correlation: number): number {
  if (opened < 1 || !(correlation >= 0 && correlation <= 1)) {
    throw new UnusablePlan("SAMPLE-04", { lot: opened, bad: 0, opened });
  }
  return opened / (1 + (opened - 1) * correlation);
}

function check(lot: number, bad: number, opened: number): void {
  if (lot < 1 || !(bad >= 0 && bad <= lot) || !(opened >= 0 && opened <= lot)) {
    throw new UnusablePlan("SAMPLE-04", { lot, bad, opened });
  }
}
