import { expect, test } from "vitest";
import { DEFAULT_LIMITS } from "../trade/limits";
import type { LimitSet } from "../store/document";
import { drawing } from "../trade/drawings";
import { isFineFor, limitOfScore, stepsFitting } from "./black_spot";

// Journal of Food Processing 2015, 460617, Table 1: small spots or larger stains, on up to or over half
test.each([
  [0, 40, [0]],
  [18, 40, [2, 6]],
  [20, 40, [2, 6]],
  [21, 40, [4, 8]],
  [40, 40, [4, 8, 10]],
])("%i of %i pieces with black spot can be the steps %j", (affected, lookedAt, steps) => {
  expect(stepsFitting(affected, lookedAt)).toEqual(steps);
});

test("a count that was not made leaves nothing to fit", () => {
  expect(stepsFitting(null, 40)).toEqual([]);
  expect(stepsFitting(41, 40)).toEqual([]);
  expect(stepsFitting(3, 0)).toEqual([]);
});

test("the line lies where the limits put it, and nowhere without limits", () => {
  const limit = limitOfScore(DEFAULT_LIMITS as unknown as LimitSet);
  expect(limit?.words).toBe("below 4");
  expect([0, 2, 4, 6].map((score) => isFineFor(limit, score))).toEqual([true, true, false, false]);
  expect(limitOfScore(null)).toBeNull();
  expect(isFineFor(null, 10)).toBe(true);
});

/** Area within a closed path of M, L, l, Q and C, each curve taken as 50 chords. */
function areaOf(path: string): number {
  const points: [number, number][] = [];
  for (const [, letter, rest] of path.matchAll(/([MLlQC])([^MLlQCzZ]*)/g)) {
    const numbers = rest!.match(/-?\d*\.?\d+/g)!.map(Number);
    const pairs = Array.from({ length: numbers.length / 2 }, (_, at) => [numbers[2 * at]!, numbers[2 * at + 1]!] as [number, number]);
    if (letter === "Q" || letter === "C") points.push(...chords([points.at(-1)!, ...pairs]));
    else for (const [x, y] of pairs) points.push(letter === "l" ? [points.at(-1)![0] + x, points.at(-1)![1] + y] : [x, y]);
  }
  return (
    Math.abs(
      points.reduce((sum, [x, y], at) => sum + x * points[(at + 1) % points.length]![1] - points[(at + 1) % points.length]![0] * y, 0),
    ) / 2
  );
}

/** Points of a Bézier curve by de Casteljau. */
function chords(control: [number, number][]): [number, number][] {
  return Array.from({ length: 50 }, (_, step) => {
    let level = control;
    const t = (step + 1) / 50;
    while (level.length > 1) level = level.slice(1).map(([x, y], at) => [level[at]![0] * (1 - t) + x * t, level[at]![1] * (1 - t) + y * t]);
    return level[0]!;
  });
}

test("the drawing of a tenth shades about a tenth of the shell that it draws", () => {
  const svg = drawing("tenth_of_piece")!;
  const closed = [...svg.matchAll(/d="([^"]*)"/g)].flatMap(([, path]) => path!.match(/M[^Mz]*z/gi) ?? []);
  const shaded = /d="([^"]*)" fill="currentColor"/.exec(svg)![1]!;
  const whole = closed.reduce((sum, path) => sum + areaOf(path), 0);
  expect(closed).toHaveLength(10);
  expect(areaOf(shaded) / whole).toBeGreaterThan(0.095);
  expect(areaOf(shaded) / whole).toBeLessThan(0.11);
});
