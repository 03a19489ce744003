/** Which goods to use first: first expired, first out; of the same date, first received. */
import type { Line } from "../trade/types";

export interface Stock {
  /** YYYY-MM-DD, or "" when no label told it: used before what is known to keep. */
  best_before: string;
  received: string;
}

/** A nearer date that came later goes in front; an unknown date goes first of all (common practice, no source). */
export function inOrderOfUse<T extends Stock>(stock: readonly T[]): T[] {
  const key = (one: Stock) => `${one.best_before || "0000-00-00"} ${one.received}`;
  return [...stock].sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
}

/** Earliest best-before on the labels of a line's opened cartons, "" when none was read. */
export function bestBeforeOf(line: Line | undefined): string {
  const days = (line?.cartons ?? []).map((carton) => carton.label?.best_before ?? "").filter((day) => day !== "");
  return days.sort()[0] ?? "";
}

/** Where goods go beside those of the same kind that came before: in front of what expires later, else behind. */
export function placeBeside(best_before: string, earlier: readonly string[]): "front" | "behind" | null {
  const known = earlier.filter((day) => day !== "").sort();
  if (best_before === "" || known.length === 0) return null;
  return best_before < known[known.length - 1]! ? "front" : "behind";
}
