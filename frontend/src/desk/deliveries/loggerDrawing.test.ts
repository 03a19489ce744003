import { describe, expect, it } from "vitest";
import vectors from "@fixtures/vectors/logger_drawing.json";
import { drawingOf, type LogPlot } from "./loggerDrawing";

type Case = { id: string; in: { plot: LogPlot; width: number; height: number }; out: unknown };
const cases = vectors.cases as unknown as Case[];
const plot = cases[0]!.in.plot;

describe("the drawing of a log", () => {
  it.each(cases)("is the server's to the last digit: $id", ({ in: given, out }) => {
    expect(drawingOf(given.plot, given.width, given.height)).toEqual(out);
  });
  it("keeps every point and every word inside", () => {
    for (const width of [260, 318, 390, 760, 1200]) {
      const drawn = drawingOf(plot, width, 300);
      const [left, right] = [Number(drawn.left), Number(drawn.right)];
      const xs = drawn.curves.flatMap((curve) => curve.split(" ").map((pair) => Number(pair.split(",")[0])));
      expect(Math.min(...xs)).toBeGreaterThanOrEqual(left);
      expect(Math.max(...xs)).toBeLessThanOrEqual(right);
      for (const box of [...drawn.shaded, ...drawn.gaps]) expect(Number(box.x) + Number(box.width)).toBeLessThanOrEqual(right + 2);
    }
  });
  it("parts labels that would touch", () => {
    const near = { ...plot, limits: [-18, -17, -16].map((limit_c) => ({ limit_c, text: "x" })), scale: { from: -30, to: 40, step: 10 } };
    const places = drawingOf(near, 350, 300).limits.map((line) => Number(line.text_at));
    expect(places[1]! - places[0]!).toBeGreaterThanOrEqual(15);
    expect(places[2]! - places[1]!).toBeGreaterThanOrEqual(15);
  });
  it("labels the longest of many stretches and draws them all", () => {
    const shaded = Array.from({ length: 40 }, (_, i) => ({
      from_s: plot.from_s + i * 1000, to_s: plot.from_s + i * 1000 + 100 + i, limit_c: -15, text: `${i} minutes, to -9.0 °C`,
    }));
    const boxes = drawingOf({ ...plot, shaded }, 350, 300).shaded;
    expect(boxes).toHaveLength(40);
    expect(boxes.at(-1)!.text).toBe("39 minutes, to -9.0 °C");
    expect(boxes.filter((box) => box.text).length).toBeLessThanOrEqual(6);
  });
  it("shows the time of day on every tick and the day where it changes", () => {
    const ticks = drawingOf(plot, 350, 300).ticks;
    expect(ticks.length).toBeGreaterThan(2);
    expect(ticks.every((tick) => /^\d\d:\d\d$/.test(tick.text))).toBe(true);
    const days = ticks.map((tick) => tick.day).filter(Boolean);
    expect(new Set(days).size).toBe(days.length);
  });
});
