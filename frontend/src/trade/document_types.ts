/**
 * What a phone sends, made from the server's schema (inspections/records/shape) by
 * `python -m fixtures.api_types`; a test holds the two together. Do not edit.
 */
import type { LineVerdict } from "./answer_types";
import type { Refusal } from "./types";

export type Answer = "agree" | "disagree" | "unsure";
export type DecisionKind = "accept" | "accept_with_allowance" | "hold" | "reject";
export type ForeignMatter = "none" | "harmless" | "hazard";
export type Frost = "none" | "some" | "heavy";
export type GateVerdict = "usable" | "blurred" | "dark" | "glared" | "small" | "empty";
export type Liner = "closed" | "open" | "torn" | "missing";
export type Load = "shifted" | "wet" | "mixed" | "dirty" | "sound";
export type Method = "farmed" | "caught" | "caught_freshwater";
export type Odour = "sound" | "slight" | "off" | "chemical";
export type OdourTaken = "frozen" | "thawed";
export type Particular = "name" | "scientific_name" | "method" | "area" | "gear" | "state" | "net_weight" | "lot" | "date" | "storage" | "crustacean" | "sulphites" | "producer" | "approval" | "origin";
export type PlanName = "house" | "codex_1" | "codex_2" | "iso_s1" | "iso_s2" | "iso_s3" | "iso_s4" | "iso_1" | "iso_2" | "iso_3" | "iso_s1_double" | "iso_s2_double" | "iso_s3_double" | "iso_s4_double" | "iso_1_double" | "iso_2_double" | "iso_3_double";
export type Presentation = "HOSO" | "HLSO" | "EZP" | "PTO" | "PDTO" | "PUD" | "PD" | "BTTY" | "PPV";
export type ProbeMethod = "between_packs" | "core" | "surface";
export type Refreezing = "ice_pool" | "deformed" | "clumped";
export type Source = "scan" | "typed";
export type State = "raw" | "part_cooked" | "cooked";
export type Unit = "C" | "F" | "g" | "kg" | "lb" | "oz" | "pieces" | "percent";
export type WeightIs = "deglazed" | "glazed" | "unglazed";

export interface InspectionDocument {
  schema: 1;
  id: string;
  site_id: string;
  supplier_id: string;
  order_id?: string | null;
  limits_id: string;
  docket_number: string;
  arrived_at: string;
  receiver: Receiver;
  device_id: string;
  separate_from?: string | null;
  vehicle?: Vehicle;
  lines: Line[];
  photos: Photo[];
  wording?: Wording | null;
  signatures?: Signatures | null;
  notes?: string;
}

export interface Receiver {
  person_id: number;
  name: string;
}

export interface Vehicle {
  air?: Reading | null;
  load?: Load[] | Load | null;
  thermometer_id?: string | null;
  thermometer?: ThermometerSnapshot | null;
  seal_number?: string;
  note?: string;
}

/** What a person entered, kept as entered; everything else is derived from it. */
export interface Reading {
  entered: string;
  unit: Unit;
}

/** How the thermometer stood when the reading was taken; a later check changes nothing. */
export interface ThermometerSnapshot {
  name: string;
  checked_at?: string | null;
  ice_point?: Reading | null;
  due_at?: string | null;
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
  sorted?: Sorted | null;
  left_out?: LeftOut[];
  suggested?: LineVerdict | null;
  decision?: Decision | null;
}

export interface SamplingDrawn {
  plan: PlanName;
  layers?: number;
  seed: string;
  n: number;
  acceptance: number;
  positions: number[];
  more?: number[];
  declined?: string;
}

export interface Carton {
  liner?: Liner | null;
  frost?: Frost | null;
  refreezing?: Refreezing[] | null;
  odour?: Odour | null;
  odour_taken?: OdourTaken | null;
  foreign_matter?: ForeignMatter | null;
  foreign_note?: string;
  looked_at?: number | null;
  black_spot_score?: number | null;
  pieces?: Pieces;
  dehydration?: Dehydration | null;
  id: string;
  position?: number | null;
  opened_at?: string;
  label?: Label | null;
  temperature?: Temperature | null;
  weights?: Weights;
  sample?: Sample | null;
  marks?: Marks | null;
  note?: string;
}

export interface Pieces {
  black_spot?: number | null;
  black_spot_meat?: number | null;
  dehydrated?: number | null;
  soft?: number | null;
  heads?: number | null;
  legs?: number | null;
  tails?: number | null;
  tails_left?: number | null;
  black_spot_wide?: number | null;
  broken?: number | null;
  head_black?: number | null;
  head_colour?: number | null;
  vein?: number | null;
  shell_left?: number | null;
  throats?: number | null;
  under_cooked?: number | null;
  over_cooked?: number | null;
  shell_slip?: number | null;
  clumps?: number | null;
}

