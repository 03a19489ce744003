/** Whether an entry can be what it claims to be, said at the moment of entry with the shared sentences. */
import { t } from "../../messages";
import wording from "@trade-data/wording_en.json";
import type { Reading, Unit } from "../../store/document";
import { Unusable, toCelsius, toGrams, toPieces } from "../../trade/quantities";
import { typeset } from "../../trade/wording";

const SENTENCES = wording.unusable as Record<string, string>;

export function sentenceFor(code: string, facts: Record<string, unknown>): string {
  const template = SENTENCES[code] ?? t("dock-readings-entry-cannot-be");
  return typeset(template.replace(/\{(\w+)\}/g, (_all, name: string) => String(facts[name] ?? "")));
}

export const UNIT_WORDS: Record<Unit, string> = {
  C: "°C",
  F: "°F",
  g: "g",
  kg: "kg",
  lb: "lb",
  oz: "oz",
  pieces: t("dock-readings-pieces"),
  percent: "%",
};

/** An entry as all numbers are printed: a point, and a true minus sign. Only the pad shows it as typed. */
export function entryShown({ entered, unit }: Reading): string {
  return typeset(`${entered.replace(",", ".")} ${UNIT_WORDS[unit]}`);
}

/** The sentence of the documented error that reading an entry raises; null when it raises none. */
export function tried(read: () => unknown): string | null {
  try {
    read();
    return null;
  } catch (error) {
    if (error instanceof Unusable) return sentenceFor(error.code, error.facts);
    throw error;
  }
}

export const checkTemperature = (entered: string, unit: Unit) => tried(() => toCelsius({ entered, unit }));
export const checkWeight = (entered: string, unit: Unit) => tried(() => toGrams({ entered, unit }));
export const checkPieces = (entered: string) => tried(() => toPieces({ entered, unit: "pieces" }));

/** Lightest single prawn that a scale at the dock can meet, g; below it one of the numbers is wrong. */
const LIGHTEST_PIECE_G = 0.5;
const HEAVIEST_PIECE_G = 500;

export function checkSampleWeight(entered: string, unit: Unit, pieces: number): string | null {
  const cannotBe = checkWeight(entered, unit);
  if (cannotBe) return cannotBe;
  const each = toGrams({ entered, unit }) / pieces;
  if (each >= LIGHTEST_PIECE_G && each <= HEAVIEST_PIECE_G) return null;
  const shown = each < 1 ? each.toFixed(2) : String(Math.round(each));
  return t("dock-readings-pieces-in-would", { pieces, entered, unit, shown });
}

/** Cartons: a whole number from 0 to 100 000. */
export function checkCartons(entered: string): string | null {
  if (/^[0-9]{1,5}$/.test(entered)) return null;
  if (entered === "") return t("dock-readings-nothing-was-entered");
  return t("dock-readings-no-whole-number", { entered });
}

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const NAMED = /^([0-9]{1,2})[ .,/-]*([a-z]{3})[a-z]*[ .,/-]*([0-9]{4}|[0-9]{2})$/;
const DIGITS = /^([0-9]{1,2})[ .,/-]*([0-9]{1,2})[ .,/-]*([0-9]{4}|[0-9]{2})$/;
const YEAR_FIRST = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/;

/** A day typed as digits (31032028, 310328), with marks between, or with the month's name; null when it is none. */
export function dayFrom(text: string): string | null {
  const typed = text.trim().toLowerCase();
  const [named, digits, iso] = [NAMED.exec(typed), DIGITS.exec(typed), YEAR_FIRST.exec(typed)];
  const parts = named ? [named[1], MONTHS.indexOf(named[2]!) + 1, named[3]] : iso ? [iso[3], iso[2], iso[1]] : digits?.slice(1);
  if (!parts) return null;
  const [day, month, year] = parts.map(Number) as [number, number, number];
  const full = year < 100 ? 2000 + year : year;
  const at = new Date(Date.UTC(full, month - 1, day));
  if (at.getUTCMonth() !== month - 1 || at.getUTCDate() !== day) return null;
  return at.toISOString().slice(0, 10);
}

export const dayShown = (iso: string): string => iso.split("-").reverse().join(".");
