// Mirror of inspections/trade/glaze.py.

import tolerances from "@trade-data/tolerances.json";
import { againstLimit, type Beyond, type Within } from "./answer";
import { UnusableReading } from "./quantities";
import { checkWeight } from "./uniformity";

export const TOLERANCES = tolerances;
export const SCREENING = tolerances.screening;

export const glazedG = (grossG: number, tareG: number): number => less(grossG, tareG, "GLAZE-01");

export const deglazedG = (sieveAndGoodsG: number, sieveG: number): number => less(sieveAndGoodsG, sieveG, "GLAZE-02");

export function glazePercent(withGlazeG: number, withoutGlazeG: number): number {
  checkPair(withGlazeG, withoutGlazeG);
  return (100 * (withGlazeG - withoutGlazeG)) / withGlazeG;
}

export function judgeGlaze(withGlazeG: number, withoutGlazeG: number, declaredPercent: number, allowedPoints = 0): Within | Beyond {
  if (!(declaredPercent >= 0 && declaredPercent < 100)) {
    throw new UnusableReading("PERCENT-01", { entered: declaredPercent });
  }
  const found = glazePercent(withGlazeG, withoutGlazeG);
  const facts = { declared_percent: declaredPercent, over_points: found - declaredPercent };
  return againstLimit(found, "percent", declaredPercent + allowedPoints, "at_most", facts);
}

function less(wholeG: number, partG: number, code: string): number {
  checkWeight(wholeG);
  checkWeight(partG);
  if (partG >= wholeG) throw new UnusableReading(code, { whole_g: wholeG, part_g: partG });
  return wholeG - partG;
}

function checkPair(withGlazeG: number, withoutGlazeG: number): void {
  checkWeight(withGlazeG);
  checkWeight(withoutGlazeG);
  if (withoutGlazeG > withGlazeG) {
    throw new UnusableReading("GLAZE-03", { glazed_g: withGlazeG, deglazed_g: withoutGlazeG });
  }
}
