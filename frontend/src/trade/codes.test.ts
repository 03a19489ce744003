// @vitest-environment node
// Every refusal that this side can give has its sentence in the shared file.
import wording from "@trade-data/wording_en.json";
import { expect, test } from "vitest";

const FILES = import.meta.glob<string>("./*.ts", { query: "?raw", import: "default", eager: true });
const CODE = /"([A-Z]+(?:-[A-Z0-9]+)+)"/g;
const sentences = wording.unusable as Record<string, string>;

/** Statements that make a refusal, or hand a code on to one that does. */
const refusals = (text: string): string[] => text.match(/(?:new Unusable\w*|\brefuse|\bless)\([^;]*?;/g) ?? [];
const raised = Object.entries(FILES)
  .filter(([file]) => !file.endsWith(".test.ts"))
  .flatMap(([file, text]) => refusals(text).flatMap((call) => [...call.matchAll(CODE)].map((found) => [file, found[1]!] as const)));

test("the scan finds what is raised", () => {
  const codes = raised.map(([, code]) => code);
  for (const code of ["READ-01", "GRADE-02", "SAMPLE-04", "LIMITS-05", "KEY-01", "FACT-03", "GLAZE-01"]) {
    expect(codes).toContain(code);
  }
});

test.each(raised)("%s has a sentence for %s", (_, code) => {
  expect(sentences[code]).toBeTruthy();
});
