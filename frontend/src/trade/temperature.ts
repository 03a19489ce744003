// Mirror of inspections/trade/temperature.py.

import { againstLimit, type Beyond, type CannotTell, cannotTell, type Within } from "./answer";
import { TOLERANCES } from "./glaze";
import { type Facts, MAX_PRODUCT_C, MIN_PRODUCT_C, UnusableReading } from "./quantities";

export const NUMBERS = TOLERANCES.temperature;
export const METHODS = ["between_packs", "core", "surface"];

export type Band = "within" | "tolerance" | "outside" | "reject";
export type Regime = { within_c: number; tolerance_c: number; reject_c: number };
export type ProductReading = {
  product_c: number;
  band: Band;
  coldest_band: Band;
  warmest_band: Band;
  straddles: number[];
  decides: boolean;
};
export type Thermometer = {
  state: "passed" | "failed" | "overdue" | "unchecked";
  due_on: string | null;
  is_trusted: boolean;
};

export const QUICK_FROZEN: Regime = {
  within_c: NUMBERS.within_c,
  tolerance_c: NUMBERS.tolerance_c,
  reject_c: NUMBERS.reject_c,
};

const DAY = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/;
const MS_PER_DAY = 86400000;
const LAST_DAY = Date.UTC(9999, 11, 31) / MS_PER_DAY;

export function bandOf(productC: number, regime: Regime = QUICK_FROZEN): Band {
  if (productC <= regime.within_c) return "within";
  if (productC <= regime.tolerance_c) return "tolerance";
  return productC <= regime.reject_c ? "outside" : "reject";
}

export function readProduct(
  productC: number,
  method = "between_packs",
  accuracyC: number = NUMBERS.accuracy_c,
  regime: Regime = QUICK_FROZEN,
): ProductReading {
  checkCelsius(productC);
  if (!METHODS.includes(method) || !(accuracyC >= 0)) throw new UnusableReading("TEMP-03", { method });
  const bounds = [regime.within_c, regime.tolerance_c, regime.reject_c];
  return {
    product_c: productC,
    band: bandOf(productC, regime),
    coldest_band: bandOf(productC - accuracyC, regime),
    warmest_band: bandOf(productC + accuracyC, regime),
    straddles: bounds.filter((bound) => productC - accuracyC < bound && bound < productC + accuracyC),
    decides: method !== "surface",
  };
}

export function judgeProduct(
  productC: number,
  boundC: number,
  method = "between_packs",
  accuracyC: number = NUMBERS.accuracy_c,
): Within | Beyond | CannotTell {
  checkCelsius(productC);
  if (!METHODS.includes(method) || !(accuracyC >= 0)) throw new UnusableReading("TEMP-03", { method });
  if (method === "surface") return cannotTell(["TEMP-SURFACE"], { product_c: productC });
  const isNear = productC - accuracyC < boundC && boundC < productC + accuracyC;
  return againstLimit(productC, "C", boundC, "at_most", { accuracy_c: accuracyC, is_near: isNear });
}

export function warmest(readingsC: readonly number[]): number | null {
  let best: number | null = null;
  for (const celsius of readingsC) if (best === null || celsius > best) best = celsius;
  return best;
}

export function airPrompts(airC: number, regime: Regime = QUICK_FROZEN): boolean {
  checkCelsius(airC);
  return airC > regime.tolerance_c;
}

export function judgeStorageAir(airC: number, maxC: number = NUMBERS.storage_air_c): Within | Beyond {
  checkCelsius(airC);
  return againstLimit(airC, "C", maxC, "at_most");
}

export function judgeIcePoint(readingC: number, allowedC: number = NUMBERS.ice_point_c): Within | Beyond {
  checkCelsius(readingC);
  return againstLimit(Math.abs(readingC), "C", allowedC, "at_most", { reading_c: readingC });
}

export function icePointAllowedC(ownC: number | null): number {
  const isStricter = ownC !== null && 0.0 < ownC && ownC < NUMBERS.ice_point_c;
  return isStricter ? ownC : NUMBERS.ice_point_c;
}

export function thermometerOn(
  day: string,
  lastCheckedOn: string | null,
  lastCheckC: number | null,
  checkDueOn: string | null = null,
  allowedC: number = NUMBERS.ice_point_c,
): Thermometer {
  const today = dayNumber(day);
  if (lastCheckedOn === null || lastCheckC === null) {
    return { state: "unchecked", due_on: checkDueOn, is_trusted: false };
  }
  const checked = dayNumber(lastCheckedOn);
  const due = checkDueOn !== null ? dayNumber(checkDueOn) : checked + NUMBERS.ice_point_due_days;
  const dueOn = new Date(Math.min(due, LAST_DAY) * MS_PER_DAY).toISOString().slice(0, 10);
  if (Math.abs(lastCheckC) > allowedC) return { state: "failed", due_on: dueOn, is_trusted: false };
  const state = today > due ? "overdue" : "passed";
  return { state, due_on: dueOn, is_trusted: state === "passed" };
}

export function explainProduct(
  productC: number,
  method = "between_packs",
  accuracyC: number = NUMBERS.accuracy_c,
  regime: Regime = QUICK_FROZEN,
): Facts {
  const reading = readProduct(productC, method, accuracyC, regime);
  const { basis } = TOLERANCES;
  return {
    formula: "°C = (°F - 32) x 5 / 9; compared unrounded, the end point belongs to the colder band",
    numbers: {
      product_c: productC,
      accuracy_c: accuracyC,
      method,
      band: reading.band,
      straddles: reading.straddles,
    },
    limit: { within_c: regime.within_c, tolerance_c: regime.tolerance_c, reject_c: regime.reject_c },
    source: [basis.product, basis.transport, basis.outside, basis.reject, basis.straddle],
  };
}

export function explainThermometer(thermometer: Thermometer, lastCheckC: number | null): Facts {
  return {
    formula: "distance of the ice-point reading from 0 °C; overdue from the day after the due date",
    numbers: { last_check_c: lastCheckC, state: thermometer.state, due_on: thermometer.due_on },
    limit: { bound: NUMBERS.ice_point_c, sense: "at_most" },
    source: [TOLERANCES.basis.ice_point, TOLERANCES.basis.ice_due],
  };
}

function checkCelsius(celsius: number): void {
  if (celsius < MIN_PRODUCT_C) throw new UnusableReading("TEMP-01", { entered: celsius, unit: "C", min_c: MIN_PRODUCT_C });
  if (!(celsius <= MAX_PRODUCT_C)) {
    throw new UnusableReading("TEMP-02", { entered: celsius, unit: "C", max_c: MAX_PRODUCT_C });
  }
}

function dayNumber(day: unknown): number {
  const match = typeof day === "string" ? DAY.exec(day) : null;
  if (match === null) throw new UnusableReading("DATE-01", { entered: day });
  const [year, month, dayOfMonth] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const moment = new Date(0);
  moment.setUTCFullYear(year, month - 1, dayOfMonth);
  const isReal = year >= 1 && moment.getUTCMonth() === month - 1 && moment.getUTCDate() === dayOfMonth;
  if (!isReal) throw new UnusableReading("DATE-01", { entered: day });
  return moment.getTime() / MS_PER_DAY;
}
