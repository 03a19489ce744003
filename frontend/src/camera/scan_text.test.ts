import vectors from "@fixtures/vectors/scans.json";
import { describe, expect, it } from "vitest";
import { labelFromScan, particularsFromScan, UnusableScan } from "./scan_text";

interface Case {
  id: string;
  in: { text: string; current_year: number };
  out?: unknown;
  error?: string;
}

describe("a scanned label", () => {
  for (const { id, in: given, out, error } of vectors.cases as unknown as Case[]) {
    it(`reads as on the server: ${id}`, () => {
      if (error === undefined) {
        expect(particularsFromScan(given.text, given.current_year)).toEqual(out);
      } else {
        const read = () => particularsFromScan(given.text, given.current_year);
        expect(read).toThrow(UnusableScan);
        expect(read).toThrow(error);
      }
    });
  }

  it("leaves an unknown day of production empty instead of inventing one (CV-8-77)", () => {
    expect(labelFromScan("011952123400017111260100", 2026).production_date).toBe("");
  });

  it("raises nothing but its own error on odd text", () => {
    for (const text of ["(", "(01)", "]C1", "\x1d", "https://", "https://x/01/%E0%A4%A", "01", "99", "]d2010", "10\x1d"]) {
      try {
        particularsFromScan(text, 2026);
      } catch (problem) {
        expect(problem).toBeInstanceOf(UnusableScan);
      }
    }
  });
});
