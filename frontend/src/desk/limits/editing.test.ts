import shipped from "@trade-data/limits.json";
import { describe, expect, it } from "vitest";
import type { LimitSet } from "../../trade/types";
import { edited, entriesOf, grouped, inWords, limitName, needsSource } from "./editing";

const set = shipped as unknown as LimitSet;
const typed = (code: string, change: object) => ({ ...entriesOf(set), [code]: { ...entriesOf(set)[code]!, ...change } });
const limitIn = (entries: ReturnType<typeof entriesOf>, code: string) => edited(set, entries).limits.find((limit) => limit.code === code)!;

describe("editing limits", () => {
  it("changes nothing when nothing was touched, to the last bit", () => {
    const same = edited(set, entriesOf(set));
    expect(same.changed).toEqual([]);
    expect(same.limits).toEqual(set.limits);
  });
  it.each(["-20", "−20", "-20,0", " -20.0 "])("reads %s as minus twenty", (bound) => {
    expect(limitIn(typed("product_c.within", { bound }), "product_c.within").bound).toBe(-20);
  });
  it("takes shares in per cent", () => {
    expect(limitIn(typed("black_spot_share", { bound: "12,5" }), "black_spot_share").bound).toBe(0.125);
  });
  it.each(["warm", "", "1.2.3", "1e3"])("says so when %s is no number, and keeps the bound", (bound) => {
    const result = edited(set, typed("product_c.reject", { bound }));
    expect(result.unusable["product_c.reject"]).toContain("Nothing was changed");
    expect(result.limits.find((limit) => limit.code === "product_c.reject")!.bound).toBe(-12);
  });
  it("does not let a house figure wear the published source of the number it replaced", () => {
    const entries = typed("product_c.reject", { bound: "-10" });
    expect(needsSource(set, entries)).toEqual(["product_c.reject"]);
    expect(limitIn(entries, "product_c.reject").basis.known).toBe("common_practice");
    const sourced = typed("product_c.reject", { bound: "-10", source: "house rule" });
    expect(needsSource(set, sourced)).toEqual([]);
  });
});

describe("a refusal", () => {
  it("names limits as the screen does", () => {
    expect(
      inWords(
        "“product_c.within” and “product_c.tolerance” contradict each other.",
        set.limits.map((one) => one.code),
      ),
    ).toBe("“Product, fine” and “Product, transport tolerance” contradict each other.");
  });
});

describe("the list of limits", () => {
  it("shows every shipped limit once, under a name in words", () => {
    const listed = grouped(set.limits).flatMap(([, limits]) => limits.map((limit) => limit.code));
    expect([...listed].sort()).toEqual(set.limits.map((limit) => limit.code).sort());
    for (const code of listed) expect(limitName(code)).not.toMatch(/[_.]/);
  });
});
