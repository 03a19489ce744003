/** The words on the answers, in the order in which they are offered. */
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
  { value: "between_packs", label: "Between packs", tone: "" },
  { value: "core", label: "Core", tone: "" },
  { value: "surface", label: "Surface", tone: "" },
];
export const PURPOSES: Record<PhotoPurpose, string> = {
  load: "Load",
  docket: "Docket",
  label: "Label",
  top: "Lid open",
  under_liner: "Under the liner",
  sample: "Sample",
  defect: "Fault close up",
  temperature: "Thermometer",
  signature: "Signature",
};
export const MARK_ANSWERS: Choice<Marks["answer"]>[] = [
  { value: "agree", label: "They agree", tone: "good" },
  { value: "disagree", label: "They do not agree", tone: "bad" },
  { value: "unsure", label: "Not sure", tone: "warn" },
];
/** Behind "marks". */
export const MARKS_SAID: Record<Marks["answer"], string> = { agree: "agree", disagree: "do not agree", unsure: "not settled" };
export const SUGGESTIONS: Record<Suggestion, { label: string; act: string; tone: Tone }> = {
  accept: { label: "Accept", act: "Accept", tone: "good" },
  accept_with_allowance: { label: "Accept with allowance", act: "Accept with allowance", tone: "warn" },
  hold: { label: "Hold", act: "Hold", tone: "hold" },
  reject: { label: "Reject", act: "Reject", tone: "bad" },
  not_yet: { label: "Not ready", act: "", tone: "" },
};
export const labelOf = <T>(choices: { value: T; label: string }[], value: T): string =>
  choices.find((choice) => choice.value === value)?.label ?? String(value);
