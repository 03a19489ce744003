/**
 * What the server answers, made from the server's description (the answers of each application) by
 * `python -m fixtures.api_types`; a test holds the two together. Do not edit.
 */
import type {
  DecisionKind,
  InspectionDocument,
  Method,
  PlanName,
  Presentation,
  Reading,
  State,
} from "./document_types";

export type Check = "beyond" | "cannot_tell" | "not_checked" | "within";
export type ClaimState = "agreed" | "contested" | "drafted" | "offered" | "sent" | "settled" | "withdrawn";
export type DeliveryState = "put_away" | "signed";
export type EntryKind = "accept" | "agree" | "ask" | "contest" | "credit" | "note" | "offer" | "send" | "withdraw";
export type ImportKind = "orders" | "specifications" | "suppliers" | "thermometers";
export type Market = "ANZ" | "CODEX" | "EU" | "US";
export type MeasuredBy = "month" | "site" | "species" | "specification" | "supplier";
export type Role = "administrator" | "group_operations" | "receiver" | "site_manager";
export type Sense = "above" | "at_least" | "at_most" | "below" | "none";
export type Severity = "critical" | "major" | "minor" | "note";
export type Step = "a" | "b" | "c" | "d" | "e" | "f" | "g";
export type Suggestion = "accept" | "accept_with_allowance" | "hold" | "not_yet" | "reject";

export interface SessionAnswer {
  person: Me | null;
  revoked?: string;
}

/** The person who is signed in, with the sites they see. */
export interface Me {
  id: number;
  name: string;
  role: Role;
  sites: Site[];
}

/** A kitchen that receives. */
export interface Site {
  code: string;
  currency: string;
  id: string;
  market: Market;
  name: string;
  timezone: string;
}

/** What ``navigator.credentials`` takes, as JSON (Web Authentication Level 3, 5.4 and 5.5). */
export interface PasskeyOptions {
  publicKey: Record<string, unknown>;
}

export interface Passkeys {
  rows: PasskeyRow[];
}

/** A passkey as its owner lists it; its key is never told. */
export interface PasskeyRow {
  created_at: string;
  id: number;
  label: string;
  last_used_at: string | null;
}

/** A device that a site shares, and who may take it into their hands. */
export interface SharedDevice {
  device: SharedHere | null;
  people: PersonHere[];
}

export interface SharedHere {
  id: string;
  label: string;
  revoked: string | null;
  site: string;
}

export interface PersonHere {
  id: number;
  name: string;
}

export interface DevicesAnswer {
  rows: DeviceRow[];
}

/** A phone, tablet or browser; with a site it is one that a dock shares. */
export interface DeviceRow {
  enrolled_at: string | null;
  enrolled_by: string | null;
  id: string;
  label: string;
  last_seen: string;
  person: string;
  revoked_at: string | null;
  revoked_by: string | null;
  site: SiteOfDevice | null;
}

export interface SiteOfDevice {
  id: string;
  name: string;
}

export interface DeviceCode {
  code: string;
  expires_at: string;
}

export interface TrailPage {
  page: number;
  pages: number;
  rows: DeedRow[];
}

/** A row of the trail: who saw or did what. */
export interface DeedRow {
  about: string;
  address: string;
  at: string;
  device: string;
  id: number;
  person: string;
  site: string;
  words: string;
}

export interface DeliveryPage {
  count: number;
  page: number;
  pages: number;
  rows: DeliveryRow[];
}

export interface DeliveryRow {
  arrived_at: string;
  differs: boolean;
  docket_number: string;
  id: string;
  is_demo: boolean;
  lines: LineRow[];
  receiver: string;
  signed_at: string;
  site: Named;
  state: DeliveryState;
  supplier: Named;
}

export interface LineRow {
  accepted: number;
  decided: DecisionKind;
  departed_because: string;
  held: number;
  number: number;
  refused: number;
  specification: string;
  suggested: Suggestion;
}

export interface Named {
  code: string;
  id: string;
  name: string;
}

export interface DeliveryDetail {
  addenda: DeskAddendum[];
  arrived_at: string;
  difference: Difference[] | null;
  differs: boolean;
  docket_number: string;
  document: InspectionDocument;
  id: string;
  is_demo: boolean;
  judgement: Judgement;
  limit_set: LimitSet;
  lines: LineRow[];
  noticed: Coded[];
  order: OrderOfDelivery | null;
  photos: DeskPhoto[];
  receiver: string;
  signed_at: string;
  site: SiteWithClock;
  specifications: Specification[];
  state: DeliveryState;
  supplier: Named;
}

export interface DeskAddendum {
  at: string;
  body: Record<string, unknown>;
  id: string;
  kind: "correction" | "put_away" | "set_apart" | "thawed";
  person: string;
}

/** A place where the phone's judgement and the server's part. */
export interface Difference {
  path: string;
  phone: unknown;
  server: unknown;
}

export interface Judgement {
  judgement_version: number;
  limits_id: string;
  lines: LineVerdict[];
  unusable: Unusable[];
  vehicle: VehicleVerdict;
  wording: string;
}

export interface LineVerdict {
  allowance: Allowance | null;
  allowances: Allowance[];
  cartons: CartonVerdict[];
  left_out: LeftOutShown[];
  line_id: string;
  needed: string[];
  next: NextStep | null;
  not_checked: string[];
  reasons: Reason[];
  sampling: SamplingShown;
  settled: string;
  step: Step;
  suggested_split: Split | null;
  suggestion: Suggestion;
  unasked: string[];
  wording: string;
}

