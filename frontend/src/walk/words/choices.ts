/** The words on the answers, in the order in which they are offered. */
import type { Frost, ForeignMatter, Liner, Load, Marks, Odour, PhotoPurpose, PieceKind, ProbeMethod, RefreezingSign, Suggestion } from "../../store/document";

export type Tone = "good" | "warn" | "bad" | "hold" | "";
export interface Choice<T> {
  value: T;
  label: string;
  hint?: string;
  tone: Tone;
}

export const LOADS: Choice<Load>[] = [
  { value: "sound", label: "Sound", hint: "dry, clean, upright, nothing crushed", tone: "good" },
  { value: "shifted", label: "Shifted", hint: "fallen, leaning or crushed", tone: "warn" },
  { value: "wet", label: "Wet", hint: "soaked or stained cartons", tone: "warn" },
  { value: "mixed", label: "Mixed", hint: "other goods in the same space", tone: "warn" },
  { value: "dirty", label: "Dirty", hint: "floor, walls or smell", tone: "bad" },
];
export const LINERS: Choice<Liner>[] = [
  { value: "closed", label: "Closed", tone: "good" },
  { value: "open", label: "Open", tone: "warn" },
  { value: "torn", label: "Torn", tone: "bad" },
  { value: "missing", label: "Missing", tone: "bad" },
];
export const FROSTS: Choice<Frost>[] = [
  { value: "none", label: "None", tone: "good" },
  { value: "some", label: "Some", tone: "warn" },
  { value: "heavy", label: "Heavy", tone: "bad" },
];
export const REFREEZING: Choice<RefreezingSign>[] = [
  { value: "ice_pool", label: "Ice pool", hint: "at the bottom", tone: "bad" },
  { value: "deformed", label: "Bent block", hint: "out of shape", tone: "bad" },
  { value: "clumped", label: "Clumped", hint: "stuck together", tone: "bad" },
];
export const ODOURS: Choice<Odour>[] = [
  { value: "sound", label: "Sound", tone: "good" },
  { value: "slight", label: "Slight", tone: "warn" },
  { value: "off", label: "Off", tone: "bad" },
  { value: "chemical", label: "Chemical", tone: "bad" },
];
export const FOREIGN: Choice<ForeignMatter>[] = [
  { value: "none", label: "None", tone: "good" },
  { value: "harmless", label: "Harmless", tone: "warn" },
  { value: "hazard", label: "Hazard", tone: "bad" },
];
export const METHODS: Choice<ProbeMethod>[] = [
  { value: "between_packs", label: "Between packs", tone: "" },
  { value: "core", label: "Core", tone: "" },
  { value: "surface", label: "Surface", tone: "" },
];
export const PIECE_FAULTS: { value: PieceKind; label: string; hint?: string }[] = [
  { value: "black_spot", label: "Black spot", hint: "any, on shell or meat" },
  { value: "black_spot_wide", label: "Black over a tenth", hint: "of the surface" },
  { value: "black_spot_meat", label: "Black on the meat" },
  { value: "dehydrated", label: "Freezer burn", hint: "deeply dried" },
  { value: "broken", label: "Broken" },
  { value: "soft", label: "Soft" },
  { value: "heads", label: "Heads", hint: "loose or left on" },
  { value: "legs", label: "Legs", hint: "loose or left on" },
  { value: "tails", label: "Tails", hint: "missing or left on" },
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
