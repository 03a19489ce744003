// @vitest-environment node
import vectors from "@fixtures/vectors/condition.json";
import { expect, test } from "vitest";
import { called, hoped, judgedWith, lineOut, type VerdictVectors } from "../testing/verdict_calls";

const { base, cases } = vectors as unknown as VerdictVectors;

test.each(cases.map((each) => [each.id, each] as const))("condition agrees with the server: %s", (_, each) => {
  if (each.in.call === undefined) expect(lineOut(judgedWith({ base, cases }, each))).toEqual(each.out);
  else expect(called(each)).toEqual(hoped(each));
});