export interface Allowance {
  basis: "grade" | "label_weight" | "quality" | "short_cartons" | "short_weight" | "uniformity";
  formula: string;
  quantity: number;
  unit: "cartons" | "kg" | "percent";
}

export interface CartonVerdict {
  carton_id: string;
  checks: Record<string, Check>;
  defective: boolean;
  derived: Record<string, number | null>;
  position: number | null;
  reasons: Reason[];
  settled: string;
}

/** Why something is as suggested; ``carton`` is None when it is the line's or the vehicle's. */
export interface Reason {
  acts_on: string;
  basis: Basis | null;
  bound: number | null;
  carton: number | null;
  code: string;
  facts: Record<string, unknown>;
  leads_to: string;
  limit: string | null;
  measured: number | null;
  sense: Sense | null;
  severity: Severity;
  text: string;
  unit: string | null;
  whose: "house" | "ordered" | "published";
}

export interface Basis {
  cv: string;
  edition?: string;
  known: "common_practice" | "computed" | "from_memory" | "read";
  source: string;
  words: string;
}

export interface LeftOutShown {
  check: string;
  reason: string;
}

export interface NextStep {
  cartons: number;
  if_bad: Suggestion;
  if_clean: Suggestion;
  kind: "open" | "probe" | "sort";
  positions: number[];
  text: string;
}

export interface SamplingShown {
  acceptance: number;
  defective: number;
  last_acceptance: number;
  lot: number | null;
  miss_chance: number | null;
  opened: number;
  planned: number | null;
  rejection: number;
  total: number;
  upper_bad: number | null;
}

export interface Split {
  accepted: number;
  held: number;
  refused: number;
}

export interface Unusable {
  code: string;
  facts: Record<string, unknown>;
  path: string;
}

export interface VehicleVerdict {
  reasons: Reason[];
}

export interface LimitSet {
  default_plan: PlanName;
  id: string;
  limits: Limit[];
  name: string;
  version: number;
}

export interface Limit {
  basis: Basis;
  bound: number | null;
  code: string;
  sense: Sense;
  severity: Severity;
  unit: string;
}

export interface Coded {
  code: string;
  text: string;
}

export interface OrderOfDelivery {
  id: string;
  number: string;
}

/** A photo of a delivery; ``unreadable`` says why nothing can be shown, ``earlier`` is newest first. */
export interface DeskPhoto {
  advice: Advice | null;
  carton_id: string | null;
  earlier: EarlierAdvice[];
  id: string;
  is_stored: boolean;
  line_id: string | null;
  purpose: string;
  sha256: string;
  taken_at: string | null;
  unreadable: string | null;
}

/** What the photo advisory says; ``share`` (0 to 1) is of methods that gave a share of the surface. */
export interface Advice {
  answer: "cannot_tell" | "darkening_seen" | "finding_first" | "look_here" | "none_seen" | "switched_off";
  at_head?: number | null;
  dark_pieces?: number | null;
  frames: unknown[];
  histogram?: string | null;
  length_mm?: Mean | null;
  method_version?: string | null;
  overlay?: string | null;
  pieces?: number | null;
  reasons: Coded[];
  share?: number | null;
  share_high?: number | null;
  share_low?: number | null;
  thumb?: string;
  where?: string[];
}

export interface Mean {
  mean: number;
  pieces: number;
}

/** An answer that a later one stands beside. */
export interface EarlierAdvice {
  answer: "cannot_tell" | "darkening_seen" | "finding_first" | "look_here" | "none_seen" | "switched_off";
  at: string;
  dark_pieces: number | null;
  id: string;
  method_version: string;
  overlay: string | null;
  pieces: number | null;
  share: number | null;
  share_high: number | null;
  share_low: number | null;
}

export interface SiteWithClock {
  code: string;
  id: string;
  name: string;
  timezone: string;
}

/** One version of what is bought. */
export interface Specification {
  advisory: boolean;
  carton_net_g: number;
  code: string;
  declared_glaze_percent: number | null;
  grade: string;
  id: string;
  market: Market;
  method: Method | null;
  min_life_share: number | null;
  name: string;
  origin: string[];
  overrides: Record<string, number>;
  pack?: "lined_carton" | "sealed_bags" | null;
  presentation: Presentation;
  species_code: string;
  specification_id: string;
  state: State;
  units_per_carton: number;
  version: number;
}

export interface LotsAnswer {
  count: number;
  most: number;
  rows: LotRow[];
}

/** A docket line that names a lot on its docket or on labels of its opened cartons. */
export interface LotRow {
  accepted: number;
  arrived_at: string;
  cartons: number;
  decided: DecisionKind;
  delivery_id: string;
  docket_number: string;
  held: number;
  is_demo: boolean;
  is_on_docket: boolean;
  labels: LotLabel[];
  line: number;
  lot: string;
  not_put_away: number;
  opened: number;
  order: string | null;
  put_away: LotPutAway[];
  refused: number;
  set_apart: LotSetApart[];
  signed_at: string;
  signed_by: string;
  site: Named;
  specification: string;
  supplier: Named;
  timezone: string;
}

export interface LotLabel {
  best_before: string;
  position: number | null;
  production_date: string;
}

