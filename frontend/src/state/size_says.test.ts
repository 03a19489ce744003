import { expect, test } from "vitest";
import type { Specification } from "../store/document";
import { sizeSays } from "./size_says";

const ordered = { grade: "16/20", presentation: "HLSO" } as Specification;
const g = (entered: string) => ({ entered, unit: "g" as const });

// 453.59237 g to the pound (international pound, exact); grades as the trade writes them
test.each([
  ["1008", "good", "18.0 to the pound: size 16/20, as ordered.", false],
  ["1296", "bad", "14.0 to the pound: not 16/20. Nearest size U/15.", false],
  ["1140", "warn", "15.9 to the pound: too close to the edge of 16/20 to tell from 40 pieces. About 37 more would tell.", true],
])("40 pieces in %s g", (entered, tone, words, isUnsure) => {
  expect(sizeSays(40, g(entered), "deglazed", ordered)).toMatchObject({ tone, words, isUnsure });
});

test("with the glaze on no size is told, and a half-typed weight says nothing", () => {
  expect(sizeSays(40, g("1120"), "glazed", ordered)?.words).toContain("cannot be told");
  expect(sizeSays(40, g(""), "deglazed", ordered)).toBeNull();
  expect(sizeSays(40, g("1008"), "deglazed", null)).toBeNull();
  expect(sizeSays(40, g("1008"), "deglazed", { ...ordered, grade: "soft and broken" })).toBeNull();
});
