import { expect, test } from "vitest";
import type { LimitSet, Line, Specification } from "../../store/document";
import { DEFAULT_LIMITS } from "../../trade/limits";
import { explainedDraw, explainedSize } from "./explained";

// 453.59237 g to the pound (international pound, exact)
test("a size explains itself: the sum, its numbers, the size, the sources", () => {
  const why = explainedSize(40, { entered: "1008", unit: "g" }, "deglazed", { grade: "16/20", presentation: "HLSO" } as Specification);
  expect(why.formula).toContain("453.59237");
  expect(why.numbers).toContainEqual({ words: "prawns weighed", shown: "40" });
  expect(why.numbers).toContainEqual({ words: "weight without glaze", shown: "1008 g" });
  expect(why.numbers).toContainEqual({ words: "count", shown: "18.0 to the pound" });
  expect(why.sum).toBe("40 × 453.59237 / 1008 g = 18.0 to the pound");
  expect(why.limit).toBe("Size 16/20: 16 to 20 to the pound.");
  expect(why.sources[0]).toContain("CXS 92-1981");
});

// Hypergeometric: one bad of 6, two opened, C(5,2) / C(6,2) = 10 / 15
test("a draw explains itself: 2 of 6 would miss one bad carton two times in three", () => {
  const why = explainedDraw(6, 2, { sampling: null } as Line, DEFAULT_LIMITS as unknown as LimitSet);
  expect(why.numbers).toContainEqual({ words: "chance of opening none of them", shown: "66.7 %" });
  expect(why.sum).toBe("C(1, 0) C(6 − 1, 2) / C(6, 2) = 66.7 %");
  expect(why.limit).toBe("The plan accepts the lot only if none of the cartons opened is bad.");
  expect(why.sources.length).toBeGreaterThan(0);
});