export interface LotPutAway {
  by: string;
  count: number;
  freezer: string;
  in_at: string | null;
  position: string;
}

/** Where refused or held cartons stand, or who fetched them; ``at`` as it was entered. */
export interface LotSetApart {
  at: string;
  by: string;
  count: number;
  event: "fetched" | "stand";
  part: "held" | "refused";
  where: string;
}

export interface ParkedAnswer {
  rows: ParkedJob[];
}

/** A piece of work that was given up; the photo itself is kept as it was taken. */
export interface ParkedJob {
  deliveries: ParkedDocket[];
  id: string;
  kind: "analyse_photo" | "small_pictures";
  parked_at: string | null;
  reason: string;
  sha256: string;
}

export interface ParkedDocket {
  docket_number: string;
  id: string;
}

export interface OrdersAnswer {
  rows: OrderRow[];
}

/** An order; its prices are in ``currency`` (ISO 4217). */
export interface OrderRow {
  currency: string;
  deliveries: DeliveryOfOrder[];
  expected_on: string;
  id: string;
  is_demo: boolean;
  lines: OrderLineRow[];
  number: string;
  site: Named;
  source: string;
  supplier: Named;
}

export interface DeliveryOfOrder {
  docket_number: string;
  id: string;
}

export interface OrderLineRow {
  cartons: number;
  id: string;
  price_per_kg: string | null;
  specification: string;
  specification_id: string;
}

export interface LimitsAnswer {
  current: LimitSet | null;
  versions: LimitSetVersion[];
}

export interface LimitSetVersion {
  created_at: string;
  created_by: string | null;
  id: string;
  is_current: boolean;
  name: string;
  version: number;
}

/** What signed deliveries come to under their own limits and plan, and under those tried. */
export interface Trial {
  after: TrialSide;
  before: TrialSide;
  changed: TrialChange[];
  changed_count: number;
  deliveries: number;
  lines: number;
  not_told: number;
}

/** Lines by suggestion, and cartons, under one set. */
export interface TrialSide {
  bad: number;
  held: number;
  known_bad: number;
  known_caught: number;
  missed: TrialMissed | null;
  opened: number;
  refused: number;
  suggestions: Record<string, number>;
}

/** Bad cartons taken unopened, estimated, with the ends of Wilson's interval (95 %). */
export interface TrialMissed {
  about: number;
  closed: number;
  high: number;
  low: number;
}

/** A line that would have come to something else. */
export interface TrialChange {
  after: Suggestion;
  arrived_at: string;
  before: Suggestion;
  delivery_id: string;
  docket_number: string;
  line: number;
  refused_after: number;
  refused_before: number;
}

export interface SpecificationsAnswer {
  rows: Specification[];
}

/** Whether photo advice is on for a specification; the version that set it so, who wrote that and when. */
export interface AdviceSwitch {
  at: string;
  by: string | null;
  code: string;
  is_on: boolean;
  name: string;
  since_version: number;
  specification_id: string;
  version: number;
}

export interface ThermometersAnswer {
  allowed_c: number;
  rows: ThermometerHere[];
}

export interface ThermometerHere {
  accuracy_c: number;
  check_due_on: string | null;
  checks: IceCheckRow[];
  id: string;
  in_use: boolean;
  last_check_c: number | null;
  last_checked_at: string | null;
  last_checked_on: string | null;
  name: string;
  site: SiteNamed;
  site_id: string;
  today: string;
}

/** A check in ice, as filed from a phone. */
export interface IceCheckRow {
  allowed_c: number;
  at: string;
  day: string;
  done_by: string;
  due_on: string;
  id: string;
  passed: boolean;
  reading: Reading;
  reading_c: number;
  sent_by: string;
  thermometer_id: string;
}

export interface SiteNamed {
  id: string;
  name: string;
}

export interface AccountRows {
  rows: AccountRow[];
}

/** An account as the desk lists it; never a password or a PIN. */
export interface AccountRow {
  email: string;
  has_pin: boolean;
  id: string;
  is_active: boolean;
  last_login: string | null;
  name: string;
  role: Role;
  sites: string[];
  username: string;
}

export interface Sites {
  rows: Site[];
}

export interface SupplierKepts {
  rows: SupplierKept[];
}

export interface SupplierKept {
  code: string;
  contact_email: string;
  contact_name: string;
  id: string;
  is_active: boolean;
  name: string;
}

export interface SpecificationKepts {
  rows: SpecificationKept[];
}

/** A specification with what its newest version says; all None before the first one. */
export interface SpecificationKept {
  advisory: boolean | null;
  carton_net_g: number | null;
  code: string;
  declared_glaze_percent: number | null;
  grade: string | null;
  id: string;
  is_active: boolean;
  market: string | null;
  method: string | null;
  min_life_share: number | null;
  name: string;
  origin: string[] | null;
  overrides: Record<string, number> | null;
  presentation: string | null;
  species_code: string | null;
  state: string | null;
  units_per_carton: number | null;
  version: number;
}

export interface ThermometerKepts {
  rows: ThermometerKept[];
}

export interface ThermometerKept {
  accuracy_c: number;
  check_due_on: string | null;
  id: string;
  in_use: boolean;
  last_check_c: number | null;
  last_checked_on: string | null;
  name: string;
  site: string;
}

export interface FreezerKepts {
  rows: FreezerKept[];
}

