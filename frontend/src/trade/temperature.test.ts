// @vitest-environment node
import vectors from "@fixtures/vectors/temperature.json";
import { expect, test } from "vitest";
import { expected, outcome, type VectorCase } from "../testing/vector_calls";

const cases = vectors.cases as unknown as VectorCase[];

test.each(cases.map((each) => [each.id, each] as const))("temperature agrees with the server to the last bit: %s", (_, each) => {
  expect(outcome(each)).toEqual(expected(each));
});
