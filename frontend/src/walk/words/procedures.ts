/** Words of the procedures: what is read off, which question it serves, which caution goes with it. */
import { t } from "../../messages";
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
const weight = (label: string, without = t("dock-procedures-not-weighed")): Asked => ({ label, units: WEIGHTS, without });

export const ASKED: Record<Measured, Asked> = {
  gross: weight(t("dock-procedures-gross-weight")),
  sieve: weight(t("dock-procedures-wet-sieve"), t("dock-procedures-scale-set-zero")),
  on_sieve: weight(t("dock-procedures-on-sieve-drained")),
  tare: weight(t("dock-procedures-empty-packing")),
  pieces: {
    label: t("dock-procedures-label"),
    units: ["pieces"],
    unitWord: t("dock-procedures-pieces"),
    without: t("dock-procedures-without"),
  },
  largest: weight(t("dock-procedures-largest-tenth-together")),
  smallest: weight(t("dock-procedures-smallest-tenth-together")),
  ice: { label: t("dock-procedures-label-reading-in-ice"), units: ["C", "F"], without: t("dock-procedures-without-no-reading") },
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
  sample: t("dock-procedures-sample"),
  pack: t("dock-procedures-sample"),
  block: t("dock-procedures-sample"),
  count: t("dock-procedures-count"),
  between_packs: t("dock-procedures-between-packs"),
  core: t("dock-procedures-between-packs"),
  surface: t("dock-procedures-between-packs"),
  ice_point: t("dock-procedures-ice-point"),
  thaw: t("dock-procedures-thaw"),
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
