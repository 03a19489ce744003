// Mirror of inspections/trade/gs1.py.

import { monthDays } from "./entries";
import { Unusable } from "./quantities";

const SWALLOWED_DATE = /^[^]+1[1-7][0-9]{2}(?:0[1-9]|1[0-2])(?:[0-2][0-9]|3[01])$/;
export const LAST_DAY_AIS = ["12", "15", "16", "17"];
export const UNKNOWN_DAY_AIS = ["11", "13"];

export class UnusableDate extends Unusable {}

export function fullYear(twoDigits: number, currentYear: number): number {
  const century = currentYear - (currentYear % 100);
  const ahead = twoDigits - (currentYear % 100);
  if (ahead >= 51) return century - 100 + twoDigits;
  if (ahead <= -50) return century + 100 + twoDigits;
  return century + twoDigits;
}

const two = (number: number): string => String(number).padStart(2, "0");

export function gs1Date(ai: string, digits: string, currentYear: number): string {
  if (!/^[0-9]{6}$/.test(digits)) throw new UnusableDate("DATE-01", { ai });
  const year = fullYear(Number(digits.slice(0, 2)), currentYear);
  const month = Number(digits.slice(2, 4));
  const day = Number(digits.slice(4));
  if (month < 1 || month > 12) throw new UnusableDate("DATE-02", { ai, digits });
  const shownYear = String(year).padStart(4, "0");
  if (day === 0 && UNKNOWN_DAY_AIS.includes(ai)) return `${shownYear}-${two(month)}`;
  if (day === 0 && !LAST_DAY_AIS.includes(ai)) throw new UnusableDate("DATE-03", { ai, digits });
  const last = monthDays(year, month);
  if (day > last) throw new UnusableDate("DATE-02", { ai, digits });
  return `${shownYear}-${two(month)}-${two(day || last)}`;
}

export function hasSwallowedDate(lot: string): boolean {
  return SWALLOWED_DATE.test(lot);
}

export function gs1CheckDigit(body: string): number {
  if (!/^[0-9]+$/.test(body)) throw new UnusableDate("DATE-01", { ai: "01" });
  const total = [...body].reverse().reduce((sum, digit, i) => sum + Number(digit) * (i % 2 === 0 ? 3 : 1), 0);
  return (10 - (total % 10)) % 10;
}
