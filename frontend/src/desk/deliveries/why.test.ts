import { describe, expect, it } from "vitest";
import shipped from "@trade-data/limits.json";
import type { CartonVerdict, LimitSet, Reason, Specification } from "../../trade/types";
import { shown } from "../../trade/wording";
import { isFine } from "../parts/scale";
import { checksOf, enteredWords, inForce, numbersOf, readingsOf } from "./readings";
import { explain } from "../../trade/reasons";
import { unusableWords } from "./unusable";
import { whyOf } from "./why";

const limits = shipped as unknown as LimitSet;
const flat = (text: string) => text.replaceAll("\u00a0", " ");
const basis = { source: "CXC 8-1976 §4", known: "read", cv: "CV-5-20", words: "No package warmer than -12 °C." } as const;
const reason = (change: Partial<Reason>): Reason => ({
  code: "TEMP-REJECT",
  severity: "critical",
  carton: 3,
  measured: -9.5,
  unit: "C",
  bound: -12,
  sense: "at_most",
  limit: "product_c.reject",
  basis,
  whose: "published",
  acts_on: "carton",
  leads_to: "unfit",
  facts: {},
  text: "",
  ...change,
});

describe("why", () => {
  it("is what the judgement explains: numbers, limit, source", () => {
    const why = whyOf(reason({}));
    const said = explain(reason({}));
    expect(flat(why.numbers)).toContain("−9.5 °C");
    expect([flat(why.numbers), flat(why.limit), why.source, flat(why.words)]).toEqual([
      said.numbers.replace("-9.5", "−9.5"),
      "Fine is at most −12.0 °C.",
      "Published limit. Source: CXC 8-1976 §4 (read in the source).",
      basis.words.replace("-12", "−12"),
    ]);
  });
  it("keeps a number and its unit on one line", () => {
    expect(whyOf(reason({})).limit).toContain("−12.0\u00a0°C");
  });
  it("works a share out, with its interval (3 of 40: CV-9-08)", () => {
    const share = reason({
      code: "BLACK-HOUSE",
      unit: "share",
      measured: 0.075,
      bound: 0.05,
      facts: { affected: 3, looked_at: 40, low: 0.0258, high: 0.1986 },
    });
    expect(flat(whyOf(share).numbers)).toMatch(/^3 \/ 40 = 7\.5 %\. .*2\.6 % to 19\.9 %/);
  });
  it("leaves a sum out rather than show one with a hole", () => {
    expect(whyOf(reason({ code: "BLACK-HOUSE", unit: "share", measured: 0.5, facts: { affected: 1 } })).numbers).toBe("");
  });
  it("says that a limit without a basis has none", () => {
    const seen = whyOf(reason({ measured: null, bound: null, unit: null, sense: "none", basis: null }));
    expect(seen.source).toBe("No source is on record.");
  });
});

describe("an entry that could not be used", () => {
  it("is told in the shared sentence with what was typed", () => {
    expect(unusableWords({ code: "READ-02", facts: { entered: "12 0" } })).toBe(
      "“12 0” could not be read as a number. The rest is kept. Enter digits with one comma or point.",
    );
  });
  it("is told plainly where this build knows no sentence", () => {
    expect(unusableWords({ code: "NEW-99", facts: {} })).toContain("NEW-99");
  });
});

const verdict = (derived: Record<string, number | null>): CartonVerdict => ({
  carton_id: "c",
  position: 3,
  defective: false,
  reasons: [],
  derived,
  settled: "",
  checks: { product_c: "within", odour: "not_checked", black_spot: "beyond" },
});
const specification = { grade: "16/20", overrides: { "product_c.within": -20 } } as unknown as Specification;

