// Mirror of inspections/trade/entries.py.

import { isRecord, toCelsius, toGrams, toGramsOrZero, toPercent, UnusableReading, type Facts } from "./quantities";
import type { Unusable } from "./types";

const DAYS_TO_1970 = 719163;
const MS_PER_DAY = 86400000;

/** Text without outer blanks (space, tab, line ends): the same four signs in both runtimes. */
export function trimmed(text: string): string {
  return text.replace(/^[ \t\r\n]+/, "").replace(/[ \t\r\n]+$/, "");
}

export function monthDays(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Proleptic Gregorian day number, 1 = 1 January of year 1; null when it is no day. */
export function dayNumber(text: string): number | null {
  const found = /^([0-9]{4})-([0-9]{2})-([0-9]{2})/.exec(text);
  if (found === null) return null;
  const [year, month, day] = [Number(found[1]), Number(found[2]), Number(found[3])];
  if (year < 1 || month < 1 || month > 12 || day < 1 || day > monthDays(year, month)) return null;
  const before = year - 1;
  let days = before * 365 + Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  for (let m = 1; m < month; m += 1) days += monthDays(year, m);
  return days + day;
}

/** The day of a number as YYYY-MM-DD. */
export function dayText(number: number): string {
  return new Date((number - DAYS_TO_1970) * MS_PER_DAY).toISOString().slice(0, 10);
}

const READ: Record<string, (entry: unknown) => number> = {
  mass: toGrams,
  mass_or_zero: toGramsOrZero,
  product: toCelsius,
  air: toCelsius,
  ice: toCelsius,
  share: (entry) => toPercent(entry) / 100,
};

export class Reader {
  readonly unusable: Unusable[] = [];

  refuse(path: string, code: string, facts: Facts = {}): void {
    this.unusable.push({ path, code, facts });
  }

  record(value: unknown, path: string): Record<string, unknown> | null {
    if (isRecord(value)) return value;
    if (value !== null && value !== undefined) this.refuse(path, "FACT-01", { expected: "object" });
    return null;
  }

  items(value: unknown, path: string): unknown[] | null {
    if (Array.isArray(value)) return value;
    if (value !== null && value !== undefined) this.refuse(path, "FACT-01", { expected: "list" });
    return null;
  }

  text(value: unknown, path: string): string {
    if (typeof value === "string") return trimmed(value);
    if (value !== null && value !== undefined) this.refuse(path, "FACT-01", { expected: "text" });
    return "";
  }

  word(value: unknown, path: string, known: readonly string[]): string | null {
    if (value === null || value === undefined || value === "") return null;
    if (typeof value === "string" && known.includes(value)) return value;
    this.refuse(path, "FACT-02", { known: [...known] });
    return null;
  }

  words(value: unknown, path: string, known: readonly string[]): string[] | null {
    const entries = this.items(value, path);
    if (entries === null) return null;
    const found = new Set(entries.map((entry, i) => this.word(entry, `${path}[${i}]`, known)));
    return known.filter((word) => found.has(word));
  }

  whole(value: unknown, path: string, low: number, high: number): number | null {
    if (value === null || value === undefined) return null;
    if (typeof value !== "number") {
      this.refuse(path, "FACT-01", { expected: "whole number" });
      return null;
    }
    if (!(low <= value && value <= high) || !Number.isInteger(value)) {
      this.refuse(path, "FACT-03", { low, high });
      return null;
    }
    return value + 0;
  }

  reading(value: unknown, path: string, kind: string): number | null {
    const entry = this.record(value, path);
    if (entry === null) return null;
    const { entered, unit } = entry;
    if (typeof entered !== "string" || typeof unit !== "string") {
      this.refuse(path, "FACT-01", { expected: "reading" });
      return null;
    }
    if (trimmed(entered) === "") return null;
    try {
      return READ[kind]!(entry);
    } catch (problem) {
      if (!(problem instanceof UnusableReading)) throw problem;
      this.refuse(path, problem.code, problem.facts);
      return null;
    }
  }

  typed(value: unknown): [entered: string, unit: string] {
    const { entered, unit } = isRecord(value) ? value : {};
    return typeof entered === "string" && typeof unit === "string" ? [trimmed(entered), unit] : ["", ""];
  }

  day(value: unknown, path: string): number | null {
    const text = this.text(value, path);
    if (text === "") return null;
    const number = dayNumber(text);
    if (number === null) this.refuse(path, "FACT-05");
    return number;
  }
}
