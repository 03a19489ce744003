import { expect, test } from "vitest";
import type { Line } from "../store/document";
import { newLine } from "./start_document";
import { withBeside, withMore } from "./second_stage";

const line: Line = {
  ...newLine("s1", 20, null),
  cartons_counted: 20,
  sampling: { plan: "house", layers: 4, seed: "DN-5530/1", n: 3, acceptance: 0, positions: [4, 15, 17] },
};

test("further cartons come of the same seed, as the server draws them", () => {
  // inspections/trade/drawing.py, draw_more
  expect(withMore(line, 3).more).toEqual([3, 14, 16]);
});

test("a third draw takes none of the first two", () => {
  const again = { ...line, sampling: withMore(line, 3) };
  const more = withMore(again, 3).more!;
  expect(more.slice(0, 3)).toEqual([3, 14, 16]);
  expect(new Set([4, 15, 17, ...more]).size).toBe(9);
});

test("the neighbours of a warm carton are opened once", () => {
  expect(withBeside(line, [15, 14, 16]).more).toEqual([14, 16]);
});
