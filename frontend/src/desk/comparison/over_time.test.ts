import { describe, expect, it } from "vitest";
import type { LimitedCount, OverTime, TimePoint } from "../../trade/types";
import { bandPath, cumulative, downTo, saysOverTime, spanName, weekly } from "./over_time";

const limited = (defective: number, opened: number, [low, high]: [number, number]): LimitedCount => ({
  defective,
  opened,
  low,
  high,
  is_out: defective < low || defective > high,
});
const point = (from: string, count: LimitedCount, total: LimitedCount): TimePoint => ({ from, ...count, total });
// Nothing in 54 cartons, then 1 of 3 and 3 of 6: no week is out, the running total is (hypergeometric law, SciPy).
const SHIFTED: OverTime = {
  by: "week",
  needed: 5,
  centre: 4 / 63,
  is_widened: false,
  points: [
    point("2026-10-05", limited(0, 20, [0, 3]), limited(0, 20, [0, 4])),
    point("2026-10-12", limited(0, 20, [0, 3]), limited(0, 40, [0, 4])),
    point("2026-10-19", limited(0, 14, [0, 3]), limited(0, 54, [1, 4])),
    point("2026-10-26", limited(1, 3, [0, 1]), limited(1, 57, [1, 4])),
    point("2026-11-02", limited(3, 6, [0, 3]), limited(4, 63, [4, 4])),
  ],
  shift: { from: "2026-10-26", before: limited(0, 54, [0, 0]), since: limited(4, 9, [0, 0]), one_in: 1200 },
};
const STEADY: OverTime = { ...SHIFTED, shift: null };

describe("what the charts say", () => {
  it("names the moment of a change that no single week shows", () => {
    expect(saysOverTime(SHIFTED)).toBe(
      "Worse since the week of 26 Oct: 4 of 9 defective, before 0 of 54 (1 chance in 1,200 by luck). Overall 6.3\u00a0%.",
    );
    expect(
      saysOverTime({ ...SHIFTED, shift: { ...SHIFTED.shift!, since: limited(0, 9, [0, 0]), before: limited(9, 54, [0, 0]) } }),
    ).toMatch(/^Better since/);
  });
  it("names no week where none is beyond its limits", () => {
    expect(saysOverTime(STEADY)).toBe("No change over 5 weeks: no week beyond the limits, nor the running total. Overall 6.3\u00a0%.");
  });
  it("names each week that is out, with its count and what luck gives", () => {
    const out = point("2026-11-09", limited(7, 10, [0, 4]), limited(11, 73, [11, 11]));
    expect(saysOverTime({ ...STEADY, points: [...STEADY.points, out] })).toContain(
      "More than luck explains in the week of 9 Nov: 7 of 10, where luck gives at most 4.",
    );
  });
  it("says when the limits were widened", () => {
    expect(saysOverTime({ ...STEADY, is_widened: true })).toMatch(/wander more than luck makes them, so the limits are drawn wider\.$/);
  });
  it("says too few, with what it takes", () => {
    const few = { ...STEADY, centre: null, points: STEADY.points.slice(0, 2) };
    expect(saysOverTime(few)).toBe("Too few to say: 2 weeks with an opened carton. It takes 5 before limits can be drawn.");
    expect(saysOverTime({ ...few, points: [] })).toMatch(/^No carton was opened/);
    expect(saysOverTime({ ...STEADY, centre: null })).toMatch(/^The same in every one/);
  });
  it("names a month by its name", () => {
    expect(spanName("2026-03-01", "month")).toBe("Mar 2026");
  });
});

describe("the drawings", () => {
  it.each([["weekly", weekly, "is_out"] as const, ["cumulative", cumulative, "total"] as const])(
    "the %s one draws a point outside its band exactly where the words call it out",
    (_, draw, which) => {
      const drawn = draw(SHIFTED);
      const said = SHIFTED.points.map((each) => (which === "total" ? each.total!.is_out : each.is_out));
      expect(drawn.values.map(({ mid, low, high }) => mid < low! || mid > high!)).toEqual(said);
      expect(drawn.values.map(({ is_out }) => is_out)).toEqual(said);
    },
  );
  it("holds every point and every limit", () => {
    for (const drawn of [weekly(SHIFTED), cumulative(SHIFTED)]) {
      for (const { mid, low, high } of drawn.values) {
        for (const value of [mid, low!, high!]) expect(value).toBeGreaterThanOrEqual(drawn.bottom);
        for (const value of [mid, low!, high!]) expect(value).toBeLessThanOrEqual(drawn.top);
      }
    }
  });
  it("measures down from the top, over and under nought", () => {
    expect([1, 0, -1, -9].map((value) => downTo(value, { top: 1, bottom: -1 }, 100))).toEqual([0, 50, 100, 100]);
  });
  it("draws a step for each week and closes the band; without limits it draws none", () => {
    const band = { top: 1, bottom: 0, values: [0.5, 0.25].map((high) => ({ mid: 0, low: 0, high, is_out: false })) };
    expect(bandPath(band, 100, 100)).toBe(
      "M0.00,50.00 50.00,50.00 L50.00,75.00 100.00,75.00 L100.00,100.00 50.00,100.00 L50.00,100.00 0.00,100.00Z",
    );
    expect(bandPath({ ...band, values: [{ mid: 0, low: null, high: null, is_out: false }] }, 100, 100)).toBeNull();
  });
});
