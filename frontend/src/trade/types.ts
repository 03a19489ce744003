/**
 * The shapes that phone, server and judgements share. Field names are the same in JSON, Python and
 * TypeScript. An absent key or null means "not checked": never zero, never passed.
 */

export type Unit = "C" | "F" | "g" | "kg" | "lb" | "oz" | "pieces" | "percent";
/** What a person entered, kept as entered; everything else is derived from it. */
export interface Reading {
  entered: string;
  unit: Unit;
}

export type Presentation = "HOSO" | "HLSO" | "EZP" | "PTO" | "PDTO" | "PUD" | "PD" | "BTTY" | "PPV";
export type State = "raw" | "part_cooked" | "cooked";
export type Method = "farmed" | "caught" | "caught_freshwater";
export type Market = "EU" | "US" | "ANZ" | "CODEX";
export type Particular =
  | "name"
  | "scientific_name"
  | "method"
  | "area"
  | "gear"
  | "state"
  | "net_weight"
  | "lot"
  | "date"
  | "storage"
  | "crustacean"
  | "sulphites"
  | "producer"
  | "approval"
  | "origin";

export interface Label {
  source: "scan" | "typed";
  scan?: string;
  species_code?: string;
  scientific_name?: string;
  presentation?: Presentation | "";
  state?: State | "";
  grade?: string;
  net?: Reading | null;
  lot?: string;
  production_date?: string;
  frozen_on?: string;
  best_before?: string;
  origin?: string;
  catch_area?: string;
  method?: Method | "";
  shows?: Particular[];
}

export type PieceKind =
  | "black_spot"
  | "black_spot_wide"
  | "black_spot_meat"
  | "dehydrated"
  | "broken"
  | "soft"
  | "heads"
  | "legs"
  | "tails";

export type Liner = "closed" | "open" | "torn" | "missing";
export type Frost = "none" | "some" | "heavy";
export type RefreezingSign = "ice_pool" | "deformed" | "clumped";
export type ProbeMethod = "between_packs" | "core" | "surface";
export type Odour = "sound" | "slight" | "off" | "chemical";
export type ForeignMatter = "none" | "harmless" | "hazard";

export interface Weights {
  gross?: Reading | null;
  tare?: Reading | null;
  glazed?: Reading | null;
  deglazed?: Reading | null;
}

export interface Sample {
  pieces: number | null;
  weight: Reading | null;
  weight_is: "deglazed" | "glazed" | "unglazed";
  largest?: Reading | null;
  smallest?: Reading | null;
}

export interface Marks {
  answer: "agree" | "disagree" | "unsure";
  seen?: Record<string, boolean>;
}

/** How the thermometer stood when the reading was taken; kept with the reading, so a later check changes nothing. */
export interface ThermometerSnapshot {
  name: string;
  /** ISO day (or time) of its last check in crushed ice. */
  checked_at: string | null;
  ice_point: Reading | null;
  due_at: string | null;
}
/** Deep drying as CXS 92-1981 words it: by weight of the prawns looked at, or by the surface of a block. */
export interface Dehydration {
  dried?: Reading | null;
  of?: Reading | null;
  block_surface?: Reading | null;
}

export interface Carton {
  id: string;
  position?: number | null;
  opened_at?: string;
  label?: Label | null;
  liner?: Liner | null;
  frost?: Frost | null;
  refreezing?: RefreezingSign[] | null;
  temperature?: {
    product: Reading;
    method: ProbeMethod;
    /** The receiver says that a reading above zero is one, and no minus was left out. */
    is_above_zero?: boolean;
    thermometer_id?: string | null;
    thermometer?: ThermometerSnapshot | null;
  } | null;
  looked_at?: number | null;
  pieces?: Partial<Record<PieceKind, number | null>>;
  dehydration?: Dehydration | null;
  /** Published 0 to 10 visual scale, even steps (see melanosis.json). */
  black_spot_score?: number | null;
  odour?: Odour | null;
  odour_taken?: "frozen" | "thawed" | null;
  foreign_matter?: ForeignMatter | null;
  foreign_note?: string;
  weights?: Weights;
  sample?: Sample | null;
  marks?: Marks | null;
  note?: string;
}

