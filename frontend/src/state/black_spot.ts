/** The black-spot scale beside the counts: which steps a count leaves, and where the limit cuts. */
import type { LimitSet } from "../store/document";
import { scoreByPrevalence, word } from "../trade";
import { isFineFor as isFine } from "../trade/limits";

export interface LimitOfScore {
  isFine: (score: number) => boolean;
  /** "below 4". */
  words: string;
}

/** The limit for the score in the set in force; null when the set has none. */
export function limitOfScore(set: LimitSet | null): LimitOfScore | null {
  const limit = set?.limits.find(({ code }) => code === "black_spot_score");
  if (!limit || limit.bound === null) return null;
  const words = word("sense", limit.sense).replace("{bound}", String(limit.bound));
  return { isFine: (score) => isFine(limit, score), words };
}

export const isFineFor = (limit: LimitOfScore | null, score: number): boolean => limit === null || limit.isFine(score);

/**
 * The steps that so many affected pieces can be: with small spots, with larger stains, or black all over.
 *
 * Nothing when the pieces were not counted.
 */
export function stepsFitting(affected: number | null, lookedAt: number): number[] {
  if (affected === null || lookedAt < 1 || affected > lookedAt) return [];
  const small = scoreByPrevalence(affected, 0, 0, lookedAt);
  const large = scoreByPrevalence(0, affected, 0, lookedAt);
  const whole = affected === lookedAt ? [scoreByPrevalence(0, 0, affected, lookedAt)] : [];
  return [...new Set([small, large, ...whole])];
}
