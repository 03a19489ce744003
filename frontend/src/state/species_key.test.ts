import { expect, test } from "vitest";
import { BY_CODE, MARKS, type KeyAnswers } from "../trade";
import { KEY } from "../trade/species";
import { marksSeenBy, marksToShow, outcomeOf, questionAfter } from "./species_key";

/** Answer the key as a prawn of one species shows itself; what is not known of it cannot be seen. */
function answersOf(code: string, presentation: string): KeyAnswers {
  const answers: KeyAnswers = {};
  for (let row = questionAfter(answers, presentation); row; row = questionAfter(answers, presentation)) {
    answers[row.trait] = BY_CODE.get(code)!.traits[row.trait] ?? null;
  }
  return answers;
}

test.each(["HOSO", "HLSO"])("the right goods agree after two to four questions, whatever the species (%s)", (presentation) => {
  for (const code of BY_CODE.keys()) {
    const answers = answersOf(code, presentation);
    expect(Object.keys(answers).length, code).toBeGreaterThanOrEqual(2);
    expect(Object.keys(answers).length, code).toBeLessThanOrEqual(4);
    expect(outcomeOf(code, answers)).toMatchObject({ answer: "agree" });
    expect(outcomeOf(code, answers).left[0]).toBe(code);
  }
});

// FAO guides: P. monodon has dark cross bands, P. vannamei has none
test("tiger prawns in a carton of whiteleg do not agree, and the tigers are named", () => {
  const outcome = outcomeOf("PNV", answersOf("GIT", "HLSO"));
  expect(outcome.answer).toBe("disagree");
  expect(outcome.left).toContain("GIT");
});

test("nothing seen settles nothing, and marks of no listed prawn settle nothing either", () => {
  expect(outcomeOf("PNV", { bands: null, red_raw: null }).answer).toBe("unsure");
  expect(outcomeOf("PNV", { hairy: true, bands: true })).toEqual({ answer: "unsure", left: [] });
});

test("the record keeps each mark as seen or not so, and says nothing of what was not asked", () => {
  expect(marksSeenBy({ bands: false, lower_teeth: "one", hairy: null })).toEqual({
    no_bands: true,
    teeth_lower_none: false,
    teeth_lower_one: true,
    teeth_lower_more: false,
  });
});

test("every answer of the key is understood, and names marks that exist", () => {
  for (const row of KEY) {
    for (const value of Object.values(row.answers)) {
      for (const mark of Object.keys(marksSeenBy({ [row.trait]: value }))) expect(MARKS[mark], mark).toBeDefined();
    }
    expect(Object.keys(marksSeenBy({ [row.trait]: Object.values(row.answers)[0]! })).length, row.trait).toBeGreaterThan(0);
  }
});

test("the mark that is shown first is one that few prawns have and that a source states", () => {
  expect(marksToShow("PNV", "HLSO")[0]).toBe("no_bands");
  expect(marksToShow("GIT", "HLSO")[0]).toBe("bands_dark");
  expect(marksToShow("WKP", "HLSO")[0]).toBe("side_bars");
  expect(marksToShow("PNV", "PD")).toEqual([]);
});
