// @vitest-environment node
import vectors from "@fixtures/vectors/wording.json";
import { expect, test } from "vitest";
import { called, hoped, type VerdictCase } from "../testing/verdict_calls";

const cases = vectors.cases as unknown as VerdictCase[];

test.each(cases.map((each) => [each.id, each] as const))("wording agrees with the server: %s", (_, each) => {
  expect(called(each)).toEqual(hoped(each));
});
