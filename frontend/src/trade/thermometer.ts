// Mirror of inspections/trade/thermometer.py.

import { againstLimit, type Beyond, type Within } from "./answer";
import { TOLERANCES } from "./glaze";
import { MAX_PRODUCT_C, MIN_PRODUCT_C, UnusableReading } from "./quantities";

export const NUMBERS = TOLERANCES.temperature;

export type Thermometer = {
  state: "passed" | "failed" | "overdue" | "unchecked";
  due_on: string | null;
  is_trusted: boolean;
};

const DAY = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/;
const MS_PER_DAY = 86400000;
const LAST_DAY = Date.UTC(9999, 11, 31) / MS_PER_DAY;

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

export function checkCelsius(celsius: number): void {
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
