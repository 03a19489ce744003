/** The worksheet as the server prints it: every number is text already, so that nothing is rounded twice. */

export interface Typed {
  name: string;
  entered: string;
}
export interface Sum {
  name: string;
  sum: string;
  value: string;
}
export interface CheckRow {
  name: string;
  number: string;
  unit: string;
  comparison: string;
  limit: string;
  state: "within" | "beyond" | "cannot_tell";
  answer: string;
  severity: string;
  leads_to: string;
  /** Where the limit is from, and whose bound it is. */
  note: string;
}
export interface Checks {
  made: CheckRow[];
  /** Names of the checks that were not made. */
  open: string[];
}
export interface SheetCarton {
  position: number | null;
  entries: Typed[];
  sums: Sum[];
  checks: Checks;
  notes: string[];
  is_defective: boolean;
  because: string[];
}
export interface Step {
  letter: string;
  when: string;
  suggestion: string;
  answer: string;
  because: string;
}
export interface SheetLine {
  number: number;
  name: string;
  ordered: Typed[];
  entries: Typed[];
  cartons: SheetCarton[];
  sums: Sum[];
  checks: Checks;
  notes: string[];
  plans: { name: string; open: string; accept: string; source: string }[];
  tally: Record<
    "opened" | "planned" | "acceptance" | "defective" | "bad" | "shown" | "rejection" | "total" | "last" | "answer" | "source",
    string
  >;
  must: { name: string; answer: string; reason: string }[];
  steps: Step[];
  suggestion: string;
  /** False: the steps give another answer than the sealed record, which was judged by another edition. */
  agrees: boolean;
  allowances: Sum[];
  split: string;
  decision: { words: string; split: string; reason: string; departs: string } | null;
}
export interface Sheet {
  limits: string;
  vehicle: { entries: Typed[]; checks: Checks };
  lines: SheetLine[];
}
