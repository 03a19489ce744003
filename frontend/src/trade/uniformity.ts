// Mirror of inspections/trade/uniformity.py.

import { SIZES } from "./grades";
import { MAX_MASS_G, toPieces, UnusableReading } from "./quantities";

export const DEFAULT_SPREAD = SIZES.default_spread;
export const LEAST_SPREAD = SIZES.least_spread;
export const LEAST_PIECES_FOR_TENTHS = SIZES.least_pieces_for_tenths;

export type Sample = {
  pieces: number;
  weight_g: number;
  weight_is: string;
  largest_g?: number | null;
  smallest_g?: number | null;
  glaze_percent?: number | null;
  unit_g?: number | null;
};

export function tenthOf(pieces: number): number {
  return Math.max(1, Math.floor((toPieces(pieces) + 5) / 10));
}

export function uniformityRatio(largestG: number, smallestG: number): number {
  checkWeight(largestG);
  checkWeight(smallestG);
  if (largestG < smallestG) throw new UnusableReading("COUNT-02", { largest_g: largestG, smallest_g: smallestG });
  return largestG / smallestG;
}

export function spreadOf(sample: Sample): [number, "tenths" | "default"] {
  const { largest_g: largestG, smallest_g: smallestG } = sample;
  if (largestG == null || smallestG == null || sample.pieces < LEAST_PIECES_FOR_TENTHS) {
    return [DEFAULT_SPREAD, "default"];
  }
  const ratio = uniformityRatio(largestG, smallestG);
  const tail = SIZES.tail_means_from_10[sample.pieces - LEAST_PIECES_FOR_TENTHS] ?? SIZES.tail_mean_large;
  const estimate = (ratio - 1) / (tail * (ratio + 1));
  return [Math.max(estimate, LEAST_SPREAD), "tenths"];
}

export function checkWeight(weightG: number): void {
  if (!(weightG > 0)) throw new UnusableReading("WEIGHT-01", { entered: weightG, unit: "g" });
  if (weightG > MAX_MASS_G) {
    throw new UnusableReading("WEIGHT-02", { entered: weightG, unit: "g", max_g: MAX_MASS_G });
  }
}