export type PlanName =
  | "house"
  | "codex_1"
  | "codex_2"
  | "iso_s2"
  | "iso_s3"
  | "iso_s4"
  | "iso_1"
  | "iso_2"
  | "iso_1_double"
  | "iso_2_double";
export interface SamplingDrawn {
  plan: PlanName;
  layers?: number;
  seed: string;
  n: number;
  acceptance: number;
  positions: number[];
  /** Positions of the second stage, drawn by the same seed from what was not opened yet. */
  more?: number[];
  /** Why no more cartons are opened and no more labels read; then the line is held, or decided with a reason. */
  declined?: string;
}

export type Suggestion = "accept" | "accept_with_allowance" | "hold" | "reject" | "not_yet";
/** The step of the verdict that decides: a hazard, b refuse, c hold, d more to do, e unchecked, f allowance, g accept. */
export type Step = "a" | "b" | "c" | "d" | "e" | "f" | "g";
export interface Decision {
  kind: "accept" | "accept_with_allowance" | "hold" | "reject";
  accepted: number;
  refused: number;
  held: number;
  reason?: string;
  decided_at: string;
}

export interface Line {
  id: string;
  order_line_id?: string | null;
  specification_id: string;
  cartons_on_docket?: number | null;
  cartons_counted?: number | null;
  lot?: string;
  sampling?: SamplingDrawn | null;
  cartons?: Carton[];
  /** A load sorted by its labels: labels read in all, and how many of those cartons differ. */
  sorted?: { read: number; differ: number } | null;
  /** Checks that the line must have and the receiver left out, each with the reason. */
  left_out?: { check: string; reason: string }[];
  suggested?: LineVerdict | null;
  decision?: Decision | null;
}

export type PhotoPurpose =
  | "load"
  | "docket"
  | "label"
  | "top"
  | "under_liner"
  | "sample"
  | "defect"
  | "temperature"
  | "signature";
export interface Photo {
  id: string;
  sha256: string;
  bytes: number;
  type: string;
  purpose: PhotoPurpose;
  line_id?: string | null;
  carton_id?: string | null;
  taken_at: string;
  gate: {
    sharpness: number;
    exposure: number;
    glare: number;
    verdict: "usable" | "blurred" | "dark" | "glared" | "small" | "empty";
  };
}

export interface Signature {
  name: string;
  /** [x, y, t]; x and y 0 to 1 of the pad's box. */
  strokes: [number, number, number][][];
  at: string;
  /** What the driver had to say, such as "signed under protest". */
  words?: string;
}
export interface Refusal {
  refused: true;
  reason: string;
  at: string;
}

export type Load = "sound" | "shifted" | "wet" | "mixed" | "dirty";
/** One delivery under one docket (schema 1). */
export interface InspectionDocument {
  schema: 1;
  id: string;
  site_id: string;
  supplier_id: string;
  order_id?: string | null;
  limits_id: string;
  docket_number: string;
  /** ISO 8601 with the device's offset kept. */
  arrived_at: string;
  receiver: { person_id: number; name: string };
  device_id: string;
  separate_from?: string | null;
  vehicle?: {
    air?: Reading | null;
    thermometer_id?: string | null;
    thermometer?: ThermometerSnapshot | null;
    load?: Load | null;
    seal_number?: string;
    note?: string;
  };
  lines: Line[];
  photos: Photo[];
  wording?: null | { text: string; copied_at: string };
  signatures?: null | { receiver: Signature; driver: Signature | Refusal };
  notes?: string;
}

export interface PutAwayBody {
  cartons: {
    line_id: string;
    count: number;
    freezer_id: string;
    position: string;
    liner_closed: boolean;
    out_at: string;
    in_at: string;
  }[];
  freezer_air: Reading | null;
}
export interface CorrectionBody {
  text: string;
  reason: string;
}
export interface Addendum {
  id: string;
  delivery_id: string;
  kind: "put_away" | "correction";
  at: string;
  person: { person_id: number; name: string };
  device_id: string;
  body: PutAwayBody | CorrectionBody;
}

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
