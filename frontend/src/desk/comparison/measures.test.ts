import { describe, expect, it } from "vitest";
import type { Measured } from "../../trade/types";
import { columnsFor, shareText } from "./measures";

const none = { count: 0, of: 0, share: null, low: null, high: null };
const names = [
  "late",
  "refused",
  "looked_into",
  "defective",
  "probed",
  "weighed",
  "warm",
  "short",
  "off_count",
  "spot",
  "burn",
  "soft",
  "late_notice",
  "claims_agreed",
];
const empty: Measured = {
  counts: { delivered: 0 },
  shares: Object.fromEntries(names.map((name) => [name, none])),
  too_few: true,
  mean_product_c: null,
  net_share: null,
  out_minutes: null,
  settle_days: null,
  cost: null,
};
// percentages are set with a narrow space that does not break
const plain = (text: string) => text.replace(/[\u202f\u00a0]/g, " ");
const textOf = (one: Measured, name: string) =>
  columnsFor("site", false)
    .find((column) => column.name === name)!
    .text(one);

describe("measures", () => {
  it("say what was counted before the share, and no share where nobody looked", () => {
    expect(plain(shareText({ count: 4, of: 63, share: 4 / 63, low: 0.025, high: 0.152 }))).toMatch(/^4 of 63: 6.3 % \(/);
    expect(shareText(none)).toBe("not looked at");
  });
  it("tell the parts of a sound kilogram's cost, and what was taken as whole", () => {
    const cost = { currency: "EUR", paid: 14.5, net_share: 0.95, sound_share: 0.95, sound: 16.0665 };
    expect(plain(textOf({ ...empty, cost }, "cost"))).toMatch(
      /^16\.07 EUR \(14\.50 EUR paid, 95 % of the weight there, 95 % of cartons sound\)/,
    );
    expect(textOf({ ...empty, cost: { ...cost, net_share: null, sound_share: null } }, "cost")).toContain("not weighed, none opened");
    expect(textOf(empty, "cost")).toBe("no price, or several currencies");
  });
  it("ask a site how closely it looks, and nobody else", () => {
    expect(columnsFor("site", false).map(({ name }) => name)).toContain("out_minutes");
    expect(columnsFor("supplier", false).map(({ name }) => name)).not.toContain("out_minutes");
    expect(columnsFor("month", true).map(({ name }) => name)).toContain("probed");
  });
  it("tell claims with the late ones among them, and no share where none was sent", () => {
    const late_notice = { count: 2, of: 3, share: 2 / 3, low: 0.2, high: 0.9 };
    const some: Measured = { ...empty, counts: { claims: 3 }, shares: { ...empty.shares, late_notice }, settle_days: 2.5 };
    expect(textOf(some, "claims")).toBe("3, 2 of them late");
    expect(textOf(some, "settle_days")).toBe("2.5 days on average");
    expect([textOf(empty, "claims"), textOf(empty, "claims_agreed"), textOf(empty, "settle_days")]).toEqual([
      "none",
      "none sent",
      "none settled",
    ]);
  });
  it("never leave a cell empty", () => {
    for (const column of columnsFor("site", true)) expect(column.text(empty)).not.toBe("");
  });
});
