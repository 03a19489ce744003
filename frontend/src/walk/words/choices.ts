/** The words on the answers, in the order in which they are offered. */
import { t } from "../../messages";
import type { Marks, PhotoPurpose, ProbeMethod, Suggestion } from "../../store/document";
import type { Tone } from "../../trade/registry";

export type { Tone };
export interface Choice<T> {
  value: T;
  label: string;
  hint?: string;
  tone: Tone;
}

export const METHODS: Choice<ProbeMethod>[] = [
  { value: "between_packs", label: t("dock-choices-label"), tone: "" },
  { value: "core", label: t("dock-choices-label-core"), tone: "" },
  { value: "surface", label: t("dock-choices-label-surface"), tone: "" },
];
export const PURPOSES: Record<PhotoPurpose, string> = {
  load: t("dock-choices-load"),
  docket: t("dock-choices-docket"),
  label: t("dock-choices-label-label"),
  top: t("dock-choices-top"),
  under_liner: t("dock-choices-under-liner"),
  sample: t("dock-choices-sample"),
  defect: t("dock-choices-defect"),
  temperature: t("dock-choices-temperature"),
  signature: t("dock-choices-signature"),
};
export const MARK_ANSWERS: Choice<Marks["answer"]>[] = [
  { value: "agree", label: t("dock-choices-label-they-agree"), tone: "good" },
  { value: "disagree", label: t("dock-choices-label-they-do-not"), tone: "bad" },
  { value: "unsure", label: t("dock-choices-label-not-sure"), tone: "warn" },
];
/** Behind "marks". */
export const MARKS_SAID: Record<Marks["answer"], string> = {
  agree: t("dock-marks-agree"),
  disagree: t("dock-marks-disagree"),
  unsure: t("dock-marks-unsure"),
};
export const SUGGESTIONS: Record<Suggestion, { label: string; act: string; tone: Tone }> = {
  accept: { label: t("dock-choices-label-accept"), act: t("dock-choices-label-accept"), tone: "good" },
  accept_with_allowance: {
    label: t("dock-choices-label-accept-with-allowance"),
    act: t("dock-choices-label-accept-with-allowance"),
    tone: "warn",
  },
  hold: { label: t("dock-choices-label-hold"), act: t("dock-choices-label-hold"), tone: "hold" },
  reject: { label: t("dock-choices-label-reject"), act: t("dock-choices-label-reject"), tone: "bad" },
  not_yet: { label: t("dock-choices-label-not-ready"), act: "", tone: "" },
};
export const labelOf = <T>(choices: { value: T; label: string }[], value: T): string =>
  choices.find((choice) => choice.value === value)?.label ?? String(value);
