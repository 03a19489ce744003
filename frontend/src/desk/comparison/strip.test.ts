import { describe, expect, it } from "vitest";
import type { Comparison, Luck, SupplierRow } from "../shapes";
import { aloneWords, differenceWords, intervalOf, scaleEnd, standing, ticksTo } from "./strip";

const threshold = { cartons: 20, deliveries: 5 };
// Supplier B of the worked example CV-9-32 (computed): 15 of 200, 12.0857 expected.
const B = {
  supplier: { id: "b", name: "Bright Cove" },
  deliveries: 40, deliveries_opened: 40, delivered_cartons: 900, refused_cartons: 12, held_cartons: 0,
  cartons_probed: 190, cartons_sampled: 150,
  cartons_opened: 200, defective: 15, rate: 0.075, low: 0.046, high: 0.12,
  expected: 12.0857, ratio: 1.2411, ratio_low: 0.6947, ratio_high: 2.0471,
  allowed_rate: 0.05585, allowed_low: 0.0313, allowed_high: 0.0921, apart: false,
  shrunk: 0.06, shrunk_low: 0.03, shrunk_high: 0.1, chance_over: 0.8, alone_share: 0, too_few: false,
  luck: {
    says: "within", chance: 0.47, among: 0.7, one_in: 2, compared: 3, likeness: 1, low: 5.6, high: 19.2, far_low: 3, far_high: 24.4,
  },
  over_time: { by: "month", needed: 5, centre: null, wander: null, is_widened: null, points: [] },
  difference: { share: 0.045, low: 0.008, high: 0.089 },
  by_site: [], mix: [],
} satisfies SupplierRow;
const luck = (says: Luck["says"], one_in: number | null): Luck => ({ ...B.luck, says, one_in });
const told = (...rows: SupplierRow[]) =>
  ({ rows, threshold, common: { cartons_opened: 600, defective: 27, rate: 0.045, low: 0.031, high: 0.0646 }, sites: [], period: { from: "", to: "" } }) as Comparison;

describe("what is said of a supplier", () => {
  it("finds nothing beyond luck, though the crude rate looks worse", () => {
    expect(standing(B, threshold)).toMatch(/^Within what luck explains/);
  });
  it("says more or fewer than luck explains with the chance that luck goes as far", () => {
    expect(standing({ ...B, luck: luck("more", 700) }, threshold)).toBe(
      "More defective cartons than luck explains: 1 chance in 700 that luck alone goes as far, in the same goods at the same sites.",
    );
    expect(standing({ ...B, luck: luck("fewer", 1200) }, threshold)).toMatch(/^Fewer defective .* 1 chance in 1,200 /);
    expect(standing({ ...B, luck: luck("more", 5_000_000) }, threshold)).toContain("less than 1 chance in 1,000,000");
  });
  it("says too few with the numbers that it takes, whatever the ratio", () => {
    const few = { ...B, too_few: true, apart: true, ratio: 9, cartons_opened: 12, deliveries_opened: 1 };
    expect(standing(few, threshold)).toBe("Too few to say: 12 cartons opened over 1 delivery. It takes 20 over 5.");
  });
  it("says no data and not nought for no carton opened (CV-9-14)", () => {
    const none = { ...B, cartons_opened: 0, rate: null, low: null, high: null, ratio: null, too_few: true };
    expect(standing(none, threshold)).toMatch(/^No data/);
    expect(intervalOf(none, "crude")).toBeNull();
  });
  it("warns when goods had nobody to be compared with", () => {
    expect(aloneWords(0.4)).toMatch(/^40\u00a0% of its opened cartons/);
    expect([aloneWords(0.1), aloneWords(null)]).toEqual(["", ""]);
  });
});

describe("the plain difference", () => {
  it("is told in points with its interval (CV-9-16)", () => {
    const words = differenceWords({ share: 0.1125, low: 0.0163, high: 0.2263 });
    expect(words).toMatch(/^As counted, 11\.3 points above all the others together \(1\.6 to 22\.6 points\)/);
    expect(differenceWords({ share: -0.02, low: -0.05, high: 0.01 })).toContain("2.0 points below");
    expect(differenceWords({ share: -0.02, low: -0.05, high: 0.01 })).toContain("(−5.0 to 1.0 points)");
  });
});

describe("the common scale", () => {
  it("holds the widest interval that may be read", () => {
    expect(scaleEnd(told(B), "crude")).toBeCloseTo(0.15);
    expect(scaleEnd(told(B), "allowed")).toBeCloseTo(0.1);
  });
  it("is not stretched by one that is too few to say", () => {
    expect(scaleEnd(told(B, { ...B, high: 0.9, too_few: true }), "crude")).toBeCloseTo(0.15);
  });
  it("has its ticks from nought to its end", () => {
    expect(ticksTo(0.2)).toEqual([0, 0.05, 0.1, 0.15000000000000002, 0.2]);
  });
});
