// @vitest-environment node
import vectors from "@fixtures/vectors/plain.json";
import { expect, test } from "vitest";
import { judgedWith, lineOut, type VerdictVectors } from "../testing/verdict_calls";

const given = vectors as unknown as VerdictVectors;
const checkOf = (each: unknown): string => (each as { in: { check: string } }).in.check;
type Out = { suggestion: string; codes: string[]; checks: Record<string, string> };

test.each(given.cases.map((each) => [each.id, each] as const))("a plain check agrees with the server: %s", (_, each) => {
  const judgement = judgedWith(given, each);
  const { suggestion, codes, checks } = lineOut(judgement) as Out;
  const vehicle = judgement.vehicle.reasons.map(({ code }) => code);
  expect({ suggestion, codes: [...vehicle, ...codes], state: checks[checkOf(each)] ?? null }).toEqual(each.out);
});
