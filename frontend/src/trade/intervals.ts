// Mirror of inspections/trade/intervals.py; the exact interval (Clopper, Pearson) is desk work and stays there.

import { UnusableReading } from "./quantities";

export const Z_95 = 1.959963985;

export function wilson(affected: number, lookedAt: number, z: number = Z_95): [number, number] {
  check(affected, lookedAt);
  const share = affected / lookedAt;
  const z2 = z * z;
  const scale = 1 + z2 / lookedAt;
  const centre = (share + z2 / (2 * lookedAt)) / scale;
  const half = (z * Math.sqrt((share * (1 - share)) / lookedAt + z2 / (4 * lookedAt * lookedAt))) / scale;
  const low = affected === 0 || centre < half ? 0 : centre - half;
  const high = affected === lookedAt || centre + half > 1 ? 1 : centre + half;
  return [low, high];
}

export function chanceAtMost(found: number, drawn: number, share: number): number {
  let total = 0;
  for (let number = 0; number <= found; number++) total = total + chanceOfExactly(number, drawn, share);
  return total < 1 ? total : 1;
}

function chanceOfExactly(found: number, drawn: number, share: number): number {
  let term = 1;
  for (let i = 0; i < drawn; i++) {
    term = i < found ? term * (((drawn - i) / (i + 1)) * share) : term * (1 - share);
  }
  return term;
}

function check(affected: number, lookedAt: number): void {
  if (lookedAt < 1 || !(affected >= 0 && affected <= lookedAt)) {
    throw new UnusableReading("SHARE-01", { affected, looked_at: lookedAt });
  }
}
