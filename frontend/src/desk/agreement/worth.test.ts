import { describe, expect, it } from "vitest";
import type { Counts, CutOff, Share } from "../../trade/types";
import { answersWords, apart, learntWords, plainly, readFirst, worth } from "./worth";

const threshold = { cartons: 20, deliveries: 5 };
const share = (count: number, of: number, more: Partial<Share> = {}): Share => ({
  count,
  of,
  share: of ? count / of : null,
  low: of ? 0 : null,
  high: of ? 1 : null,
  too_few: of < 20,
  ...more,
});
function counts(more: Partial<Counts> = {}): Counts {
  const none = { beyond: 0, within: 0, none: 0 };
  return {
    cartons: 100,
    deliveries: 9,
    table: { darkening_seen: none, none_seen: none, cannot_tell: none },
    agreeing: share(77, 88),
    right_flags: share(37, 42),
    flagged: share(37, 47, { low: 0.65, high: 0.88 }),
    flagged_beyond: share(7, 7),
    wrong_flags: share(5, 53, { low: 0.04, high: 0.2 }),
    untold: share(12, 100),
    ...more,
  };
}

describe("the plain sentences", () => {
  it("say first what a manager wants to know", () => {
    expect(plainly(counts())).toEqual([
      "Of 42 cartons where the advice said darkening, receivers found black spot in 37.",
      "Of 47 cartons where receivers found black spot, the advice said darkening in 37.",
      "In 12 of 100 cartons it could not tell.",
    ]);
  });
  it("say that nothing can be said, and never 0 %", () => {
    expect(plainly(counts({ cartons: 0 })).join(" ")).toContain("Nothing can be said yet.");
    const nothing = plainly(counts({ right_flags: share(0, 0), flagged: share(0, 0) })).join(" ");
    expect(nothing).toContain("said darkening of no carton");
    expect(nothing).toContain("found black spot in no carton");
  });
});

describe("what it is worth", () => {
  it("is told only from enough cartons of both kinds", () => {
    expect(worth(counts({ flagged: share(4, 5) }), threshold)).toBe(
      "Too few to say what it is worth: 5 cartons with black spot and 53 without, of 9 deliveries. It takes 20 of each, of 5.",
    );
    expect(worth(counts({ cartons: 0 }), threshold)).toBe("Nothing to compare yet.");
  });
  it("rests on intervals that lie apart", () => {
    expect(worth(counts(), threshold)).toContain("clearly more often");
    expect(worth(counts({ wrong_flags: share(30, 53, { low: 0.43, high: 0.69 }) }), threshold)).toContain("a flag tells little here");
    expect(worth(counts({ wrong_flags: share(52, 53, { low: 0.9, high: 1 }) }), threshold)).toContain("less often than cartons without");
  });
});

describe("what a receiver may have read", () => {
  it("is kept apart", () => {
    const told = readFirst({
      blind: counts({ cartons: 30, agreeing: share(20, 26) }),
      maybe_read: counts({ cartons: 70, agreeing: share(57, 62) }),
    });
    expect(told).toContain("In 30 cartons the advice came after the receiver had signed; there 20 of 26 agree.");
    expect(told).toContain(
      "In the other 70 the receiver may have read it before answering (57 of 62 agree), so agreement there proves nothing.",
    );
    expect(readFirst({ blind: counts(), maybe_read: counts({ cartons: 1, agreeing: share(0, 0) }) })).toContain(
      "In the other one the receiver may have read it before answering, so agreement there proves nothing.",
    );
    expect(readFirst({ blind: counts(), maybe_read: counts({ cartons: 0 }) })).toContain("none of them can have been led by it");
    expect(readFirst({ blind: counts({ cartons: 0 }), maybe_read: counts() })).toContain("In no carton is the advice sure");
    expect(readFirst({ blind: counts({ cartons: 0 }), maybe_read: counts({ cartons: 0 }) })).toBe("");
  });
  it("counts what has nothing to compare with by itself", () => {
    expect(apart(1, 2)).toEqual([
      "1 carton with advice was not looked at for black spot: nothing to compare with, so not counted here.",
      "2 photographed cartons have no answer: it still waits, the photo could not be read, or advice was switched off.",
    ]);
    expect(apart(0, 0)).toEqual([]);
  });
});

describe("the cut-off", () => {
  const rules = { least: 20, floor: 0.65, most_moved: 0.2, kept_aside: {}, rows: [] };
  const row: CutOff = {
    species_code: "PNV",
    species: "Whiteleg",
    presentation: "HLSO",
    state: "raw",
    sound: 3,
    spotted: 1,
    shipped: 0.64,
    from: "shipped",
    cut_off: 0.64,
  };
  const learnt = { ...row, refitted: 0.6, low: 0.55, high: 0.66, drift: -0.04, auc: 0.9, auc_low: 0.8, auc_high: 0.96, is_quiet: false };
  it("is the shipped one while there are too few findings", () => {
    expect(learntWords(row, rules)).toBe(
      "3 cartons without and 1 with black spot: too few to learn from (20 of each). The shipped cut-off 0.64 holds.",
    );
  });
  it("tells its interval, its drift and why it is quiet", () => {
    expect(learntWords(learnt, rules)).toContain("cut-off 0.60 (0.55 to 0.66), 0.04 below the shipped one. Chance");
    expect(learntWords(learnt, rules)).toContain("Answers are given by it.");
    expect(learntWords({ ...learnt, is_quiet: true }, rules)).toContain("it has moved by more than 0.2");
  });
  it("says how many photographs kept aside an answer rests on", () => {
    const known = { ...rules, kept_aside: { raw: { auc: 0.88, auc_low: 0.79, auc_high: 0.94, marked: 12, none: 59 } } };
    expect(answersWords(known)).toContain("raw goods: 0.88 (0.79 to 0.94) on 12 marked and 59 sound photographs");
  });
});
