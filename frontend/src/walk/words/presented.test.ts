import { expect, test } from "vitest";
import { drawing, MELANOSIS } from "../../trade/drawings";
import { presented } from "./presented";

const partsOf = (svg: string) => [...svg.matchAll(/<(?:path|circle|ellipse)[^>]*\/>/g)].map(([part]) => part);
const CARAPACE = 'd="M42 62';
const SEGMENT = 'd="M115 40.5';
const LEGS = 'd="M104 80';

test.each(MELANOSIS.steps.map((one) => one.drawing))("%s shows no head on headless goods, no legs on peeled ones", (id) => {
  const whole = drawing(id)!;
  expect(whole).toContain(CARAPACE);
  expect(presented(whole, "HOSO")).toBe(whole);
  const headless = presented(whole, "HLSO");
  expect(headless).not.toContain(CARAPACE);
  expect(headless).not.toMatch(/<circle/);
  for (const kept of [SEGMENT, LEGS]) expect(headless).toContain(kept);
  expect(presented(whole, "PD")).not.toContain(LEGS);
  expect(partsOf(headless).length).toBeGreaterThan(6);
});
