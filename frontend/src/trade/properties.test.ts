// @vitest-environment node
// Properties of the judgements, the same as the Python tests have them (tests/inspections/trade): what must hold
// for every delivery and every entry, not for chosen ones.
import vectors from "@fixtures/vectors/verdict.json";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayNumber, dayText } from "./entries";
import { DEFAULT_LIMITS, UnusableLimits } from "./limits";
import { celsiusFromFahrenheit, parseDecimal, toCelsius, toGrams, Unusable } from "./quantities";
import { explain } from "./reasons";
import type { Carton, InspectionDocument, LineVerdict } from "./types";
import { outcome } from "../testing/vector_calls";
import { called, type VerdictVectors } from "../testing/verdict_calls";
import { judgeDocument, JUDGEMENT_VERSION } from "./verdict";
import { HAZARDS } from "./severity_ranking";

const { base } = vectors as unknown as VerdictVectors;
const RUNS = { numRuns: 150 };
const PIECES = ["black_spot", "black_spot_wide", "black_spot_meat", "dehydrated", "broken", "soft", "heads", "legs", "tails"] as const;
const WEIGHT = { accept: 0, accept_with_allowance: 1, not_yet: 2, hold: 3, reject: 4 };

/** The sound delivery of three opened cartons, its cartons changed. */
function judged(change: (carton: Carton, place: number) => void, market = "ANZ"): LineVerdict {
  const { document, specifications } = structuredClone(base) as unknown as {
    document: InspectionDocument;
    specifications: { market: string }[];
  };
  specifications[0]!.market = market;
  document.lines[0]!.cartons!.forEach(change);
  return judgeDocument(document, specifications, DEFAULT_LIMITS).lines[0]!;
}
const first = (change: (carton: Carton) => void, market?: string): LineVerdict =>
  judged((carton, place) => {
    if (place === 0) change(carton);
  }, market);

/** How heavy a verdict is; a hazard's hold is heavier than a rejection, a doubt's hold is lighter. */
const weightOf = (line: LineVerdict): number => (line.reasons.some((reason) => HAZARDS.has(reason.code)) ? 5 : WEIGHT[line.suggestion]);

const tenths = (low: number, high: number): fc.Arbitrary<number> => fc.integer({ min: low * 10, max: high * 10 }).map((n) => n / 10);
const ordered = (numbers: fc.Arbitrary<number>): fc.Arbitrary<[number, number]> =>
  fc.tuple(numbers, numbers).map(([a, b]) => (a < b ? [a, b] : [b, a]));
const market = fc.constantFrom("EU", "US", "ANZ", "CODEX");
const probe = fc.constantFrom("between_packs" as const, "core" as const);
const thermometer = fc.option(
  fc.record({
    name: fc.constantFrom("Probe 2", ""),
    checked_at: fc.constantFrom("2026-11-20", "2026-09-01", null),
    ice_point: fc.option(tenths(-3, 3).map((c) => ({ entered: c.toFixed(1), unit: "C" as const }))),
    due_at: fc.constantFrom("2026-11-24", "2027-01-01", null),
  }),
);

describe("units", () => {
  test("a temperature comes back from °F", () => {
    fc.assert(
      fc.property(fc.double({ min: -90, max: 60, noNaN: true }), (celsius) => {
        expect(celsiusFromFahrenheit((celsius * 9) / 5 + 32)).toBeCloseTo(celsius, 10);
      }),
    );
  });

  test("a weight is the same in g, kg, lb and oz", () => {
    const units = fc.constantFrom(["kg", 1000], ["lb", 453.59237], ["oz", 28.349523125]) as fc.Arbitrary<[string, number]>;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99_999 }), units, (thousandths, [unit, size]) => {
        const entered = (thousandths / 1000).toFixed(3);
        const grams = toGrams({ entered, unit });
        expect(grams / size).toBeCloseTo(parseDecimal(entered), 10);
        expect(toGrams({ entered: entered.replace(".", ","), unit })).toBe(grams);
      }),
    );
  });

  test("every tenth of a degree is read as it is written, with comma or point and either minus", () => {
    fc.assert(
      fc.property(tenths(-90, 60), fc.constantFrom("-", "\u2212"), fc.constantFrom(".", ","), (celsius, minus, point) => {
        const entered = celsius.toFixed(1).replace("-", minus).replace(".", point);
        expect(toCelsius({ entered, unit: "C" })).toBe(celsius + 0);
      }),
    );
  });

  test("a day is its number and back", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3_652_059 }), (number) => {
        expect(dayNumber(dayText(number))).toBe(number);
      }),
    );
  });
});

