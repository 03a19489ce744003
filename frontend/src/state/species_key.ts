/** The species question on the phone: the mark to look at first, and what the key's answers come to. */
import type { Marks } from "../store/document";
import { BY_CODE, candidates, MARKS, marksToCheck, nextQuestion, type KeyAnswers, type KeyQuestion } from "../trade";

/** Which field marks an answer of the key shows: those of the given value are seen, those of the others are not. */
const SHOWN_BY: Record<string, Record<string, string[]>> = {
  caridean: { true: ["plate_second"], false: ["plate_first"] },
  bands: { true: [], false: ["no_bands"] },
  red_raw: { true: ["red_raw"], false: [] },
  lower_teeth: { none: ["teeth_lower_none"], one: ["teeth_lower_one"], more: ["teeth_lower_more"] },
  grooves_long: { true: ["grooves_long"], false: ["grooves_none"] },
  hairy: { true: ["hairy"], false: [] },
  side_spot: { true: ["side_spot"], false: ["no_side_spot"] },
  last_groove: { none: ["last_groove_none"], narrow: ["last_groove_narrow"], wide: ["last_groove_wide"] },
};

export interface KeyOutcome {
  answer: Marks["answer"];
  /** Codes that the answers leave, the ordered one first when it is among them. */
  left: string[];
}

/** The next question of the key, or null when two to four are answered or nothing more can be told. */
export function questionAfter(answers: KeyAnswers, presentation: string): KeyQuestion | null {
  return nextQuestion(answers, presentation);
}

/**
 * What the answers say of the species ordered.
 *
 * Nothing seen, or marks that fit no listed prawn at all, is "unsure"; the ordered species ruled out is
 * "disagree"; still among those left is "agree", which never proves it.
 */
export function outcomeOf(ordered: string, answers: KeyAnswers): KeyOutcome {
  const isAnythingSeen = Object.values(answers).some((value) => value !== null);
  const left = candidates(answers);
  if (!isAnythingSeen || left.length === 0) return { answer: "unsure", left };
  if (!left.includes(ordered)) return { answer: "disagree", left };
  return { answer: "agree", left: [ordered, ...left.filter((code) => code !== ordered)] };
}

/** The field marks that the answers show or rule out, as the record keeps them. */
export function marksSeenBy(answers: KeyAnswers): Record<string, boolean> {
  const seen: Record<string, boolean> = {};
  for (const [trait, value] of Object.entries(answers)) {
    if (value === null) continue;
    for (const [other, marks] of Object.entries(SHOWN_BY[trait] ?? {})) {
      for (const mark of marks) seen[mark] = other === String(value);
    }
  }
  return seen;
}

/** Marks of the ordered species that have a drawing, the most telling first: read in a source, then the rarest. */
export function marksToShow(code: string, presentation: string): string[] {
  const drawn = marksToCheck(code, presentation).filter((id) => MARKS[id]?.drawing);
  const rank = (id: string) => (MARKS[id]!.known === "read" ? 0 : 100) + bearersOf(id);
  return drawn.sort((one, other) => rank(one) - rank(other));
}

function bearersOf(mark: string): number {
  return [...BY_CODE.values()].filter((species) => species.head_on.includes(mark) || species.headless.includes(mark)).length;
}