export interface FreezerKept {
  id: string;
  in_use: boolean;
  name: string;
  site: string;
}

/** What an import did; without ``is_written`` the counts say what would have been done. */
export interface ImportReport {
  added: number;
  changed: number;
  errors: UnusableCell[];
  is_dry_run: boolean;
  is_written: boolean;
  kind: ImportKind;
  read_as: string;
  rows: number;
  unchanged: number;
}

export interface UnusableCell {
  column: string;
  line: number;
  sentence: string;
  value: string;
}

export interface Comparison {
  common: Rate;
  funnel: Funnel | null;
  over_time: OverTime;
  period: PeriodTold;
  rows: SupplierRow[];
  sites: SiteRow[];
  threshold: Threshold;
}

export interface Rate {
  cartons_opened: number;
  defective: number;
  high: number | null;
  low: number | null;
  rate: number | null;
}

export interface Funnel {
  effect: number;
  limits: FunnelLimit[];
  spread: number | null;
}

/** Limits of found over expected at one expected number; 95 % and 99.8 % lie between them. */
export interface FunnelLimit {
  alarm_high: number;
  alarm_low: number;
  expected: number;
  warn_high: number;
  warn_low: number;
}

export interface OverTime {
  by: "month" | "week";
  centre: number | null;
  is_widened: boolean | null;
  needed: number;
  points: TimePoint[];
  shift: Shift | null;
}

/** One month or week, and the running total up to and with it. */
export interface TimePoint {
  defective: number;
  from: string;
  high: number | null;
  is_out: boolean;
  low: number | null;
  opened: number;
  total?: LimitedCount;
}

/** Defective of opened cartons; limits are counts of defective ones, null where too few points say anything. */
export interface LimitedCount {
  defective: number;
  high: number | null;
  is_out: boolean;
  low: number | null;
  opened: number;
}

/** A lasting change; ``from`` is the first day of the first month or week after it. */
export interface Shift {
  before: LimitedCount;
  from: string;
  one_in: number | null;
  since: LimitedCount;
}

export interface PeriodTold {
  from: string;
  to: string;
}

export interface SupplierRow {
  allowed_high: number | null;
  allowed_low: number | null;
  allowed_rate: number | null;
  alone_share: number | null;
  apart: boolean;
  cartons_opened: number;
  cartons_with_product: number;
  cartons_with_sample: number;
  chance_over: number | null;
  comparable: Comparable | null;
  defective: number;
  delivered_cartons: number;
  deliveries: number;
  deliveries_opened: number;
  difference: FromCommon | null;
  expected: number | null;
  held_cartons: number;
  high: number | null;
  low: number | null;
  luck: Luck | null;
  over_time: OverTime;
  rank: Rank | null;
  rate: number | null;
  ratio: number | null;
  ratio_high: number | null;
  ratio_low: number | null;
  refused_cartons: number;
  refused_run: RefusedRun | null;
  shrunk: number | null;
  shrunk_high: number | null;
  shrunk_low: number | null;
  supplier: Named;
  thawed_faults: number;
  too_few: boolean;
}

export interface Comparable {
  others: Count;
  own: Count;
}

export interface Count {
  cartons_opened: number;
  defective: number;
}

export interface FromCommon {
  high: number;
  low: number;
  share: number;
}

/** What luck explains: chances 0 to 1. */
export interface Luck {
  among: number;
  chance: number;
  compared: number;
  design_effect: number;
  one_in: number | null;
  says: "fewer" | "more" | "within";
}

/** A place among suppliers, 1 for the lowest rate: the middle one, and those of 95 of 100 orders drawn. */
export interface Rank {
  high: number;
  is_last: number;
  low: number;
  middle: number;
  of: number;
}

/** The latest deliveries of which every carton was refused. */
export interface RefusedRun {
  cartons: number;
  deliveries: number;
  since: string;
}

export interface SiteRow {
  allowed_high: number | null;
  allowed_low: number | null;
  allowed_rate: number | null;
  apart: boolean;
  cartons_opened: number;
  cartons_with_product: number;
  cartons_with_sample: number;
  code: string;
  comparable: Comparable | null;
  defective: number;
  deliveries: number;
  expected: number | null;
  high: number | null;
  id: string;
  low: number | null;
  name: string;
  rate: number | null;
  ratio: number | null;
  ratio_high: number | null;
  ratio_low: number | null;
  too_few: boolean;
}

export interface Threshold {
  cartons: number;
  deliveries: number;
}

/** What one supplier's rate is made of. */
export interface SupplierParts {
  by_site: SiteHere[];
  mix: MixPart[];
}

export interface SiteHere {
  cartons_opened: number;
  defective: number;
  delivered_cartons: number;
  deliveries: number;
  deliveries_opened: number;
  expected: number | null;
  held_cartons: number;
  high: number | null;
  low: number | null;
  name: string;
  rate: number | null;
  ratio: number | null;
  refused_cartons: number;
  site_id: string;
  thawed_faults: number;
  too_few: boolean;
}

export interface MixPart {
  cartons_opened: number;
  defective: number;
  everybody: Rate;
  high: number | null;
  low: number | null;
  presentation: string;
  rate: number | null;
  share: number | null;
  state: string;
}

export interface Measures {
  all: Measured;
  by: MeasuredBy;
  only: Only;
  period: PeriodTold;
  rows: MeasuredRow[];
}