describe("never for the better", () => {
  test("more affected prawns", () => {
    fc.assert(
      fc.property(fc.constantFrom(...PIECES), ordered(fc.integer({ min: 0, max: 40 })), (kind, [few, more]) => {
        const line = (number: number): LineVerdict => first((carton) => void (carton.pieces = { black_spot: 1, [kind]: number }));
        expect(weightOf(line(few))).toBeLessThanOrEqual(weightOf(line(more)));
      }),
      RUNS,
    );
  });

  test("more of the weight deeply dried", () => {
    fc.assert(
      fc.property(ordered(fc.integer({ min: 0, max: 1000 })), ([few, more]) => {
        const line = (grams: number): LineVerdict =>
          first((carton) => {
            carton.dehydration = { dried: { entered: String(grams), unit: "g" }, of: { entered: "1", unit: "kg" } };
          });
        expect(weightOf(line(few))).toBeLessThanOrEqual(weightOf(line(more)));
      }),
      RUNS,
    );
  });

  test("warmer, whatever the way of probing and the thermometer", () => {
    fc.assert(
      fc.property(ordered(tenths(-30, 5)), probe, thermometer, ([colder, warmer], method, stood) => {
        const line = (celsius: number): LineVerdict =>
          first((carton) => {
            carton.temperature = { product: { entered: celsius.toFixed(1), unit: "C" }, method, thermometer: stood };
          });
        expect(weightOf(line(colder))).toBeLessThanOrEqual(weightOf(line(warmer)));
      }),
      RUNS,
    );
  });

  test("less in every unit, in every market", () => {
    fc.assert(
      fc.property(ordered(fc.integer({ min: 1000, max: 2900 })), market, ([lighter, heavier], where) => {
        const line = (grams: number): LineVerdict =>
          judged((carton) => void (carton.weights = { deglazed: { entered: String(grams), unit: "g" } }), where);
        expect(weightOf(line(heavier))).toBeLessThanOrEqual(weightOf(line(lighter)));
      }),
      RUNS,
    );
  });

  test("more defective cartons", () => {
    fc.assert(
      fc.property(ordered(fc.integer({ min: 0, max: 3 })), ([few, more]) => {
        const line = (number: number): LineVerdict =>
          judged((carton, place) => void (carton.foreign_matter = place < number ? "harmless" : "none"));
        expect(weightOf(line(few))).toBeLessThanOrEqual(weightOf(line(more)));
      }),
    );
  });
});

test("more ice in the same weight is never more prawn", () => {
  fc.assert(
    fc.property(tenths(1000, 3000), ordered(tenths(1, 900)), (glazed, [less, more]) => {
      const derived = (net: number): Record<string, number | null> =>
        first((carton) => {
          carton.weights = { glazed: { entered: glazed.toFixed(1), unit: "g" }, deglazed: { entered: net.toFixed(1), unit: "g" } };
        }).cartons[0]!.derived;
      const plain = derived(glazed - less);
      const icier = derived(glazed - more);
      expect(icier["net_g"]!).toBeLessThanOrEqual(plain["net_g"]!);
      expect(icier["glaze_percent"]!).toBeGreaterThanOrEqual(plain["glaze_percent"]!);
    }),
    RUNS,
  );
});

test("a thermometer weakens the evidence and changes no suggestion", () => {
  fc.assert(
    fc.property(tenths(-30, 5), probe, thermometer, (celsius, method, stood) => {
      const line = (kept: typeof stood): LineVerdict =>
        first((carton) => {
          carton.temperature = { product: { entered: celsius.toFixed(1), unit: "C" }, method, thermometer: kept };
        });
      expect(line(stood).suggestion).toBe(line(null).suggestion);
    }),
    RUNS,
  );
});

test("every reason of a changed delivery explains itself", () => {
  fc.assert(
    fc.property(
      fc.record({ celsius: tenths(-25, 0), method: probe, thermometer, net: fc.integer({ min: 1500, max: 2500 }), market }),
      fc.constantFrom(...PIECES),
      ({ celsius, method, thermometer: stood, net, market: where }, kind) => {
        const line = first((carton) => {
          carton.temperature = { product: { entered: celsius.toFixed(1), unit: "C" }, method, thermometer: stood };
          carton.weights = { deglazed: { entered: String(net), unit: "g" } };
          carton.pieces = { black_spot: 1, [kind]: 20 };
        }, where);
        for (const reason of line.reasons) {
          const { values, ...texts } = explain(reason);
          expect(Object.values(texts).every((text) => text !== "" && !/[{}]/.test(text))).toBe(true);
          expect(values.every((value) => Number.isFinite(value.value) && value.shown !== "")).toBe(true);
          expect(reason.text).not.toMatch(/[{}]/);
        }
      },
    ),
    RUNS,
  );
});

