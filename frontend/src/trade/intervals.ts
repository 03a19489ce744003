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

function check(affected: number, lookedAt: number): void {
  if (lookedAt < 1 || !(affected >= 0 && affected <= lookedAt)) {
    throw new UnusableReading("SHARE-01", { affected, looked_at: lookedAt });
  }
}
