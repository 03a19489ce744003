import { describe, expect, it } from "vitest";
import { chance, day, heaviest, hour, isoDay, measure, percent, percentRange, printed } from "./words";

const flat = (text: string) => text.replaceAll("\u00a0", " ");

describe("words for numbers", () => {
  it("show a true minus and the unit", () => expect(flat(measure(-17.25, "C"))).toBe("−17.3 °C"));
  it("print a sentence with a true minus sign, and a number and its unit together", () => {
    expect(printed("Warmer than -15.0 °C, 10-12 (-3 °C).")).toBe("Warmer than −15.0\u00a0°C, 10-12 (−3\u00a0°C).");
  });
  it("say not checked and never nought for what is missing (CV-0-06)", () => {
    expect([measure(null, "C"), measure(undefined, "g")]).toEqual(["not checked", "not checked"]);
    expect(percent(null)).toBe("no data");
    expect(percentRange(null, 0.2)).toBe("no data");
  });
  it("show a unit that is not known as it is", () => expect(flat(measure(2.5, "ppm"))).toBe("2.5 ppm"));
  it.each([
    [0, "0 %"],
    [0.0345, "3.5 %"],
    [0.0994, "9.9 %"],
    [0.1014, "10 %"],
    [1, "100 %"],
  ])("show a share of %f as %s", (share, words) => expect(flat(percent(share))).toBe(words));
  it("give the Wilson interval of 2 in 13 (CV-9-07)", () => expect(flat(percentRange(0.0433, 0.4223))).toBe("4.3 to 42 %"));
  it("never tell a chance as certain", () => {
    expect([chance(1), chance(0.0001), chance(0.4893)].map(flat)).toEqual(["over 99 %", "under 1 %", "49 %"]);
  });
});

describe("words for times", () => {
  const arrived = "2026-11-24T22:10:00+00:00";
  it("go by the clock of the site", () => {
    expect(hour(arrived, "Australia/Sydney")).toBe("09:10");
    expect(day(arrived, "Australia/Sydney")).toContain("25 Nov 2026");
    expect(day(arrived, "Europe/Lisbon")).toContain("24 Nov 2026");
  });
  it("say so when no time was noted", () => {
    expect(hour(null)).toBe("time not noted");
    expect(day("yesterday")).toBe("time not noted");
  });
  it("write a day as the server reads it", () => expect(isoDay(new Date(2026, 0, 5))).toBe("2026-01-05"));
});

it("a delivery is headed by the decision that needs a person most", () => {
  expect(heaviest(["accept", "hold", "accept_with_allowance"])).toBe("hold");
  expect(heaviest(["accept", "reject"])).toBe("reject");
  expect(heaviest([])).toBeNull();
});
