/** Words of the procedures: what is read off, which question it serves, which caution goes with it. */
import type { Measured, Purpose, Readings } from "../../state/procedures";
import type { StepKind } from "../../state/steps";
import type { Reading, Unit } from "../../store/document";
import { deglazedG } from "../../trade/glaze";
import { toGrams } from "../../trade/quantities";
import { checkPieces, checkTemperature, checkWeight, tried } from "./readings";

/** A caution of the catalogue (`dock-caution-…`), from check-values section 11. */
export type CautionId =
  "dock" | "opening" | "probing" | "label" | "sample" | "refused" | "hazard" | "deglazing" | "drilling" | "thawing" | "photo" | "freezer";

interface Asked {
  label: string;
  units: Unit[];
  unitWord?: string;
  /** On the button that leaves it out. */
  without: string;
}
const WEIGHTS: Unit[] = ["g", "kg", "lb"];
const weight = (label: string, without = "Not weighed"): Asked => ({ label, units: WEIGHTS, without });

export const ASKED: Record<Measured, Asked> = {
  gross: weight("Gross weight"),
  sieve: weight("Wet sieve", "Scale set to zero with the sieve"),
  on_sieve: weight("On the sieve, drained"),
  tare: weight("Empty packing"),
  pieces: { label: "Pieces in the sample", units: ["pieces"], unitWord: "pieces", without: "Not counted" },
  largest: weight("Largest tenth, together"),
  smallest: weight("Smallest tenth, together"),
  ice: { label: "Reading in ice", units: ["C", "F"], without: "No reading" },
};

/** The question that a procedure serves, to which it returns. */
export const SERVES: Record<Purpose, StepKind> = {
  sample: "weigh",
  pack: "weigh",
  block: "weigh",
  count: "pieces",
  between_packs: "temperature",
  core: "temperature",
  surface: "temperature",
  ice_point: "temperature",
  thaw: "faults",
};
export const CAUTION_OF: Record<Purpose, CautionId> = {
  sample: "deglazing",
  pack: "deglazing",
  block: "deglazing",
  count: "deglazing",
  between_packs: "probing",
  core: "drilling",
  surface: "probing",
  ice_point: "probing",
  thaw: "thawing",
};
/** What is going on while the time runs, in a word. */
export const TIMED_WORD: Record<Purpose, string> = {
  sample: "Draining",
  pack: "Draining",
  block: "Draining",
  count: "Sample",
  between_packs: "Probe",
  core: "Probe",
  surface: "Probe",
  ice_point: "Ice-point check",
  thaw: "Thawing",
};

/** A sentence when what was read off cannot be, null when it can. */
export function checkMeasured(measured: Measured, reading: Reading, others: Readings): string | null {
  const { entered, unit } = reading;
  if (measured === "pieces") return checkPieces(entered);
  if (measured === "ice") return checkTemperature(entered, unit);
  const cannotBe = checkWeight(entered, unit);
  if (cannotBe || measured !== "on_sieve" || !others.sieve) return cannotBe;
  return tried(() => deglazedG(toGrams(reading), toGrams(others.sieve)));
}