describe("the readings of a carton", () => {
  it("stand against every bound in force, the specification's own laid over", () => {
    const [reading] = readingsOf(null, verdict({ product_c: -19 }), limits, specification);
    expect(reading!.bounds.map((bound) => bound.bound)).toEqual([-20, -15, -12]);
    expect(inForce("product_c.within", limits, null)!.bound).toBe(-18);
  });
  it("are left out when not taken, never drawn at nought", () => {
    expect(readingsOf(null, verdict({ product_c: null, uniformity: 1.3 }), limits, null).map((one) => one.key)).toEqual(["uniformity"]);
  });
  const ordered = (more: Partial<Specification>): Specification => ({
    ...specification,
    overrides: {},
    carton_net_g: 10_000,
    units_per_carton: 10,
    declared_glaze_percent: 12,
    market: "EU",
    ...more,
  });
  const bars = (derived: Record<string, number | null>, more: Partial<Specification> = {}, set = limits) =>
    Object.fromEntries(readingsOf(null, verdict(derived), set, ordered(more)).map((one) => [one.key, one.bounds]));

  // 1000 g: T 15.0, lowest within T1 985.0, within T2 970.0 (CV-4-85, computed); 2000 g in the US: MAV 54.4 (CV-4-53, from memory)
  it.each([
    [{ carton_net_g: 10_000 }, 923, ["970", "985"]],
    [{ carton_net_g: 20_000, market: "US" }, 1923, ["1945.6"]],
    [{ carton_net_g: 40 }, 4, undefined], // below 5 g no table holds a row
  ] as const)("draw the net weight of a unit of %o, %f g, against the least that it may weigh", (more, net_g, least) => {
    const bounds = bars({ net_g }, more).net_g;
    expect(bounds?.map(({ bound }) => shown(bound, 1).replace(/\.0$/, ""))).toEqual(least);
    for (const one of bounds ?? []) expect(isFine(Number(shown(one.bound, 1)), one.bound, one.sense)).toBe(true);
  });
  it("draw no net weight of more than one unit, nor by limits that know no such table", () => {
    expect(bars({ net_g: 1501 }).net_g).toBeUndefined();
    expect(
      bars({ net_g: 923 }, {}, { ...limits, limits: limits.limits.filter(({ code }) => !code.startsWith("net_unit.")) }).net_g,
    ).toBeUndefined();
  });
  it("draw the glaze against what was declared and what is tolerated over it", () => {
    // 2 points over (common practice, no source: CV-12-20)
    expect(bars({ glaze_percent: 14.8 }).glaze_percent!.map(({ bound }) => bound)).toEqual([14]);
    expect(bars({ glaze_percent: 14.8 }, { declared_glaze_percent: null }).glaze_percent).toBeUndefined();
  });
  it("are not told again in words once drawn", () => {
    const found = verdict({ net_g: 923, life_days_left: 600 });
    const drawn = readingsOf(null, found, limits, ordered({}));
    expect(numbersOf(found, ordered({}), drawn).map((one) => one.key)).toEqual(["life_days_left"]);
    expect(numbersOf(found, ordered({})).map((one) => one.key)).toEqual(["net_g", "life_days_left"]);
  });
  it("keep the entry as it was made (CV-0-04)", () => {
    expect(enteredWords({ entered: "0,5", unit: "F" })).toBe("0,5 °F");
  });
  it("show the count that the grade is written in", () => {
    const both = verdict({ count_per_lb: 17.9, count_per_kg: 39.5 });
    expect(numbersOf(both, specification).map((one) => one.key)).toEqual(["count_per_lb"]);
    expect(numbersOf(both, { ...specification, grade: "30/40 per kg" }).map((one) => one.key)).toEqual(["count_per_kg"]);
  });
  it("list what was not checked as not checked (CV-0-06)", () => {
    expect(checksOf(verdict({})).map((check) => check.word)).toEqual(["within", "not checked", "past the limit"]);
  });
});

describe("whose limit", () => {
  const habit = { ...basis, source: "89/108/EEC Art. 5(1), applied to the air as a prompt", known: "common_practice" } as const;
  it("is said, and a house rule cites no standard as its source", () => {
    // a record sealed before the judgement said whose it is
    const older = (own: Reason["basis"]) => whyOf({ ...reason({ basis: own }), whose: undefined } as unknown as Reason).source;
    expect(older({ ...basis, source: "common practice, no source", known: "common_practice" })).toBe("House limit, not a published one.");
    expect(older(habit)).toMatch(/^House limit, not a published one\. Its ground as the kitchen gives it: /);
  });
  it("goes by the judgement where that says it", () => {
    expect(whyOf({ ...reason({}), whose: "ordered" } as Reason).source).toBe("Agreed in the specification.");
  });
});