export interface Measured {
  cost: Cost | null;
  counts: Record<string, number>;
  mean_product_c: number | null;
  net_share: number | null;
  out_minutes: number | null;
  settle_days: number | null;
  shares: Record<string, MeasuredShare>;
  too_few: boolean;
}

/** What a sound kilogram cost; shares that nothing tells are taken as 1. */
export interface Cost {
  currency: string;
  net_share: number | null;
  paid: number;
  sound: number | null;
  sound_share: number | null;
}

export interface MeasuredShare {
  count: number;
  high: number | null;
  low: number | null;
  of: number;
  share: number | null;
}

/** What the address asks for alone, by name. */
export interface Only {
  month?: string;
  site?: string;
  species?: string;
  specification?: string;
  supplier?: string;
}

export interface MeasuredRow {
  cost: Cost | null;
  counts: Record<string, number>;
  id: string;
  mean_product_c: number | null;
  name: string;
  net_share: number | null;
  out_minutes: number | null;
  settle_days: number | null;
  shares: Record<string, MeasuredShare>;
  too_few: boolean;
}

/** Sentences and a table, all text, as the screen, the PDF and the mail have them. */
export interface Summary {
  head: string[];
  month: string;
  note: string;
  rows: string[][];
  sentences: string[];
  title: string;
}

/** ``can``: the server sends mail, and the person's address is known. */
export interface SummaryWish {
  can: boolean;
  wanted: boolean;
}

export interface TablesAnswer {
  files: string[];
  tables: TableWords[];
}

/** A table that may be taken away, and its columns in words. */
export interface TableWords {
  columns: TableColumn[];
  meaning: string;
  name: string;
}

export interface TableColumn {
  kind: string;
  meaning: string;
  name: string;
}

/** A page of rows; ``next`` is where the next one begins, empty at the end. */
export interface TablePage {
  columns: string[];
  next: string;
  rows: unknown[][];
  table: string;
}

export interface AgreementAnswer {
  all: Group;
  blind: Counts;
  learnt: LearntAnswer;
  maybe_read: Counts;
  methods: MethodUsed[];
  period: PeriodTold;
  sites: SiteGroup[];
  species: SpeciesCounts[];
  specifications: SpecificationRow[];
  threshold: Threshold;
  unanswered: number;
}

export interface Group {
  agreeing: Share;
  cartons: number;
  deliveries: number;
  flagged: Share;
  flagged_beyond: Share;
  nothing_to_compare: number;
  right_flags: Share;
  table: SaidCounts;
  untold: Share;
  wrong_flags: Share;
}

export interface Share {
  count: number;
  high: number | null;
  low: number | null;
  of: number;
  share: number | null;
  too_few: boolean;
}

export interface SaidCounts {
  cannot_tell: FoundCounts;
  darkening_seen: FoundCounts;
  none_seen: FoundCounts;
}

export interface FoundCounts {
  beyond: number;
  none: number;
  within: number;
}

export interface Counts {
  agreeing: Share;
  cartons: number;
  deliveries: number;
  flagged: Share;
  flagged_beyond: Share;
  right_flags: Share;
  table: SaidCounts;
  untold: Share;
  wrong_flags: Share;
}

export interface LearntAnswer {
  floor: number;
  kept_aside: Record<string, KeptAside>;
  least: number;
  most_moved: number;
  rows: CutOff[];
}

export interface KeptAside {
  auc: number;
  auc_high: number;
  auc_low: number;
  marked: number;
  none: number;
}

/** Where darkening begins at some goods; what is not required is there once there are enough findings. */
export interface CutOff {
  auc?: number;
  auc_high?: number;
  auc_low?: number;
  cut_off: number;
  drift?: number;
  from: "findings" | "shipped";
  high?: number;
  is_quiet?: boolean;
  low?: number;
  presentation: string;
  refitted?: number;
  shipped: number;
  sound: number;
  species: string;
  species_code: string;
  spotted: number;
  state: string;
}

export interface MethodUsed {
  photos: number;
  version: string;
}

export interface SiteGroup {
  agreeing: Share;
  cartons: number;
  code: string;
  deliveries: number;
  flagged: Share;
  flagged_beyond: Share;
  id: string;
  name: string;
  nothing_to_compare: number;
  right_flags: Share;
  table: SaidCounts;
  unanswered: number;
  untold: Share;
  wrong_flags: Share;
}

export interface SpeciesCounts {
  agreeing: Share;
  cartons: number;
  code: string;
  deliveries: number;
  flagged: Share;
  flagged_beyond: Share;
  name: string;
  right_flags: Share;
  table: SaidCounts;
  untold: Share;
  wrong_flags: Share;
}

export interface SpecificationRow {
  agreeing: Share;
  at: string;
  by: string | null;
  cartons: number;
  code: string;
  deliveries: number;
  flagged: Share;
  flagged_beyond: Share;
  is_on: boolean;
  name: string;
  nothing_to_compare: number;
  right_flags: Share;
  since_version: number;
  specification_id: string;
  table: SaidCounts;
  untold: Share;
  version: number;
  wrong_flags: Share;
}

/** What a phone takes along; ``revision`` changes exactly when something else does. */
export interface Reference {
  current_limits_id: string | null;
  expected: ExpectedOrder[];
  freezers: FreezerRow[];
  installation: Installation;
  latest_seals?: LatestSeal[];
  limit_sets: LimitSet[];
  lots?: LotAtHand[];
  me: Me;
  open_documents: OpenDocument[];
  public_address?: string;
  revision: string;
  server_time: string;
  specifications: Specification[];
  suppliers: Named[];
  thermometers: ThermometerRow[];
}

