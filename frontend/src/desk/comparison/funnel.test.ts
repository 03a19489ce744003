import { describe, expect, it } from "vitest";
import type { FunnelLimit, SupplierRow } from "../../trade/types";
import { across, curve, numbersAt, rankWords, ranked, spreadWords, topOf, upwards } from "./funnel";

const limits: FunnelLimit[] = [1, 4, 16, 64].map((expected) => ({
  expected,
  warn_low: 1 - 1 / Math.sqrt(expected),
  warn_high: 1 + 2 / Math.sqrt(expected),
  alarm_low: 0,
  alarm_high: 1 + 4 / Math.sqrt(expected),
}));

describe("the funnel", () => {
  it("goes across by the root of what was expected, from one side to the other", () => {
    expect(across(1, limits, 700)).toBe(0);
    expect(across(64, limits, 700)).toBe(700);
    // root 4 of roots 1 to 8: three sevenths
    expect(across(16, limits, 700)).toBeCloseTo(300);
  });
  it("holds every point and cuts only curves", () => {
    const top = topOf([{ name: "A", expected: 4, found: 24, ratio: 6, says: "more" }], limits);
    expect(top).toBeGreaterThan(6);
    // of 5, 3, 2 and 1.5 the first lies outside
    expect(curve(limits, "alarm_high", 4, 700, 200).split(" ")).toHaveLength(3);
  });
  it("goes up by the root of the ratio, so that one far supplier leaves the others room", () => {
    expect([0, 1, 16].map((ratio) => upwards(ratio, 16, 200))).toEqual([200, 150, 0]);
  });
  it("writes no number over another, however close the points are", () => {
    const points = [0, 1, 2, 3, 4, 5].map((place) => ({ x: 500 + place, y: 255 - place }));
    const spots = numbersAt(points, 560, 260);
    spots.forEach((spot, i) => {
      expect(spot.y).toBeLessThan(260);
      for (const other of spots.slice(i + 1)) expect(Math.abs(other.y - spot.y)).toBeGreaterThanOrEqual(32);
    });
    // each stands by its own point
    expect(spots.map(({ x }) => x)).toEqual([476, 477, 478, 479, 480, 481]);
  });
  it("says how far all stray, and whether cartons are alike", () => {
    expect(spreadWords({ effect: 1, spread: 4, limits })).toBe(
      "Together they stray 2.0 times as far as luck alone makes them: they truly differ.",
    );
    expect(spreadWords({ effect: 1.44, spread: 1, limits })).toContain("drawn 1.2 times as wide");
  });
});

describe("the order", () => {
  const row = (name: string, middle: number, low: number, high: number) =>
    ({ supplier: { id: name, name }, rank: { middle, low, high, is_last: 0.1, of: 4 } }) as unknown as SupplierRow;
  it("goes by the middle place, then by name, and leaves out whom nobody can place", () => {
    const rows = [row("Cold", 4, 3, 4), row("Bright", 1, 1, 4), row("Abalone", 1, 1, 2), { ...row("None", 1, 1, 1), rank: null }];
    expect(ranked(rows).map(({ name }) => name)).toEqual(["Abalone", "Bright", "Cold"]);
  });
  it("says when a place says nothing", () => {
    expect(rankWords(row("Bright", 2, 1, 4).rank!)).toBe("any place");
    expect(rankWords(row("Cold", 4, 4, 4).rank!)).toBe("place 4");
    expect(rankWords(row("Cold", 4, 3, 4).rank!)).toBe("between place 3 and 4");
  });
});
