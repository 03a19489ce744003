/** How long to wait before the next try: 2 s, 4 s, 8 s … 5 min, with a fifth of chance in it. */

export const FIRST_MS = 2_000;
export const LONGEST_MS = 300_000;

/**
 * Milliseconds to wait after `attempts` failed tries (1 or more).
 *
 * `chance` is in [0, 1); it spreads phones that lost the same server at the same moment.
 */
export function waitAfter(attempts: number, chance: number): number {
  const plain = Math.min(LONGEST_MS, FIRST_MS * 2 ** Math.min(attempts - 1, 20));
  return Math.round(plain * (0.8 + 0.4 * chance));
}
