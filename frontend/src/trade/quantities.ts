// Mirror of inspections/trade/quantities.py; same steps, same order of float operations.

export const GRAMS_PER_LB = 453.59237;
export const GRAMS_PER_OZ = 28.349523125;
export const MAX_MASS_G = 100000;
export const MIN_PRODUCT_C = -90;
export const MAX_PRODUCT_C = 60;
export const MAX_PIECES = 2000;

export type Facts = Record<string, unknown>;
export type Reading = { entered: string; unit: string };

const DECIMAL = /^[ \t]*([+\u2212-]?)([0-9]{1,7}(?:[.,][0-9]{0,6})?|[.,][0-9]{1,6})[ \t]*$/;
const COMMA_THOUSANDS = /^[ \t]*[0-9]{1,3},[0-9]{3}[ \t]*$/;
const GRAMS: Record<string, number> = { g: 1, kg: 1000, lb: GRAMS_PER_LB, oz: GRAMS_PER_OZ };
const UNITS = ["g", "kg", "lb", "oz", "C", "F", "pieces", "percent"];

export class Unusable extends Error {
  readonly code: string;
  readonly facts: Facts;
  constructor(code: string, facts: Facts = {}) {
    super(code);
    this.name = new.target.name;
    this.code = code;
    this.facts = facts;
  }
}
export class UnusableReading extends Unusable {}
export class UnusableGrade extends Unusable {}
export class UnusablePlan extends Unusable {}

export function parseDecimal(text: unknown): number {
  if (typeof text !== "string" || /^[ \t]*$/.test(text)) throw new UnusableReading("READ-01");
  const match = DECIMAL.exec(text);
  if (match === null) throw new UnusableReading("READ-02", { entered: text });
  const value = Number(match[2]!.replace(",", "."));
  return (match[1] === "-" || match[1] === "\u2212" ? -value : value) + 0;
}

export function toGrams(reading: unknown): number {
  const { entered, unit } = entry(reading, Object.keys(GRAMS));
  if (unit === "g" && COMMA_THOUSANDS.test(entered)) {
    throw new UnusableReading("READ-05", { entered });
  }
  const massG = parseDecimal(entered) * GRAMS[unit]!;
  if (!(massG > 0)) throw new UnusableReading("WEIGHT-01", { entered, unit });
  if (massG > MAX_MASS_G) throw new UnusableReading("WEIGHT-02", { entered, unit, max_g: MAX_MASS_G });
  return massG;
}

export function toGramsOrZero(reading: unknown): number {
  const { entered, unit } = entry(reading, Object.keys(GRAMS));
  return parseDecimal(entered) === 0 ? 0 : toGrams({ entered, unit });
}

export function toCelsius(reading: unknown): number {
  const { entered, unit } = entry(reading, ["C", "F"]);
  const value = parseDecimal(entered);
  const celsius = unit === "C" ? value : celsiusFromFahrenheit(value);
  if (celsius < MIN_PRODUCT_C) throw new UnusableReading("TEMP-01", { entered, unit, min_c: MIN_PRODUCT_C });
  if (celsius > MAX_PRODUCT_C) throw new UnusableReading("TEMP-02", { entered, unit, max_c: MAX_PRODUCT_C });
  return celsius;
}

export function celsiusFromFahrenheit(fahrenheit: number): number {
  return ((fahrenheit - 32) * 5) / 9 + 0;
}

export function toPercent(reading: unknown): number {
  const { entered } = entry(reading, ["percent"]);
  const value = parseDecimal(entered);
  if (!(value >= 0 && value <= 100)) throw new UnusableReading("PERCENT-01", { entered });
  return value;
}

export function toPieces(value: unknown): number {
  let pieces = isRecord(value) ? entry(value, ["pieces"]).entered : value;
  if (typeof pieces === "string") pieces = parseDecimal(pieces);
  if (typeof pieces !== "number" || !(pieces >= 1 && pieces <= MAX_PIECES) || !Number.isInteger(pieces)) {
    throw new UnusableReading("COUNT-01", { max_pieces: MAX_PIECES });
  }
  return pieces;
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function entry(reading: unknown, units: readonly string[]): Reading {
  if (!isRecord(reading)) throw new UnusableReading("READ-01");
  const { entered, unit } = reading;
  if (typeof entered !== "string") throw new UnusableReading("READ-01");
  if (typeof unit !== "string" || !UNITS.includes(unit)) throw new UnusableReading("READ-03", { entered });
  if (!units.includes(unit)) throw new UnusableReading("READ-04", { entered, unit });
  return { entered, unit };
}
