/** The published procedures, taken apart for the phone: one card at a time, with what is read off at each. */
import { t } from "../messages";
import table from "@trade-data/procedures.json";
import type { Carton, Inspection, ProbeMethod, Reading } from "../store/document";
import { shown } from "../trade";
import { deglazedG } from "../trade/glaze";
import { toGrams } from "../trade/quantities";

interface ProcedureStep {
  code: string;
  text: string;
  /** Whole seconds that the step takes; null when it takes as long as it takes. */
  seconds: number | null;
}
interface Procedure {
  title: string;
  basis: { source: string; known: string; cv: string; words: string };
  steps: ProcedureStep[];
}
const PROCEDURES = table as Record<string, Procedure>;

/** What a procedure is done for; the word in the address. */
export type Purpose = "sample" | "pack" | "block" | "count" | "between_packs" | "core" | "surface" | "ice_point" | "thaw";
export type Measured = "gross" | "sieve" | "on_sieve" | "tare" | "pieces" | "largest" | "smallest" | "ice";

interface Plan {
  procedure: string;
  /** Steps of the published procedure that this purpose has no use for. */
  without: string[];
  /** What is read off at a step. */
  asks: Record<string, Measured[]>;
}
const ON_THE_SIEVE: Plan["asks"] = { "weigh-sieve": ["sieve"], "weigh-drained": ["on_sieve"] };
const OF_A_PACK: Plan["asks"] = { "weigh-pack": ["gross"], ...ON_THE_SIEVE, "weigh-packing": ["tare"] };
const plain = (procedure: string, asks: Plan["asks"] = {}): Plan => ({ procedure, without: [], asks });

const PLANS: Record<Purpose, Plan> = {
  sample: { ...plain("deglaze_single", ON_THE_SIEVE), without: ["weigh-pack", "weigh-packing"] },
  pack: plain("deglaze_single", OF_A_PACK),
  block: plain("deglaze_block", OF_A_PACK),
  count: plain("count", { count: ["pieces"], tenths: ["largest", "smallest"] }),
  between_packs: plain("probe_between_packs"),
  core: plain("probe_core"),
  surface: plain("probe_surface"),
  ice_point: plain("ice_point", { read: ["ice"] }),
  thaw: plain("thaw"),
};
/** The procedure that a step of the address names, where this delivery has its line. */
export function procedureAt(stepKey: string, body: Inspection): { purpose: Purpose; lineId: string; position: number } | null {
  const [start, purpose, lineId, position] = stepKey.split("~");
  const line = body.lines.find(({ id }) => id === lineId);
  return start === "by-steps" && purpose && isPurpose(purpose) && line ? { purpose, lineId: line.id, position: Number(position) } : null;
}
export const isPurpose = (word: string): word is Purpose => Object.hasOwn(PLANS, word);
export const titleOf = (purpose: Purpose): string => t(`dock-procedure-${purpose}`);
export const basisOf = (purpose: Purpose): Procedure["basis"] => PROCEDURES[PLANS[purpose].procedure]!.basis;
export const methodOf = (purpose: Purpose): ProbeMethod | null =>
  purpose === "between_packs" || purpose === "core" || purpose === "surface" ? purpose : null;

export interface Card extends ProcedureStep {
  asks: Measured | null;
  /** Place of the step among the steps shown, from 1. */
  number: number;
}

/** One card a step; a step at which two things are weighed is two cards. */
export function cardsOf(purpose: Purpose): Card[] {
  const plan = PLANS[purpose];
  const steps = PROCEDURES[plan.procedure]!.steps.filter(({ code }) => !plan.without.includes(code));
  return steps.flatMap((step, at) => (plan.asks[step.code] ?? [null]).map((asks) => ({ ...step, asks, number: at + 1 })));
}

export type Readings = Partial<Record<Measured, Reading>>;

/** Weight of the goods on the sieve, in g; the scale may have been set to zero with the sieve on it. */
export function withoutGlaze(readings: Readings): Reading | null {
  if (!readings.on_sieve) return null;
  if (!readings.sieve) return readings.on_sieve;
  return asGrams(deglazedG(toGrams(readings.on_sieve), toGrams(readings.sieve)));
}

function asGrams(massG: number): Reading {
  return { entered: shown(massG, 1).replace(/\.0$/, ""), unit: "g" };
}

/** What was read off goes into the carton; what was left out stays "not checked". */
export function enterInto(carton: Carton, purpose: Purpose, readings: Readings, isGlazed: boolean): void {
  const drained = withoutGlaze(readings);
  if (purpose === "sample" && drained) enterSample(carton, { weight: drained, weight_is: isGlazed ? "deglazed" : "unglazed" });
  if (purpose === "pack" || purpose === "block") {
    if (readings.gross) carton.weights.gross = readings.gross;
    if (readings.tare) carton.weights.tare = readings.tare;
    if (drained) carton.weights.deglazed = drained;
  }
  if (purpose === "count") enterCount(carton, readings);
  noteTheSieve(carton, readings);
}

function enterSample(carton: Carton, entry: Partial<NonNullable<Carton["sample"]>>): void {
  carton.sample = {
    pieces: carton.looked_at,
    weight: null,
    weight_is: "deglazed",
    largest: null,
    smallest: null,
    ...carton.sample,
    ...entry,
  };
}

function enterCount(carton: Carton, readings: Readings): void {
  if (readings.pieces) {
    carton.looked_at = Number(readings.pieces.entered);
    // another number of pieces is another sample: a weight of the earlier one would give a wrong size
    if (carton.sample?.pieces !== carton.looked_at) carton.sample = null;
    enterSample(carton, { pieces: carton.looked_at });
  }
  if (carton.sample && readings.largest) carton.sample.largest = readings.largest;
  if (carton.sample && readings.smallest) carton.sample.smallest = readings.smallest;
}

/** The difference goes into the record, so the two weights behind it are noted as they were read. */
function noteTheSieve(carton: Carton, { sieve, on_sieve }: Readings): void {
  if (!sieve || !on_sieve) return;
  const words = t("dock-procedures-sieve-with-prawns", {
    entered: on_sieve.entered,
    unit: on_sieve.unit,
    entered2: sieve.entered,
    unit2: sieve.unit,
  });
  if (!carton.note.includes(words)) carton.note = [carton.note, words].filter(Boolean).join(" ");
}
