// Mirror of inspections/trade/pooled.py.

import type { CartonJudged } from "./carton";
import { SHARES } from "./condition";
import type { Finding } from "./findings";
import { wilson } from "./intervals";
import { isFineFor } from "./limits";
import type { PieceKind } from "./types";

export const KIND_OF: ReadonlyMap<string, PieceKind> = new Map<string, PieceKind>([
  ...SHARES.map(([, kind, , code]): [string, PieceKind] => [code, kind]),
  ...SHARES.filter(([, kind]) => ["heads", "legs", "tails"].includes(kind)).map(
    ([, kind, , code]): [string, PieceKind] => [`${code}-WHOLE`, kind],
  ),
  ["BLACK-CODEX", "black_spot_wide"],
  ["BROKEN", "broken"],
  ["BROKEN-NOTE", "broken"],
]);

export interface Pooled {
  affected: number;
  looked_at: number;
  low: number;
  share: number;
}

export function pooledOf(cartons: readonly CartonJudged[], kind: PieceKind): Pooled | null {
  let affected = 0;
  let lookedAt = 0;
  for (const { facts } of cartons) {
    const number = facts.pieces[kind];
    if (number !== undefined && facts.looked_at !== null) {
      affected += number;
      lookedAt += facts.looked_at;
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
