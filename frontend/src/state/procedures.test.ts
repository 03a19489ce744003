import { expect, test } from "vitest";
import { cardsOf, enterInto, isPurpose, titleOf, withoutGlaze, type Purpose } from "./procedures";
import { newCarton } from "./start_document";

const PURPOSES: Purpose[] = ["sample", "pack", "block", "count", "between_packs", "core", "surface", "ice_point", "thaw"];

test("every procedure is cards in the published order, numbered from 1 to the last", () => {
  for (const purpose of PURPOSES) {
    const cards = cardsOf(purpose);
    expect(cards.length, purpose).toBeGreaterThanOrEqual(2);
    expect(cards.map(({ number }) => number)).toEqual([...cards.map(({ number }) => number)].sort((a, b) => a - b));
    expect(cards[0]!.number).toBe(1);
    expect(titleOf(purpose)).not.toBe("");
  }
  expect(isPurpose("toString")).toBe(false);
});

// CXS 92-1981 §7.3 and NIST HB 133 §2.6: drain for two minutes (from memory, CV-1-25, CV-4-24)
test.each(["sample", "pack", "block"] as const)("draining takes 120 seconds (%s)", (purpose) => {
  expect(cardsOf(purpose).find(({ code }) => code === "drain")?.seconds).toBe(120);
});

test("the sample needs no pack weights, the pack needs them all", () => {
  const asked = (purpose: Purpose) =>
    cardsOf(purpose)
      .map(({ asks }) => asks)
      .filter(Boolean);
  expect(asked("sample")).toEqual(["sieve", "on_sieve"]);
  expect(asked("pack")).toEqual(["gross", "sieve", "on_sieve", "tare"]);
  expect(asked("count")).toEqual(["pieces", "largest", "smallest"]);
});

test("the weight without glaze is what drained less the sieve, whatever the units", () => {
  expect(withoutGlaze({ on_sieve: { entered: "2,415", unit: "kg" }, sieve: { entered: "600", unit: "g" } })).toEqual({
    entered: "1815",
    unit: "g",
  });
  expect(withoutGlaze({ on_sieve: { entered: "1008,5", unit: "g" } })).toEqual({ entered: "1008,5", unit: "g" });
  expect(withoutGlaze({ sieve: { entered: "600", unit: "g" } })).toBeNull();
});

test("the sample's weight answers the question, and the two weights behind it stay readable", () => {
  const carton = { ...newCarton(3), looked_at: 40 };
  const readings = { sieve: { entered: "600", unit: "g" as const }, on_sieve: { entered: "1608", unit: "g" as const } };
  enterInto(carton, "sample", readings, true);
  enterInto(carton, "sample", readings, true);
  expect(carton.sample).toMatchObject({ pieces: 40, weight: { entered: "1008", unit: "g" }, weight_is: "deglazed" });
  expect(carton.note).toBe("Sieve with prawns 1608 g, sieve 600 g.");
  expect(carton.weights).toEqual({});
});

test("a pack's weights stay apart from the sample, and what was left out stays not checked", () => {
  const carton = newCarton(3);
  enterInto(carton, "block", { gross: { entered: "2,2", unit: "kg" }, on_sieve: { entered: "1,815", unit: "kg" } }, true);
  expect(carton.weights).toEqual({ gross: { entered: "2,2", unit: "kg" }, deglazed: { entered: "1,815", unit: "kg" } });
  expect(carton.sample).toBeNull();
});

test("a count step by step gives pieces and both tenths", () => {
  const carton = newCarton(3);
  enterInto(
    carton,
    "count",
    { pieces: { entered: "41", unit: "pieces" }, largest: { entered: "130", unit: "g" }, smallest: { entered: "90", unit: "g" } },
    true,
  );
  expect(carton).toMatchObject({
    looked_at: 41,
    sample: { pieces: 41, weight: null, largest: { entered: "130", unit: "g" }, smallest: { entered: "90", unit: "g" } },
  });
});
