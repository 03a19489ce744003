// @vitest-environment node
import vectors from "@fixtures/vectors/why.json";
import { expect, test } from "vitest";
import { explain, type Why } from "./reasons";
import type { Reason } from "./types";
import { ORDER } from "./severity_ranking";

const cases = vectors.cases as unknown as { id: string; in: { reason: Reason }; out: Why }[];

test.each(cases.map((each) => [each.id, each] as const))("the why is the server's, word for word: %s", (_, each) => {
  expect(explain(each.in.reason)).toEqual(each.out);
});

test("every code has its why", () => {
  expect(new Set(cases.map((each) => each.in.reason.code))).toEqual(new Set(ORDER));
});