export interface ExpectedOrder {
  expected_on: string;
  id: string;
  lines: ExpectedLine[];
  number: string;
  site_id: string;
  supplier_id: string;
}

export interface ExpectedLine {
  cartons: number;
  id: string;
  price_per_kg: string | null;
  specification_id: string;
}

export interface FreezerRow {
  id: string;
  name: string;
  site_id: string;
}

export interface Installation {
  name: string;
  public_key: string;
}

/** The newest seal of a site when this was told: the outside anchor in the QR code of a docket. */
export interface LatestSeal {
  number: number;
  sha256: string;
  site_id: string;
}

/** A lot of a line that was kept, as docket or labels name it; empty where neither does. */
export interface LotAtHand {
  arrived_at: string;
  delivery_id: string;
  docket_number: string;
  line_id: string;
  lot: string;
  name: string;
  site_id: string;
  supplier_id: string;
}

export interface OpenDocument {
  device_id: string | null;
  device_label: string;
  docket_number: string;
  id: string;
  person_name: string;
  revision: number;
  site_id: string;
  supplier_id: string | null;
  updated_at: string;
}

/** A site's thermometer with its last check in crushed ice; no moment for one that was only noted by its day. */
export interface ThermometerRow {
  accuracy_c: number;
  check_due_on: string | null;
  id: string;
  in_use: boolean;
  last_check_c: number | null;
  last_checked_at: string | null;
  last_checked_on: string | null;
  name: string;
  site_id: string;
}

export interface StoredDocument {
  document: InspectionDocument;
  revision: number;
  state: "open" | "signed";
  updated_at: string;
}

export interface Revision {
  revision: number;
}

export interface Signed {
  difference: Difference[] | null;
  judgement: Judgement;
  noticed: Coded[];
  seal: Seal;
}

export interface Seal {
  content_sha256: string;
  id: string;
  kind: "addendum" | "delivery" | "logger";
  number: number;
  previous_sha256: string | null;
  public_key_id: string;
  sealed_at: string;
  sha256: string;
  signature: string;
  subject_id: string;
}

export interface AddendumFiled {
  seal: Seal;
}

export interface IceCheckFiled {
  check: IceCheckRow;
}

/** What the phone would have been answered. */
export interface HandedIn {
  check?: IceCheckRow;
  difference?: Difference[] | null;
  judgement?: Judgement;
  noticed?: Coded[];
  revision?: number;
  seal?: Seal;
}

/** Advice by photo hash; null for what is still being worked on. */
export interface Advisories {
  photos: Record<string, Advice | null>;
}

export interface LoggerFilesAnswer {
  rows: LoggerFile[];
}

/** A logger file; ``zone_assumed`` is empty when it tells its own, ``file`` is the address of it as it came. */
export interface LoggerFile {
  answers: Record<string, string>;
  at: string;
  bytes: number;
  delivery_id: string;
  drawings: string;
  file: string;
  file_name: string;
  id: string;
  is_read_anew: boolean;
  method_version: string;
  person: string;
  reading: LoggerReading;
  sha256: string;
  zone_assumed: string;
}

/** What a logger's file was read to say; ``counted`` is null where no two readings lie on the way. */
export interface LoggerReading {
  counted: LoggerCounted | null;
  explain: LoggerExplained;
  file: LoggerFileRead;
  method: string;
  plot: LoggerPlot;
  remarks: Coded[];
  summary: string;
}

export interface LoggerCounted {
  coldest_c: number;
  from: string;
  from_s: number;
  gap_minutes: number;
  life: LoggerLife[];
  limits: LoggerLimit[];
  mean_kinetic_c: number;
  minutes: number;
  to: string;
  to_s: number;
  warmest_c: number;
}

export interface LoggerLife {
  days_at_18: number;
  goods: string[];
  product: string;
  share: number;
  table: string;
  text: string;
}

export interface LoggerLimit {
  basis: Basis[];
  count: number;
  excursions: LoggerExcursion[];
  limit_c: number;
  minutes: number;
  minutes_text: string;
  names: string[];
}

export interface LoggerExcursion {
  from_s: number;
  minutes: number;
  text: string;
  to_s: number;
  warmest_c: number;
}

export interface LoggerExplained {
  caution: string;
  life: string;
  life_basis: Basis;
  mean_kinetic: string;
  mean_kinetic_basis: Basis;
  method: string;
}

export interface LoggerFileRead {
  column: string;
  readings: number;
  unit: string;
  unread: number;
  unread_rows: UnreadRow[];
}

export interface UnreadRow {
  code: string;
  line: number;
  text: string;
}

/** What the drawing shows, times in s, temperatures in °C; the server draws it. */
export interface LoggerPlot {
  from_s: number;
  gaps: Stretch[];
  is_cut: boolean;
  limits: NamedLimit[];
  marks: Mark[];
  scale: Scale;
  shaded: Shaded[];
  stretches: [number, number][][];
  ticks: Tick[];
  to_s: number;
}

export interface Stretch {
  from_s: number;
  text: string;
  to_s: number;
}

export interface NamedLimit {
  limit_c: number;
  text: string;
}

