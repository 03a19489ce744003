// The verdict's small functions that vectors call by name, and deliveries changed by a patch; the same list as
// tests/inspections/trade/verdict_calls.py.

import { scoreByPrevalence } from "../trade/condition";
import { dayNumber } from "../trade/entries";
import { judgeFreezer } from "../trade/freezer";
import * as gs1 from "../trade/gs1";
import { wilson } from "../trade/intervals";
import * as labels from "../trade/labels";
import { DEFAULT_LIMITS, limitsFromJson } from "../trade/limits";
import { Unusable } from "../trade/quantities";
import * as species from "../trade/species";
import type { Judgement } from "../trade/types";
import { judgeDocument } from "../trade/verdict";
import * as wording from "../trade/wording";

export interface VerdictCase {
  id: string;
  source: string;
  in: { call?: string; args?: unknown[]; patch?: Record<string, unknown> };
  out?: unknown;
  error?: string;
}
export interface VerdictVectors {
  base?: Record<string, unknown>;
  cases: VerdictCase[];
}

// Arguments come from JSON, so their types are only known to the vector.
const CALLS: Record<string, (...args: any[]) => unknown> = {
  score_by_prevalence: scoreByPrevalence,
  wilson,
  species_code: species.speciesCode,
  code_of_name: species.codeOfName,
  candidates: species.candidates,
  next_question: (answers, presentation) => species.nextQuestion(answers, presentation)?.trait ?? null,
  marks_to_check: species.marksToCheck,
  full_year: gs1.fullYear,
  gs1_date: gs1.gs1Date,
  gs1_check_digit: gs1.gs1CheckDigit,
  has_swallowed_date: gs1.hasSwallowedDate,
  missing_particulars: labels.missingParticulars,
  day_number: dayNumber,
  shown: wording.shown,
  shown_measure: wording.shownMeasure,
  typeset: wording.typeset,
  typeset_sum: wording.typesetSum,
  listed: wording.listed,
  filled: wording.filled,
  counted: wording.counted,
  judge_freezer: (airC) => judgeFreezer(airC, limitsFromJson(DEFAULT_LIMITS)),
};

export function called({ in: given }: VerdictCase): unknown {
  try {
    return { out: CALLS[given.call!]!(...given.args!) };
  } catch (problem) {
    if (problem instanceof Unusable) return { error: problem.code };
    throw problem;
  }
}

export function hoped({ out, error }: VerdictCase): unknown {
  return error === undefined ? { out } : { error };
}

function patched(base: unknown, patch: Record<string, unknown>): Record<string, unknown> {
  const changed = structuredClone(base) as Record<string, unknown>;
  for (const [path, value] of Object.entries(patch)) {
    const keys = path.split("/");
    const last = keys.pop()!;
    let place: any = changed;
    for (const key of keys) place = place[key];
    if (value === "(absent)" && Array.isArray(place)) place.splice(Number(last), 1);
    else if (value === "(absent)") delete place[last];
    else place[last] = structuredClone(value);
  }
  return changed;
}

export function judgedWith(vectors: VerdictVectors, { in: given }: VerdictCase): Judgement {
  const { document, specifications } = patched(vectors.base, given.patch!);
  return judgeDocument(document, specifications, DEFAULT_LIMITS);
}

/** The part of a judgement that the line vectors hold. */
export function lineOut(judgement: Judgement): unknown {
  const line = judgement.lines[0]!;
  return {
    suggestion: line.suggestion,
    codes: line.reasons.map((reason) => reason.code),
    needed: line.needed,
    suggested_split: line.suggested_split,
    allowances: line.allowances,
    sampling: line.sampling,
    derived: line.cartons[0]?.derived ?? {},
    checks: line.cartons[0]?.checks ?? {},
    unusable: judgement.unusable.map((entry) => entry.code),
  };
}
