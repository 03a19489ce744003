import { describe, expect, it } from "vitest";
import type { Line } from "../trade/types";
import { bestBeforeOf, inOrderOfUse, placeBeside } from "./rotation";

describe("which goods to use first", () => {
  it("is the nearest date, then the first received: B, C, A (CV-12-70 and CV-12-71, computed)", () => {
    const stock = [
      { name: "A", best_before: "2027-04-30", received: "2027-03-01" },
      { name: "B", best_before: "2027-03-15", received: "2027-03-10" },
      { name: "C", best_before: "2027-04-30", received: "2027-02-20" },
    ];
    expect(inOrderOfUse(stock).map((one) => one.name)).toEqual(["B", "C", "A"]);
    expect(stock.map((one) => one.name)).toEqual(["A", "B", "C"]);
  });
  it("puts an unknown date before what is known to keep", () => {
    const stock = [
      { best_before: "2027-01-01", received: "2026-01-01" },
      { best_before: "", received: "2026-05-01" },
    ];
    expect(inOrderOfUse(stock)[0]!.best_before).toBe("");
  });
  it("takes the earliest label of a line", () => {
    const carton = (best_before: string) => ({ label: { best_before } });
    const line = { cartons: [carton("2027-04-30"), carton(""), carton("2027-03-15"), { label: null }] } as unknown as Line;
    expect([bestBeforeOf(line), bestBeforeOf(undefined)]).toEqual(["2027-03-15", ""]);
  });

  it("puts a nearer date that came later in front (CV-12-70)", () => {
    expect(placeBeside("2027-03-15", ["2027-04-30", ""])).toBe("front");
    expect(placeBeside("2027-04-30", ["2027-04-30", "2027-03-15"])).toBe("behind");
    expect(placeBeside("", ["2027-04-30"])).toBe(null);
    expect(placeBeside("2027-04-30", [""])).toBe(null);
  });
});
