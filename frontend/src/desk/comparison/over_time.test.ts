import { describe, expect, it } from "vitest";
import type { OverTime, TimePoint } from "../shapes";
import { bandPath, downTo, saysOverTime, spanName, topOf } from "./over_time";

const point = (from: string, defective: number, opened: number, limits: [number, number] | null, is_out = false): TimePoint => ({
  from, defective, opened, rate: defective / opened, low: limits?.[0] ?? null, high: limits?.[1] ?? null, is_out,
});
// CV-9-50 (computed): bad 3 5 2 … of n 60 80 50 …, usual rate 6.25 %; a p-chart with no point out.
const STEADY: OverTime = {
  by: "month", needed: 5, centre: 0.0625, wander: 0.91361, is_widened: false,
  points: [point("2026-01-01", 3, 60, [0, 0.15625]), point("2026-02-01", 5, 80, [0, 0.14369]), point("2026-03-01", 2, 50, [0, 0.1652]),
    point("2026-04-01", 9, 120, [0, 0.12879]), point("2026-05-01", 4, 75, [0, 0.14635])],
};

describe("what a chart says", () => {
  it("names no month where none is beyond its limits (CV-9-50)", () => {
    expect(saysOverTime(STEADY)).toBe("Steady over 5 months: no month beyond the limits. Its own usual rate is 6.3\u00a0%.");
  });
  it("names each month that is out, with its count and the limit it passed", () => {
    const out = { ...STEADY, points: [...STEADY.points, point("2026-06-01", 14, 40, [0, 0.177], true)] };
    expect(saysOverTime(out)).toContain("More than luck explains in Jun 2026 (14 of 40, over 18\u00a0%).");
  });
  it("says when the limits were widened", () => {
    expect(saysOverTime({ ...STEADY, is_widened: true })).toMatch(/wander more than luck makes them, so the limits are drawn wider\.$/);
  });
  it("says too few, with what it takes", () => {
    const few = { ...STEADY, centre: null, points: STEADY.points.slice(0, 2) };
    expect(saysOverTime(few)).toBe("Too few to say: 2 months with an opened carton. It takes 5 before limits can be drawn.");
    expect(saysOverTime({ ...few, points: [] })).toMatch(/^No carton was opened/);
    expect(saysOverTime({ ...STEADY, centre: null })).toMatch(/^The same in every one/);
  });
  it("names a week by its first day", () => {
    expect(spanName(point("2026-03-02", 0, 5, null), "week")).toBe("week of 2 Mar");
  });
});

describe("the drawing", () => {
  it("holds every point and every limit", () => {
    expect(topOf(STEADY)).toBeCloseTo(0.2);
    expect(topOf({ ...STEADY, centre: null, points: [point("2026-01-01", 0, 5, null)] })).toBeCloseTo(0.06);
  });
  it("measures down from the top", () => {
    expect([downTo(0, 0.2, 100), downTo(0.1, 0.2, 100), downTo(0.2, 0.2, 100), downTo(0.9, 0.2, 100)]).toEqual([100, 50, 0, 0]);
  });
  it("draws a step for each month and closes the band", () => {
    const path = bandPath({ ...STEADY, points: STEADY.points.slice(0, 2) }, 0.2, 100, 100)!;
    expect(path).toBe("M0.00,21.88 50.00,21.88 L50.00,28.15 100.00,28.15 L100.00,100.00 50.00,100.00 L50.00,100.00 0.00,100.00Z");
    expect(bandPath({ ...STEADY, centre: null }, 0.2, 100, 100)).toBeNull();
  });
});
