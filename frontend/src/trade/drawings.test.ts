// @vitest-environment node
import { expect, test } from "vitest";
import { drawing, MELANOSIS } from "./drawings";
import { KEY, MARKS, TABLE } from "./species";

test("every mark that names a drawing has one, with a title for those who cannot see it", () => {
  const ids = [
    ...Object.values(MARKS).map((mark) => mark.drawing),
    ...KEY.flatMap((row) => Object.values(row.drawings)),
    ...MELANOSIS.steps.map((step) => step.drawing),
  ].filter((id) => id !== null);
  for (const id of ids) expect(drawing(id), id).toMatch(/^<svg [^>]*aria-label="[^"]+"><title>/);
});

test("every mark of a species is described", () => {
  for (const species of TABLE.species) {
    for (const id of [...species.head_on, ...species.headless]) expect(MARKS[id], `${species.code} ${id}`).toBeDefined();
  }
});

test("the scale has its six published steps (Journal of Food Processing 2015, 460617, Table 1)", () => {
  expect(MELANOSIS.steps.map((step) => step.score)).toEqual([0, 2, 4, 6, 8, 10]);
});
