/** Where things lie on a bar: shares of its width, 0 to 1. No DOM. */
import type { Sense } from "../../trade/types";

export interface Bound {
  bound: number;
  sense: Sense;
  /** What lies beyond it, in a word or two: "refuse", "outside the tolerance". */
  beyond: string;
  severity: string;
}
export interface Scale {
  at: (value: number) => number;
  from: number;
  to: number;
}

/** A scale that shows all the values with room at both ends; a share starts at 0 and never passes 1. */
export function scaleOver(values: readonly number[], unit: string | null): Scale {
  const least = Math.min(...values);
  const most = Math.max(...values);
  const span = most - least || Math.abs(most) * 0.5 || 1;
  const isCount = unit === "share" || unit === "score" || unit === "cartons";
  const from = isCount ? 0 : least - span * 0.35;
  const top = most + (isCount ? most || 0.1 : span) * 0.35;
  const to = unit === "share" ? Math.min(top, 1) : top;
  return { from, to, at: (value) => Math.min(1, Math.max(0, (value - from) / (to - from))) };
}

export function isFine(measured: number, bound: number, sense: Sense): boolean {
  switch (sense) {
    case "at_most":
      return measured <= bound;
    case "below":
      return measured < bound;
    case "at_least":
      return measured >= bound;
    case "above":
      return measured > bound;
    default:
      return true;
  }
}

/** Which end of the bar is the fine one. */
export function isFineBelow(sense: Sense): boolean {
  return sense === "at_most" || sense === "below";
}

/** A drawn signature's strokes as SVG path data in a box of so many units; a dot becomes a short stroke. */
export function strokePath(stroke: readonly (readonly number[])[], width: number, height: number): string {
  const points = stroke.map(([x = 0, y = 0]) => `${fixed(x * width)} ${fixed(y * height)}`);
  if (!points.length) return "";
  return points.length === 1 ? `M${points[0]} l0.1 0` : `M${points.join(" L")}`;
}
const fixed = (value: number) => String(Math.round(value * 10) / 10);
