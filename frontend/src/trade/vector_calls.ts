// The functions that vectors call by name; the same list as tests/inspections/trade/calls.py.

import * as chances from "./chances";
import { countPerKg, countPerLb, countSample, explainCount, judgeCount } from "./counts";
import { drawPositions, fnv1a, layerSizes, randomWords } from "./drawing";
import { naturalExp, naturalLog } from "./exponentials";
import * as exposure from "./exposure";
import * as glaze from "./glaze";
import { customaryPer, edgesOf, gradeMet, nearestGrade, parseGrade, priceEffect } from "./grades";
import { chanceAtMost, wilson } from "./intervals";
import * as netLots from "./net_lots";
import * as quantities from "./quantities";
import * as sampling from "./sampling";
import * as shortage from "./shortage";
import * as switching from "./switching";
import * as temperature from "./temperature";
import { explainUniformity, judgeUniformity, spreadOf, tenthOf, uniformityOf, uniformityRatio } from "./uniformity";

// Arguments come from JSON, so their types are only known to the vector.
type Call = (...args: any[]) => unknown;
type Row = [number, number];

const log = (rows: Row[]): exposure.Logged[] => rows.map(([at_s, celsius]) => ({ at_s, celsius }));
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
  to_pieces_or_none_found: quantities.toPiecesOrNoneFound,
  to_grams_or_zero: quantities.toGramsOrZero,
  count_per_lb: countPerLb,
  count_per_kg: countPerKg,
  tenth_of: tenthOf,
  uniformity_ratio: uniformityRatio,
  uniformity_of: uniformityOf,
  parse_grade: parseGrade,
  customary_per: customaryPer,
  edges_of: (text, rule) => edgesOf(parseGrade(text), rule),
  nearest_grade: nearestGrade,
  grade_met: gradeMet,
  price_effect: (text, count, prices) => priceEffect(parseGrade(text), count, prices),
  judge_uniformity: judgeUniformity,
  spread_of: spreadOf,
  explain_uniformity: (sample) => explainUniformity(sample),
  count_sample: countSample,
  judge_count: (sample, text, rule) => judgeCount(sample, parseGrade(text), rule),
  explain_count: (sample, text) => explainCount(sample, parseGrade(text)),
  glazed_g: glaze.glazedG,
  deglazed_g: glaze.deglazedG,
  glaze_percent: glaze.glazePercent,
  glaze_percent_of_net: glaze.glazePercentOfNet,
  judge_glaze: glaze.judgeGlaze,
  explain_glaze: glaze.explainGlaze,
  shortage_g: shortage.shortageG,
  tolerable_deficiency: shortage.tolerableDeficiency,
  judge_unit_eu: shortage.judgeUnitEu,
  judge_unit_us: shortage.judgeUnitUs,
  maximum_allowable_variation: shortage.maximumAllowableVariation,
  sample_correction_factor: shortage.sampleCorrectionFactor,
  judge_average_us: shortage.judgeAverageUs,
  judge_average_eu: shortage.judgeAverageEu,
  claim_amount: shortage.claimAmount,
  tolerance_for: shortage.toleranceFor,
  short_percent: shortage.shortPercent,
  explain_shortage: shortage.explainShortage,
  plan_for: sampling.planFor,
  chance_of_exactly: chances.chanceOfExactly,
  chance_of_acceptance: chances.chanceOfAcceptance,
  chance_of_seeing_one: chances.chanceOfSeeingOne,
  cartons_to_see_one: chances.cartonsToSeeOne,
  most_bad_left: chances.mostBadLeft,
  cartons_worth: chances.cartonsWorth,
  plans_for_classes: sampling.plansForClasses,
  run_of_lots: switching.runOfLots,
  net_plan: netLots.netPlan,
  judge_net_lot: (scheme, lot, declared, found) => netLots.judgeNetLot(netLots.netPlan(scheme, lot), declared, found),
  most_beyond_t1: netLots.mostBeyondT1,
  is_scale_fine_enough: netLots.isScaleFineEnough,
  is_division_fine_enough: netLots.isDivisionFineEnough,
  what_a_sample_shows: sampling.whatASampleShows,
  sampling_shown: sampling.samplingShown,
  is_accepted: (asked: Asked, bad) => sampling.isAccepted(plan(asked), bad),
  operating_characteristic: (asked: Asked) => sampling.operatingCharacteristic(plan(asked)),
  explain_sample: (asked: Asked, opened, defective) => sampling.explainSample(plan(asked), opened, defective),
  fnv1a,
  first_words: firstWords,
  layer_sizes: layerSizes,
  draw_positions: drawPositions,
  band_of: temperature.bandOf,
  read_product: temperature.readProduct,
  judge_product: temperature.judgeProduct,
  warmest: temperature.warmest,
  air_prompts: temperature.airPrompts,
  judge_storage_air: temperature.judgeStorageAir,
  judge_ice_point: temperature.judgeIcePoint,
  ice_point_allowed_c: temperature.icePointAllowedC,
  thermometer_on: temperature.thermometerOn,
  explain_product: temperature.explainProduct,
  mean_kinetic_c: exposure.meanKineticC,
  storage_life_months: exposure.storageLifeMonths,
  life_used: exposure.lifeUsed,
  life_used_of: (rows, product) => exposure.lifeUsedOf(log(rows), product),
  minutes_above: (rows, limit) => exposure.minutesAbove(log(rows), limit),
  gap_minutes: (rows) => exposure.gapMinutes(log(rows)),
  excursions: (rows, limit) => exposure.excursions(log(rows), limit),
  mean_kinetic_of: (rows) => exposure.meanKineticOf(log(rows)),
  explain_exposure: (rows, limits, product) => exposure.explainExposure(log(rows), limits, product),
  wilson,
  chance_at_most: chanceAtMost,
  natural_exp: naturalExp,
  natural_log: naturalLog,
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
