/**
 * The shapes that phone, server and judgements share. Field names are the same in JSON, Python and
 * TypeScript. An absent key or null means "not checked": never zero, never passed. What a phone sends is
 * made from the server's schema (document_types); what it is answered is written here.
 */
import type {
  CorrectionAddendum,
  CorrectionBody,
  DecisionKind,
  Method,
  Photo,
  PlanName,
  Presentation,
  PutAwayAddendum,
  PutAwayBody,
  SetApartAddendum,
  SetApartBody,
  State,
  ThawedAddendum,
  ThawedBody,
} from "./document_types";

export type * from "./document_types";
export type PhotoPurpose = Photo["purpose"];
/** The driver would not sign. */
export interface Refusal {
  refused: true;
  reason: string;
  at: string;
}
export type Addendum = Omit<PutAwayAddendum, "kind" | "body"> & {
  kind: (PutAwayAddendum | CorrectionAddendum | SetApartAddendum | ThawedAddendum)["kind"];
  body: PutAwayBody | CorrectionBody | SetApartBody | ThawedBody;
};

export type Market = "EU" | "US" | "ANZ" | "CODEX";
export type Suggestion = DecisionKind | "not_yet";
/** The step of the verdict that decides: a hazard, b refuse, c hold, d more to do, e unchecked, f allowance, g accept. */
export type Step = "a" | "b" | "c" | "d" | "e" | "f" | "g";

/** One version of what is bought. */
export interface Specification {
  id: string;
  specification_id: string;
  version: number;
  code: string;
  name: string;
  species_code: string;
  presentation: Presentation;
  state: State;
  /** As the trade writes it; to the pound unless it says "per kg". */
  grade: string;
  carton_net_g: number;
  /** Inner units in a carton; weights are of one unit. */
  units_per_carton: number;
  declared_glaze_percent: number | null;
  origin: string[];
  method: Method | null;
  market: Market;
  /** Sealed inner bags need no liner; absent: peeled goods in several units come in bags, others lined. */
  pack?: "lined_carton" | "sealed_bags" | null;
  min_life_share: number | null;
  advisory: boolean;
  overrides: Record<string, number>;
}

export type Severity = "critical" | "major" | "minor" | "note";
/** The side that is fine: the end point is in for at_*; "none" for a finding without a number. */
export type Sense = "at_most" | "below" | "at_least" | "above" | "none";
export interface Basis {
  source: string;
  known: "read" | "from_memory" | "common_practice" | "computed";
  cv: string;
  words: string;
}
export interface Limit {
  code: string;
  bound: number | null;
  unit: string;
  sense: Sense;
  severity: Severity;
  basis: Basis;
  /** The specification laid its own bound over the group's. */
  is_ordered?: boolean;
}
export interface LimitSet {
  id: string;
  name: string;
  version: number;
  default_plan: PlanName;
  limits: Limit[];
}

export interface Reason {
  code: string;
  severity: Severity;
  /** Position of the carton, or null when the reason is the line's or the vehicle's. */
  carton: number | null;
  measured: number | null;
  unit: string | null;
  bound: number | null;
  sense: Sense | null;
  limit: string | null;
  /** These three came with edition 3 of the judgement. */
  whose: "ordered" | "published" | "house";
  acts_on: string;
  leads_to: string;
  basis: Basis | null;
  facts: Record<string, unknown>;
  text: string;
}
export type Check = "within" | "beyond" | "not_checked" | "cannot_tell";
export interface CartonVerdict {
  carton_id: string;
  position: number | null;
  defective: boolean;
  reasons: Reason[];
  checks: Record<string, Check>;
  derived: Record<string, number | null>;
}
export interface Allowance {
  basis: "short_weight" | "short_cartons" | "label_weight" | "grade" | "quality" | "uniformity";
  quantity: number;
  unit: "kg" | "cartons" | "percent";
  formula: string;
}
export interface SamplingShown {
  lot: number | null;
  opened: number;
  planned: number | null;
  acceptance: number;
  defective: number;
  /** Most bad cartons that a sample like this would still miss with 5 % chance. */
  upper_bad: number | null;
  /** Chance of opening no bad carton if 1 in 5 were bad. */
  miss_chance: number | null;
  /** Bad cartons that refuse the line; cartons opened when the second stage is done, and bad ones it accepts. */
  rejection: number;
  total: number;
  last_acceptance: number;
}
export interface NextStep {
  kind: "open" | "sort" | "probe";
  cartons: number;
  positions: number[];
  if_clean: Suggestion;
  if_bad: Suggestion;
  text: string;
}
export interface LineVerdict {
  line_id: string;
  suggestion: Suggestion;
  step: Step;
  reasons: Reason[];
  /** Checks that must be made before the line is ready; the first of not_checked. */
  needed: string[];
  left_out: { check: string; reason: string }[];
  not_checked: string[];
  /** What is to be done before anything final is suggested, and what each outcome would change. */
  next: NextStep | null;
  cartons: CartonVerdict[];
  sampling: SamplingShown;
  /** The first of `allowances`, or null. */
  allowance: Allowance | null;
  allowances: Allowance[];
  /** null while the line is not ready for a verdict or its cartons are not counted. */
  suggested_split: { accepted: number; refused: number; held: number } | null;
  wording: string;
}
export interface Unusable {
  path: string;
  code: string;
  facts: Record<string, unknown>;
}
export interface Judgement {
  judgement_version: number;
  limits_id: string;
  unusable: Unusable[];
  vehicle: { reasons: Reason[] };
  lines: LineVerdict[];
  wording: string;
}