export interface Dehydration {
  dried?: Reading | null;
  of?: Reading | null;
  block_surface?: Reading | null;
}

/** What stands on the label; empty where it states nothing, absent where it was not looked for. */
export interface Label {
  presentation?: Presentation | "";
  state?: State | "";
  method?: Method | "";
  grade?: string;
  net?: Reading | null;
  lot?: string;
  origin?: string;
  source: Source;
  scan?: string;
  species_code?: string;
  scientific_name?: string;
  production_date?: string;
  frozen_on?: string;
  best_before?: string;
  catch_area?: string;
  shows?: Particular[];
}

export interface Temperature {
  product: Reading;
  method: ProbeMethod;
  is_above_zero?: boolean;
  thermometer_id?: string | null;
  thermometer?: ThermometerSnapshot | null;
}

export interface Weights {
  gross?: Reading | null;
  tare?: Reading | null;
  glazed?: Reading | null;
  deglazed?: Reading | null;
}

export interface Sample {
  pieces: number | null;
  weight: Reading | null;
  weight_is: WeightIs;
  largest?: Reading | null;
  smallest?: Reading | null;
}

export interface Marks {
  answer: Answer;
  seen?: Record<string, boolean>;
}

/** A load sorted by its labels: labels read in all, and how many of those cartons differ. */
export interface Sorted {
  read: number;
  differ: number;
}

/** A check that the line must have and the receiver left out, with the reason. */
export interface LeftOut {
  check: string;
  reason: string;
}

export interface Decision {
  kind: DecisionKind;
  accepted: number;
  refused: number;
  held: number;
  reason?: string;
  decided_at: string;
}

export interface Photo {
  id: string;
  sha256: string;
  bytes: number;
  type: string;
  purpose: "defect" | "docket" | "label" | "load" | "sample" | "signature" | "temperature" | "top" | "under_liner";
  line_id?: string | null;
  carton_id?: string | null;
  taken_at: string;
  gate: Gate;
}

/** What the phone measured of a photo before it kept it. */
export interface Gate {
  sharpness: number;
  exposure: number;
  glare: number;
  texture: number;
  verdict: GateVerdict;
}

export interface Wording {
  text: string;
  copied_at: string;
}

export interface Signatures {
  receiver: Signature;
  driver: (Signature & { words?: string }) | Refusal;
}

export interface Signature {
  name: string;
  strokes: [number, number, number][][];
  at: string;
}

export interface PutAwayAddendum {
  kind: "put_away";
  id: string;
  delivery_id: string;
  at: string;
  person: Receiver;
  device_id: string;
  body: PutAwayBody;
}

export interface PutAwayBody {
  cartons: PutAwayOfLine[];
  freezer_air?: Reading | null;
}

export interface PutAwayOfLine {
  line_id: string;
  count: number;
  freezer_id: string;
  position: string;
  liner_closed: boolean;
  out_at: string;
  in_at: string;
}

export interface CorrectionAddendum {
  kind: "correction";
  id: string;
  delivery_id: string;
  at: string;
  person: Receiver;
  device_id: string;
  body: CorrectionBody;
}

export interface CorrectionBody {
  text: string;
  reason: string;
}

export interface SetApartAddendum {
  kind: "set_apart";
  id: string;
  delivery_id: string;
  at: string;
  person: Receiver;
  device_id: string;
  body: SetApartBody;
}

/** Refused and held goods: where they stand, who fetched them, who released or refused held ones later, and why. */
export interface SetApartBody {
  event: "fetched" | "refused" | "released" | "stand";
  happened_at: string;
  cartons: SetApartOfLine[];
  where: string;
  by: string;
  reason?: string;
}

export interface SetApartOfLine {
  line_id: string;
  part: "held" | "refused";
  count: number;
}

export interface ThawedAddendum {
  kind: "thawed";
  id: string;
  delivery_id: string;
  at: string;
  person: Receiver;
  device_id: string;
  body: ThawedBody;
}

/** A fault that showed when goods of a lot were thawed, days after they were signed for. */
export interface ThawedBody {
  line_id: string;
  lot: string;
  thawed_at: string;
  fault: "black_spot" | "broken" | "dried" | "foreign" | "other" | "short_weight" | "size" | "smell" | "soft";
  how_many: "few" | "half" | "most";
  note: string;
  photos: LaterPhoto[];
}

export interface LaterPhoto {
  id: string;
  sha256: string;
}

export interface IceCheck {
  id: string;
  thermometer_id: string;
  at: string;
  reading: Reading;
  person: CheckedBy;
  device_id: string;
}

/** Who held the thermometer in ice; a name may be typed by a guest of the kitchen. */
export interface CheckedBy {
  person_id?: number | null;
  name: string;
}