describe("nothing but the documented error", () => {
  test("whatever the document and the specifications", () => {
    fc.assert(
      fc.property(fc.anything(), fc.anything(), (document, specifications) => {
        expect(judgeDocument(document, specifications, DEFAULT_LIMITS).judgement_version).toBe(JUDGEMENT_VERSION);
      }),
    );
  });

  test("whatever stands in the place of one entry", () => {
    fc.assert(
      fc.property(fc.array(fc.nat(40), { minLength: 1, maxLength: 7 }), fc.jsonValue(), (path, value) => {
        const { document, specifications } = structuredClone(base) as { document: unknown; specifications: unknown };
        let place = document as Record<string, unknown>;
        for (const step of path.slice(0, -1)) {
          const keys = Object.keys(place);
          const inner = place[keys[step % keys.length]!];
          if (typeof inner !== "object" || inner === null || Object.keys(inner).length === 0) break;
          place = inner as Record<string, unknown>;
        }
        const keys = Object.keys(place);
        place[keys[path[path.length - 1]! % keys.length]!] = value;
        expect(typeof judgeDocument(document, specifications, DEFAULT_LIMITS).wording).toBe("string");
      }),
      { numRuns: 400 },
    );
  });

  test("whatever the limits", () => {
    fc.assert(
      fc.property(fc.anything(), (limits) => {
        expect(() => judgeDocument(base!["document"], base!["specifications"], limits)).toThrow(UnusableLimits);
      }),
    );
  });

  const readers = ["parse_decimal", "to_grams", "to_grams_or_zero", "to_celsius", "to_percent", "to_pieces"];
  test.each(readers)("whatever is given to %s", (call) => {
    const reading = fc.record({
      entered: fc.anything(),
      unit: fc.oneof(fc.constantFrom("g", "kg", "lb", "C", "F", "percent", "pieces"), fc.anything()),
    });
    fc.assert(fc.property(fc.oneof(fc.anything(), reading, fc.string()), (entry) => void outcome({ id: "", in: { call, args: [entry] } })));
  });

  test("whatever is written for a size", () => {
    const written = fc.oneof(fc.anything(), fc.string(), fc.stringMatching(/^[uU]?[ /]?[0-9]{1,4}[-/ ][0-9]{0,4}( ?(lb|kg|per kg))?$/));
    fc.assert(fc.property(written, (text) => void outcome({ id: "", in: { call: "parse_grade", args: [text] } })));
  });

  const number = fc.oneof(fc.double(), fc.integer({ min: -5, max: 3000 }));
  const numbers: [call: string, ...fc.Arbitrary<unknown>[]][] = [
    ["count_per_lb", number, number],
    ["count_per_kg", number, number],
    ["tenth_of", number],
    ["uniformity_ratio", number, number],
    ["glazed_g", number, number],
    ["deglazed_g", number, number],
    ["glaze_percent", number, number],
    ["judge_glaze", number, number, number, number],
    ["shortage_g", number, number],
    ["short_percent", number, number],
    ["tolerable_deficiency", number],
    ["tolerance_for", market, number],
    ["maximum_allowable_variation", number],
    ["judge_average_eu", number, fc.array(number, { maxLength: 5 })],
    ["judge_average_us", number, fc.array(number, { maxLength: 5 })],
    ["judge_ice_point", number],
    ["ice_point_allowed_c", fc.option(number)],
    ["thermometer_on", fc.string(), fc.option(fc.string()), fc.option(number), fc.option(fc.string())],
    ["wilson", number, number],
    [
      "chance_of_acceptance",
      fc.integer({ min: -2, max: 60 }),
      fc.integer({ min: -2, max: 60 }),
      fc.integer({ min: -2, max: 60 }),
      fc.integer({ min: -2, max: 9 }),
    ],
    ["most_bad_left", fc.integer({ min: -2, max: 60 }), fc.integer({ min: -2, max: 60 }), fc.integer({ min: -2, max: 60 })],
    ["plan_for", fc.oneof(fc.constantFrom("house", "codex_1", "iso_s2"), fc.string()), number],
  ];
  test.each(numbers)("whatever numbers are given to %s", (call, ...args) => {
    fc.assert(fc.property(fc.tuple(...args), (given) => void outcome({ id: "", in: { call, args: given } })));
  });

  test.each([
    ["score_by_prevalence", [number, number, number, number]],
    ["day_number", [fc.string()]],
    ["code_of_name", [fc.string()]],
    ["gs1_date", [fc.constantFrom("11", "15", "17", "7006"), fc.string(), fc.integer({ min: 1990, max: 2090 })]],
  ] as [string, fc.Arbitrary<unknown>[]][])("whatever is given to %s", (call, args) => {
    fc.assert(fc.property(fc.tuple(...args), (given) => void called({ id: "", source: "", in: { call, args: given } })));
  });
});

test("only the documented error counts as documented", () => {
  expect(new UnusableLimits("LIMITS-01")).toBeInstanceOf(Unusable);
  expect(() => outcome({ id: "", in: { call: "no such call", args: [] } })).toThrow(TypeError);
});
