/** Names of species, presentations and particulars from the shared data. */
import { t } from "../../messages";
import particulars from "@trade-data/particulars.json";
import wording from "@trade-data/wording_en.json";
import { entryShown } from "./readings";
import { BY_CODE, shownName, type Species } from "../../trade";
import { SIZES } from "../../trade/grades";
import type { Particular, Reading, Specification } from "../../store/document";

export const PRESENTATIONS = wording.presentation as Record<string, string>;
export const STATES = wording.state as Record<string, string>;
/** Farmed or caught, in the words of the market (US: 7 CFR part 60, from memory). */
export const methodWords = (market: string): Record<string, string> => (market === "US" ? wording.method_us : wording.method);
/** A size as ordered; in the US with the word of its price lists beside it, which binds nobody (CV-3-18). */
export function sizeShown({ grade, market }: Specification): string {
  const word = market === "US" ? SIZES.ladder.lb.find((row) => row.text === grade)?.word : undefined;
  return word ? t("dock-names-size-word", { grade, word }) : grade;
}
export const PARTICULARS = wording.particulars as Record<Particular, string>;
export const NOT_CHECKED = wording.not_checked as Record<string, string>;

export function speciesOf(code: string): Species | null {
  return BY_CODE.get(code) ?? null;
}
export const speciesChoices = [...BY_CODE.values()].map(({ code }) => ({ code, name: shownName(code) }));

/** What the label must show in the market of the specification. */
export function requiredParticulars(specification: Specification): Particular[] {
  const market = (particulars.markets as Record<string, { required: string[]; when_caught?: string[] }>)[specification.market];
  const required = market?.required ?? [];
  const caught = specification.method === "caught" ? (market?.when_caught ?? []) : [];
  return [...required, ...caught] as Particular[];
}

export const readingShown = (reading: Reading | null | undefined): string => (reading ? entryShown(reading) : t("dock-names-not-checked"));
export function netShown(specification: Specification): string {
  return t("dock-names-kg", { value: specification.carton_net_g / 1000 });
}
export function ordinaryName(specification: Specification | null): string {
  return specification?.name ?? t("dock-names-specification-not-on");
}
