import { describe, expect, it } from "vitest";
import { isFine, scaleOver, strokePath } from "./scale";

describe("a limit bar", () => {
  it("shows value and bound with room at both ends", () => {
    const scale = scaleOver([-9.5, -12], "C");
    expect(scale.at(-12)).toBeGreaterThan(0.1);
    expect(scale.at(-9.5)).toBeLessThan(0.9);
    expect(scale.at(-9.5)).toBeGreaterThan(scale.at(-12));
  });
  it("starts a share at nought and never passes the whole", () => {
    const scale = scaleOver([0.95, 0.1], "share");
    expect([scale.from, scale.to]).toEqual([0, 1]);
  });
  it("can be drawn when value and bound are the same, or both nought", () => {
    for (const values of [[-12, -12], [0, 0], [3]]) {
      const scale = scaleOver(values, "C");
      expect(scale.to).toBeGreaterThan(scale.from);
      expect(scale.at(values[0]!)).toBeGreaterThan(0);
    }
    expect(scaleOver([0, 0], "share").to).toBeGreaterThan(0);
  });
  it("keeps what lies off the bar at its end", () => {
    const scale = scaleOver([1, 2], "C");
    expect([scale.at(-99), scale.at(99)]).toEqual([0, 1]);
  });
  // CV-0-01 and CV-0-02: the end point is in for "at most" and "at least", out for the strict ones.
  it.each([
    [0.25, 0.25, "at_most", true],
    [0.2501, 0.25, "at_most", false],
    [4, 4, "below", false],
    [20, 20, "at_least", true],
    [20, 20, "above", false],
    [1, 0, "none", true],
  ] as const)("holds %f against %f %s", (measured, bound, sense, fine) => {
    expect(isFine(measured, bound, sense)).toBe(fine);
  });
});

describe("a signature", () => {
  it("is drawn from its strokes", () => {
    expect(
      strokePath(
        [
          [0, 0.5, 0],
          [0.5, 1, 9],
        ],
        300,
        100,
      ),
    ).toBe("M0 50 L150 100");
  });
  it("shows a dot", () => {
    expect(strokePath([[0.5, 0.5, 0]], 300, 100)).toBe("M150 50 l0.1 0");
    expect(strokePath([], 300, 100)).toBe("");
  });
});
