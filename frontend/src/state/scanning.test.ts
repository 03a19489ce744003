import { expect, test } from "vitest";
import { scanLabel } from "./scanning";

// GS1 element strings as in the worked examples CV-8-90 and CV-8-102
test("a carton's code fills lot, weight and best-before day", () => {
  const { label, sentence } = scanLabel("]C1011952123400017131020010001528033110PRN-24A", 2026);
  expect(label).toMatchObject({ source: "scan", lot: "PRN-24A", best_before: "2028-03-31" });
  expect(sentence).toBeNull();
});

test("a misread code takes nothing over and says what to do", () => {
  const { label, sentence } = scanLabel("]d2011952123400017210ABC", 2026);
  expect(label.lot).toBeUndefined();
  expect(sentence).toContain("Nothing was taken from it");
});

test("any other text is kept as text", () => {
  expect(scanLabel("hello", 2026)).toMatchObject({ label: { scan: "hello" }, sentence: expect.stringContaining("Type the lot and date") });
});