export interface Mark {
  at_s: number;
  kind: "arrived" | "left";
  text: string;
}

export interface Scale {
  from: number;
  step: number;
  to: number;
}

export interface Shaded {
  from_s: number;
  limit_c: number;
  text: string;
  to_s: number;
}

export interface Tick {
  at_s: number;
  day: string;
  text: string;
}

export interface LinksAnswer {
  links: EvidenceLink[];
}

/** A link as the desk lists it; ``to_whom`` is a note of the one who made it. */
export interface EvidenceLink {
  created_at: string;
  created_by: string;
  delivery_id: string;
  expires_at: string;
  first_opened_at: string | null;
  id: string;
  last_opened_at: string | null;
  openings: number;
  revoked_at: string | null;
  to_whom: string;
}

/** A link as it is told once, when it is made: nobody can ask for its address again. */
export interface NewEvidenceLink {
  created_at: string;
  created_by: string;
  delivery_id: string;
  expires_at: string;
  first_opened_at: string | null;
  id: string;
  last_opened_at: string | null;
  mail_to: string;
  openings: number;
  qr: Squares;
  revoked_at: string | null;
  seal: LastSeal;
  to_whom: string;
  url: string;
}

/** A QR code: a path of squares in a square of ``size`` modules. */
export interface Squares {
  path: string;
  size: number;
}

export interface LastSeal {
  number: number;
  sha256: string;
}

export interface Sheet {
  limits: string;
  lines: SheetLine[];
  vehicle: SheetVehicle;
}

/** A line; without ``agrees`` the steps give another answer than the record, sealed under another edition. */
export interface SheetLine {
  agrees: boolean;
  allowances: Sum[];
  cartons: SheetCarton[];
  checks: Checks;
  decision: SheetDecision | null;
  entries: Typed[];
  must: MustHave[];
  name: string;
  notes: string[];
  number: number;
  ordered: Typed[];
  plans: Plan[];
  split: string;
  steps: SheetStep[];
  suggestion: string;
  sums: Sum[];
  tally: Tally;
}

export interface Sum {
  name: string;
  sum: string;
  value: string;
}

export interface SheetCarton {
  because: string[];
  checks: Checks;
  entries: Typed[];
  is_beyond_chance: boolean;
  is_defective: boolean;
  notes: string[];
  position: number | null;
  sums: Sum[];
}

export interface Checks {
  made: CheckRow[];
  open: string[];
}

/** A check against its limit; ``note`` says where the limit is from and whose bound it is. */
export interface CheckRow {
  answer: string;
  check: string;
  code: string;
  comparison: string;
  edition: string;
  effect: string;
  leads_to: string;
  limit: string;
  name: string;
  note: string;
  number: string;
  severity: string;
  source: string;
  state: "beyond" | "cannot_tell" | "within";
  unit: string;
  words: string;
}

export interface Typed {
  entered: string;
  name: string;
}

export interface SheetDecision {
  departs: string;
  reason: string;
  split: string;
  words: string;
}

export interface MustHave {
  answer: string;
  name: string;
  reason: string;
}

export interface Plan {
  accept: string;
  name: string;
  open: string;
  source: string;
}

export interface SheetStep {
  answer: string;
  because: string;
  letter: string;
  suggestion: string;
  when: string;
}

export interface Tally {
  acceptance: string;
  answer: string;
  bad: string;
  defective: string;
  last: string;
  opened: string;
  planned: string;
  rejection: string;
  shown: string;
  source: string;
  total: string;
}

export interface SheetVehicle {
  checks: Checks;
  entries: Typed[];
}

export interface SealsAnswer {
  public_keys: Record<string, string>;
  seals: Seal[];
}

export interface ClaimsAnswer {
  count: number;
  rows: ClaimRow[];
  sends_mail: boolean;
}

/** A claim in a list; ``amount`` is the one that counts now. */
export interface ClaimRow {
  age_days: number;
  agreed: Amount | null;
  amount: Amount | null;
  arrived_at: string;
  claimed: Amount | null;
  closed_at: string | null;
  credit_note: string;
  credited: Amount | null;
  currency: string;
  deadline: ClaimDeadline | null;
  delivery_id: string;
  docket_number: string;
  id: string;
  line: number;
  line_id: string;
  number: string;
  offered: Amount | null;
  product: string;
  sent_at: string | null;
  site: NamedRow;
  state: ClaimState;
  state_words: string;
  supplier: NamedRow;
}

export interface Amount {
  value: string;
  words: string;
}

/** What is due next, by the site's clock. */
export interface ClaimDeadline {
  at: string;
  is_over: boolean;
  left: string;
  what: string;
  words: string;
}

export interface NamedRow {
  id: string;
  name: string;
}

/** A claim whole: ``may`` is what the kitchen may say next. */
export interface ClaimDetail {
  age_days: number;
  agreed: Amount | null;
  amount: Amount | null;
  answer_hours: number;
  arrived_at: string;
  claimed: Amount | null;
  closed_at: string | null;
  contact: string;
  created_by: string;
  credit_note: string;
  credited: Amount | null;
  currency: string;
  deadline: ClaimDeadline | null;
  delivery_id: string;
  docket_number: string;
  found: FellShort[];
  grounds: Record<string, GroundTold>;
  id: string;
  items: ClaimItemTold[];
  line: number;
  line_id: string;
  mails: ClaimMail[];
  may: EntryKind[];
  notice: Notice;
  number: string;
  offered: Amount | null;
  offered_by: string;
  offered_by_words: string;
  product: string;
  sent_at: string | null;
  site: NamedRow;
  state: ClaimState;
  state_words: string;
  supplier: NamedRow;
  thread: ThreadEntry[];
}

