// Mirror of inspections/trade/basis.py.

export const KNOWN = ["read", "from_memory", "common_practice", "computed"] as const;
export type Known = (typeof KNOWN)[number];
export type Basis = { source: string; known: Known; cv: string; words: string };
