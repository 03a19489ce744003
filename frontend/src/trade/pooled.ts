// Mirror of inspections/trade/pooled.py.

import type { CartonJudged } from "./carton";
import { numberSeen } from "./checks";
import type { Finding } from "./findings";
import { wilson } from "./intervals";
import { isFineFor } from "./limits";
import { CHECKS } from "./registry";

/** Code of a finding to the check whose prawns were counted. */
export const KIND_OF: ReadonlyMap<string, string> = new Map(
  CHECKS.filter((check) => check.type === "pieces").flatMap(({ name, outcomes }) =>
    outcomes.map(({ code }): [string, string] => [code, name]),
  ),
);

export interface Pooled {
  affected: number;
  looked_at: number;
  low: number;
  share: number;
}

export function pooledOf(cartons: readonly CartonJudged[], kind: string): Pooled | null {
  let affected = 0;
  let lookedAt = 0;
  for (const { facts } of cartons) {
    const number = numberSeen(facts.seen, kind);
    const of = numberSeen(facts.seen, "looked_at");
    if (number !== null && of !== null) {
      affected += number;
      lookedAt += of;
    }
  }
  if (lookedAt === 0) return null;
  return { affected, looked_at: lookedAt, low: wilson(affected, lookedAt)[0], share: affected / lookedAt };
}

export function isShown(found: Finding, cartons: readonly CartonJudged[]): boolean {
  const kind = KIND_OF.get(found.code);
  if (kind === undefined || !("low" in found.facts) || !isFineFor(found.limit, found.facts.low as number)) return true;
  const together = pooledOf(cartons, kind);
  return together === null || !isFineFor(found.limit, together.low);
}