/** A finding of the verdict: its limit, and whose limit it is. */
export interface FellShort {
  limit: string;
  severity: string;
  text: string;
  whose: string;
}

export interface GroundTold {
  inputs: GroundInput[];
  name: string;
}

export interface GroundInput {
  name: string;
  words: string;
}

export interface ClaimItemTold {
  amount: string | null;
  amount_words: string;
  computed: string | null;
  figures: Record<string, string>;
  ground: string;
  inputs: string[];
  name: string;
  reason: string;
  sum: string;
}

/** A mail or a notification, and what became of it. */
export interface ClaimMail {
  at: string;
  channel: "mail" | "notification";
  id: string;
  kind: string;
  sentence: string;
  state: "failed" | "sending" | "sent" | "unsure" | "waiting";
  to: string;
  words: string;
}

export interface Notice {
  basis: string;
  left: string;
  until: string;
}

/** What a side said, out of its sealed bytes; the first has the claim as it was sent. */
export interface ThreadEntry {
  amount: string | null;
  amount_words: string;
  answer_until?: string;
  at: string;
  by: string;
  claim_id: string;
  claim_number: string;
  credit_note?: string;
  currency: string;
  files: ClaimFileTold[];
  found?: FellShort[];
  id: string;
  is_above: boolean;
  items?: ClaimItem[];
  kind: EntryKind;
  line_id?: string;
  line_number?: number;
  notice_basis?: string;
  notice_until?: string;
  number: number;
  points: ClaimPoint[];
  product?: string;
  seal: EntrySeal;
  side: "kitchen" | "supplier";
  side_words: string;
  text: string;
  what: string;
  when: string;
}

export interface ClaimFileTold {
  bytes: number;
  drawings?: string;
  kind: "logger" | "photo";
  name: string;
  sha256: string;
  summary?: string;
  type: string;
}

/** What is claimed on one ground; ``computed`` is what the figures come to, ``reason`` why another is claimed. */
export interface ClaimItem {
  amount: string | null;
  computed: string | null;
  figures: Record<string, string>;
  ground: string;
  reason: string;
  sum: string;
}

/** What is said to one item. */
export interface ClaimPoint {
  item: number;
  name: string;
  text: string;
}

export interface EntrySeal {
  number: number;
  sha256: string;
}

export interface FiguresAnswer {
  rows: ClaimFigures[];
}

/** What the claims on a supplier come to in one currency; days are a median. */
export interface ClaimFigures {
  agreed: string;
  agreed_share: number | null;
  claimed: string;
  claims: number;
  credited: string;
  currency: string;
  days: number | null;
  open: number;
  settled: number;
  supplier: NamedRow;
}

export interface ClaimsOfDelivery {
  rows: ClaimRow[];
}

export interface ClaimTerms {
  answer_hours: number;
  currency: string;
  is_kept: boolean;
  notice_hours: number;
  supplier: NamedRow;
}

/** ``public_key`` is the ``applicationServerKey`` of the W3C Push API, base64url. */
export interface NotificationsAnswer {
  public_key: string;
  rows: NotificationRow[];
}

/** A browser of one's own; ``endpoint_sha256`` tells it which it is. */
export interface NotificationRow {
  created_at: string;
  endpoint_sha256: string;
  id: string;
  label: string;
}

export interface SupplierPeopleAnswer {
  rows: SupplierPersonRow[];
}

/** Somebody of a supplier who may sign in, or was ended; ``has_password`` once the invitation was taken up. */
export interface SupplierPersonRow {
  email: string;
  has_password: boolean;
  id: number;
  invited_at: string;
  invited_by: string;
  is_active: boolean;
  last_login: string | null;
  mail: string;
  name: string;
}

/** With the address of the invitation, told this once; empty for an account that was ended. */
export interface SupplierInvited {
  address: string;
  email: string;
  has_password: boolean;
  id: number;
  invited_at: string;
  invited_by: string;
  is_active: boolean;
  last_login: string | null;
  mail: string;
  name: string;
}

/** Seconds, bytes and ISO 8601; without the database nothing but that. */
export interface HealthAnswer {
  database: "answers" | "does not answer";
  free_bytes?: number;
  jobs?: JobsTold;
  last_backup?: string | null;
  sentences: string[];
  worker?: "has no work" | "stands still" | "works";
}

export interface JobsTold {
  last_finished_s: number | null;
  oldest_waiting_s: number;
  open: number;
  parked: number;
  waiting: number;
}

export interface Live {
  alive: boolean;
}

/** Beside the others, in the goods and at the sites where others were; all null where those are too few. */
export interface BesideOthers {
  allowed_high: number | null;
  allowed_low: number | null;
  allowed_rate: number | null;
  apart: boolean;
  comparable: Comparable | null;
  expected: number | null;
  ratio: number | null;
  ratio_high: number | null;
  ratio_low: number | null;
}

/** What a file leaves open: one of unit, zone, day_order, column; the likeliest answer first. */
export interface LoggerQuestion {
  choices: LoggerChoice[];
  name: string;
}

export interface LoggerChoice {
  text: string;
  value: string;
}
