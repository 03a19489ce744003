// Mirror of inspections/trade/wording.py; one file of sentences serves both.

import words from "@trade-data/wording_en.json";

type Group = Record<string, string>;
export const WORDS = words as unknown as {
  and: string;
  nouns: Record<string, [string, string]>;
  [group: string]: unknown;
};

const SHOWN_UNITS: Record<string, [number, string]> = {
  C: [1, " °C"],
  degrees: [1, " °C"],
  share: [1, " %"],
  percent: [1, " %"],
  points: [1, " percentage points"],
  g: [1, " g"],
  kg: [2, " kg"],
  per_lb: [1, " to the pound"],
  per_kg: [1, " per kg"],
  ratio: [2, ""],
  score: [0, ""],
  pieces: [0, " prawns"],
  cartons: [0, ""],
  days: [0, " days"],
  readings: [0, ""],
};

/** Shortest decimal text of a finite number as sign, digits and number of digits before the point. */
function decimalText(value: number): { negative: boolean; digits: string; before: number } {
  const match = /^(-?)([0-9]+)(?:\.([0-9]+))?(?:e([+-][0-9]+))?$/.exec(String(value))!;
  const whole = match[2]!;
  return {
    negative: match[1] === "-",
    digits: whole + (match[3] ?? ""),
    before: whole.length + Number(match[4] ?? "0"),
  };
}

export function shown(value: number, decimals: number): string {
  const { negative, digits, before } = decimalText(value);
  const kept = before + decimals;
  const padded = digits.padEnd(kept + 1, "0");
  const head = kept < 1 ? "0" : padded.slice(0, kept);
  const isUp = kept >= 0 && padded.charCodeAt(kept) >= 53;
  const scaled = (BigInt(head) + (isUp ? 1n : 0n)).toString().padStart(decimals + 1, "0");
  const text = decimals === 0 ? scaled : `${scaled.slice(0, -decimals)}.${scaled.slice(-decimals)}`;
  return negative && /[1-9]/.test(text) ? `-${text}` : text;
}

export function shownMeasure(value: number, unit: string): string {
  const [decimals, behind] = SHOWN_UNITS[unit]!;
  const text = shown(unit === "share" ? value * 100 : value, decimals);
  return (unit === "g" && text.endsWith(".0") ? text.slice(0, -2) : text) + behind;
}

export function typeset(text: string): string {
  return text.replace(/(^|[ \u00a0\n(“])-(?=[.,]?[0-9])/g, "$1−");
}

export function typesetSum(text: string): string {
  return typeset(text).replaceAll(" - ", " − ");
}

export function listed(entries: readonly string[]): string {
  if (entries.length < 2) return entries.join("");
  return `${entries.slice(0, -1).join(", ")} ${WORDS.and} ${entries[entries.length - 1]!}`;
}

export function filled(template: string, places: Readonly<Record<string, string>>): string {
  return template.replace(/\{([a-z_]+)\}/g, (whole, name: string) =>
    Object.prototype.hasOwnProperty.call(places, name) ? places[name]! : whole,
  );
}

export function word(group: string, code: string): string {
  const entries = WORDS[group] as Group;
  return Object.prototype.hasOwnProperty.call(entries, code) ? entries[code]! : code;
}

export function answerWord(check: string, value: string): string {
  const all = WORDS["checks"] as Record<string, { choices?: Group; found?: Group }>;
  const own = all[check] ?? {};
  const label = (own.choices ?? (WORDS[check] as Group | undefined) ?? {})[value] ?? value;
  return own.found?.[value] ?? (check in WORDS ? label : label.toLowerCase());
}

export function counted(number: number, group: string): string {
  const forms = WORDS.nouns[group]!;
  return `${number} ${number === 1 ? forms[0] : forms[1]}`;
}
