import { describe, expect, it } from "vitest";
import type { Comparison, Luck, SupplierRow } from "../../trade/types";
import { aloneWords, besideOthers, differenceWords, intervalOf, refusedWords, scaleEnd, standing, ticksTo } from "./strip";

const threshold = { cartons: 20, deliveries: 5 };
// Supplier B of the worked example CV-9-32: 15 of 200; the other two found 6/180, 4/100 and 2/120 in the same goods.
const B = {
  supplier: { id: "b", name: "Bright Cove", code: "BCV" },
  deliveries: 40,
  deliveries_opened: 40,
  delivered_cartons: 900,
  refused_cartons: 12,
  held_cartons: 0,
  thawed_faults: 0,
  refused_run: null,
  cartons_with_product: 190,
  cartons_with_sample: 150,
  cartons_opened: 200,
  defective: 15,
  rate: 0.075,
  low: 0.046,
  high: 0.12,
  comparable: { own: { cartons_opened: 200, defective: 15 }, others: { cartons_opened: 400, defective: 12 } },
  expected: 7.3333,
  ratio: 2.0455,
  ratio_low: 0.84,
  ratio_high: 4.4,
  allowed_rate: 0.0614,
  allowed_low: 0.025,
  allowed_high: 0.132,
  apart: false,
  shrunk: 0.06,
  shrunk_low: 0.03,
  shrunk_high: 0.1,
  chance_over: 0.8,
  alone_share: 0,
  too_few: false,
  rank: null,
  luck: { says: "within", chance: 0.06, among: 0.18, one_in: 17, compared: 3, design_effect: 1 },
  over_time: { by: "month", needed: 5, centre: null, is_widened: null, points: [], shift: null },
  difference: { share: 0.045, low: 0.008, high: 0.089 },
} satisfies SupplierRow;
const luck = (says: Luck["says"], one_in: number | null): Luck => ({ ...B.luck, says, one_in });
const told = (...rows: SupplierRow[]) =>
  ({
    rows,
    threshold,
    common: { cartons_opened: 600, defective: 27, rate: 0.045, low: 0.031, high: 0.0646 },
    funnel: null,
    sites: [],
    period: { from: "", to: "" },
  }) as unknown as Comparison;

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
    expect(intervalOf(none)).toBeNull();
  });
  it("says that no comparison is possible where the others brought too little", () => {
    const lone = { ...B, luck: null, comparable: null, expected: null, ratio: null };
    expect(standing(lone, threshold)).toMatch(/^No comparison is possible: the others brought too little/);
    expect(besideOthers(lone)).toBe("");
  });
  it("tells the sum behind it: what the others' rates would have given, and what was found", () => {
    expect(besideOthers(B)).toBe(
      "At the others' rates (12 of 400), the same goods at the same sites would have given 7.3 defective cartons; 15 were found: 2.05 times as many (95 % interval 0.84 to 4.40; 1 is like the others).",
    );
    expect(besideOthers({ ...B, ratio: null, ratio_low: null, ratio_high: null, expected: 0 })).toMatch(
      /would have given 0\.0 defective cartons; 15 were found\.$/,
    );
  });
  it("says that everything was refused of late, however few cartons were opened", () => {
    expect(refusedWords({ deliveries: 3, cartons: 54, since: "2026-11-02T06:00:00Z" })).toBe(
      "All of its last 3 deliveries were refused: 54 cartons since Mon, 2 Nov 2026.",
    );
    expect(refusedWords({ deliveries: 1, cartons: 20, since: "2026-11-02T06:00:00Z" })).toMatch(/^All of its last delivery was refused/);
    expect(refusedWords(null)).toBe("");
  });
  it("warns when goods had nobody to be compared with", () => {
    expect(aloneWords(0.4)).toMatch(/^40\u00a0% of its opened cartons .* left out of the comparison\.$/);
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
    expect(scaleEnd(told(B))).toBeCloseTo(0.15);
  });
  it("is not stretched by one that is too few to say", () => {
    expect(scaleEnd(told(B, { ...B, high: 0.9, too_few: true }))).toBeCloseTo(0.15);
  });
  it("has its ticks from nought to its end", () => {
    expect(ticksTo(0.2)).toEqual([0, 0.05, 0.1, 0.15000000000000002, 0.2]);
  });
});
