// The functions that vectors call by name; the same list as tests/inspections/trade/calls.py.

import * as chances from "../trade/chances";
import { countPerKg, countPerLb, countSample, explainCount, judgeCount } from "../trade/counts";
import { drawPositions, fnv1a, layerSizes, randomWords } from "../trade/drawing";
import * as glaze from "../trade/glaze";
import { customaryPer, edgesOf, gradeMet, nearestGrade, parseGrade, priceEffect } from "../trade/grades";
import { wilson } from "../trade/intervals";
import * as quantities from "../trade/quantities";
import * as sampling from "../trade/sampling";
import * as shortage from "../trade/shortage";
import * as thermometer from "../trade/thermometer";
import { spreadOf, tenthOf, uniformityRatio } from "../trade/uniformity";

// Arguments come from JSON, so their types are only known to the vector.
type Call = (...args: any[]) => unknown;

type Asked = Parameters<typeof sampling.planFor>;
const plan = (asked: Asked): sampling.Plan => sampling.planFor(...asked);

function firstWords(seed: string, number: number): number[] {
  const words = randomWords(seed);
  return Array.from({ length: number }, () => words.next().value);
}

export const CALLS: Record<string, Call> = {
  parse_decimal: quantities.parseDecimal,
  to_grams: quantities.toGrams,
  to_celsius: quantities.toCelsius,
  to_percent: quantities.toPercent,
  to_pieces: quantities.toPieces,
  to_grams_or_zero: quantities.toGramsOrZero,
  count_per_lb: countPerLb,
  count_per_kg: countPerKg,
  tenth_of: tenthOf,
  uniformity_ratio: uniformityRatio,
  parse_grade: parseGrade,
  customary_per: customaryPer,
  edges_of: (text, rule) => edgesOf(parseGrade(text), rule),
  nearest_grade: nearestGrade,
  grade_met: gradeMet,
  price_effect: (text, count, prices) => priceEffect(parseGrade(text), count, prices),
  spread_of: spreadOf,
  count_sample: countSample,
  judge_count: (sample, text, rule) => judgeCount(sample, parseGrade(text), rule),
  explain_count: (sample, text) => explainCount(sample, parseGrade(text)),
  glazed_g: glaze.glazedG,
  deglazed_g: glaze.deglazedG,
  glaze_percent: glaze.glazePercent,
  judge_glaze: glaze.judgeGlaze,
  shortage_g: shortage.shortageG,
  tolerable_deficiency: shortage.tolerableDeficiency,
  maximum_allowable_variation: shortage.maximumAllowableVariation,
  sample_correction_factor: shortage.sampleCorrectionFactor,
  judge_average_us: shortage.judgeAverageUs,
  judge_average_eu: shortage.judgeAverageEu,
  claim_amount: shortage.claimAmount,
  tolerance_for: shortage.toleranceFor,
  short_percent: shortage.shortPercent,
  plan_for: sampling.planFor,
  chance_of_exactly: chances.chanceOfExactly,
  chance_of_acceptance: chances.chanceOfAcceptance,
  chance_of_seeing_one: chances.chanceOfSeeingOne,
  cartons_to_see_one: chances.cartonsToSeeOne,
  most_bad_left: chances.mostBadLeft,
  cartons_worth: chances.cartonsWorth,
  what_a_sample_shows: sampling.whatASampleShows,
  sampling_shown: sampling.samplingShown,
  is_accepted: (asked: Asked, bad) => sampling.isAccepted(plan(asked), bad),
  operating_characteristic: (asked: Asked) => sampling.operatingCharacteristic(plan(asked)),
  explain_sample: (asked: Asked, opened, defective) => sampling.explainSample(plan(asked), opened, defective),
  fnv1a,
  first_words: firstWords,
  layer_sizes: layerSizes,
  draw_positions: drawPositions,
  judge_ice_point: thermometer.judgeIcePoint,
  ice_point_allowed_c: thermometer.icePointAllowedC,
  thermometer_on: thermometer.thermometerOn,
  wilson,
};

export type VectorCase = { id: string; in: { call: string; args: unknown[] }; out?: unknown; error?: string };

/** What a call gives, as a vector writes it. */
export function outcome({ in: { call, args } }: VectorCase): { out: unknown } | { error: string } {
  try {
    return { out: CALLS[call]!(...args) };
  } catch (refused) {
    if (refused instanceof quantities.Unusable) return { error: refused.code };
    throw refused;
  }
}

/** What the vector expects, bit for bit. */
export const expected = (each: VectorCase): { out: unknown } | { error: string } =>
  each.error === undefined ? { out: each.out } : { error: each.error };
