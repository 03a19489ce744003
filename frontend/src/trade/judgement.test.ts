// @vitest-environment node
import vectors from "@fixtures/vectors/judgement.json";
import judged from "@fixtures/vectors/judged.json";
import { expect, test } from "vitest";
import { explain } from "./reasons";
import { JUDGEMENT_VERSION, judgeDocument } from "./verdict";
import { judgedWith, type VerdictVectors } from "../testing/verdict_calls";
import { DEFAULT_LIMITS, UnusableLimits } from "./limits";

const { base, cases } = vectors as unknown as VerdictVectors;

test.each(cases.map((each) => [each.id, each] as const))("a whole judgement is the server's, word for word: %s", (_, each) => {
  expect(judgedWith({ base, cases }, each)).toEqual(each.out);
});

test.each(judged.cases.map((each) => [each.id, each] as const))("a receiver would do the same: %s", (_, each) => {
  const { document, specification } = each.in;
  expect(judgeDocument(document, [specification], DEFAULT_LIMITS).lines[0]).toMatchObject(each.out);
});

test("every reason explains itself without an open place", () => {
  const reasons = cases.flatMap((each) => judgedWith({ base, cases }, each).lines.flatMap((line) => line.reasons));
  expect(reasons.length).toBeGreaterThan(5);
  for (const reason of reasons) expect(Object.values(explain(reason)).join(" ")).not.toMatch(/[{}]/);
});

test("limits that cannot be judged by raise the documented error only", () => {
  for (const limits of [null, 5, {}, { limits: [null] }]) {
    expect(() => judgeDocument({}, [], limits)).toThrow(UnusableLimits);
  }
});

test("no document raises", () => {
  for (const document of [null, 5, "x", [], { lines: 5 }, { lines: [null, { cartons: [7] }] }]) {
    expect(judgeDocument(document, [null], DEFAULT_LIMITS).judgement_version).toBe(JUDGEMENT_VERSION);
  }
});
