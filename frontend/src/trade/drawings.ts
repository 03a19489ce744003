// Line drawings of field marks and of the black-spot steps, by the id that species.json and melanosis.json name.
// They take the colour of the text around them.

import melanosis from "@trade-data/melanosis.json";

const FILES = import.meta.glob<string>("../../../inspections/trade/data/drawings/*.svg", {
  query: "?raw",
  import: "default",
  eager: true,
});
const BY_ID = new Map(Object.entries(FILES).map(([path, svg]) => [path.replace(/^.*\/|\.svg$/g, ""), svg]));

/** The drawing's SVG text, or null when a mark has none. */
export function drawing(id: string | null): string | null {
  return id === null ? null : (BY_ID.get(id) ?? null);
}

export interface MelanosisStep {
  score: number;
  words: string;
  detail: string;
  drawing: string;
}

/** The published 0 to 10 scale: name, basis, steps and cautions. */
export const MELANOSIS = melanosis as {
  scale: string;
  basis: { source: string; known: string; cv: string; words: string };
  steps: MelanosisStep[];
  cautions: string[];
};
