/** What the server tells the desk. Names as in JSON; null means "not known", never zero. */
import type { ThermometerRow } from "../sync/reference";
import type { Basis, InspectionDocument, Judgement, Limit, LimitSet, Specification } from "../trade/types";

export type Role = "receiver" | "site_manager" | "group_operations" | "administrator";

export interface Site {
  id: string;
  name: string;
  code: string;
  timezone?: string;
}
export interface Me {
  id: number;
  name: string;
  role: Role;
  sites: Site[];
}
export interface Named {
  id: string;
  name: string;
  code?: string;
}

export interface Page<Row> {
  page: number;
  pages: number;
  count: number;
  rows: Row[];
}

export type DeliveryState = "signed" | "put_away";
export type Outcome = "accept" | "accept_with_allowance" | "hold" | "reject";
export type Suggested = Outcome | "not_yet";

export interface DeliveryRow {
  id: string;
  site: Named;
  supplier: Named;
  docket_number: string;
  arrived_at: string;
  signed_at: string;
  receiver: string;
  state: DeliveryState;
  is_demo: boolean;
  differs: boolean;
  lines: LineRow[];
}
export interface LineRow {
  number: number;
  specification: string;
  suggested: Suggested;
  decided: Outcome;
  accepted: number;
  refused: number;
  held: number;
  departed_because?: string;
}

export interface Advice {
  answer: "darkening_seen" | "none_seen" | "cannot_tell" | "look_here" | "switched_off";
  pieces?: number | null;
  dark_pieces?: number | null;
  at_head?: number | null;
  /** Of methods before pieces-1, which gave a share of the surface. */
  share?: number | null;
  share_low?: number | null;
  share_high?: number | null;
  where?: string[];
  reasons?: { code: string; text: string }[];
  method_version?: string;
  overlay?: string | null;
  histogram?: string | null;
}
/** An answer that a later one stands beside. */
export interface EarlierAdvice {
  id: string;
  method_version: string;
  answer: "darkening_seen" | "none_seen" | "cannot_tell" | "look_here";
  pieces?: number | null;
  dark_pieces?: number | null;
  share: number | null;
  share_low: number | null;
  share_high: number | null;
  at: string;
  overlay: string | null;
}
export interface DeskPhoto {
  id: string;
  sha256: string;
  purpose: string;
  line_id: string | null;
  carton_id: string | null;
  taken_at: string | null;
  /** Bytes have reached the server. */
  is_stored: boolean;
  /** Why nothing can be shown of the file; null where it is a picture. */
  unreadable: string | null;
  advice: Advice | null;
  /** Newest first. */
  earlier: EarlierAdvice[];
}
export interface Seal {
  number: number;
  kind: "delivery" | "addendum" | "logger";
  subject_id: string;
  sha256: string;
  previous_sha256: string | null;
  public_key_id: string;
  sealed_at: string;
}
export interface DeskAddendum {
  id: string;
  kind: "put_away" | "correction" | "set_apart" | "thawed";
  at: string;
  person: string;
  body: Record<string, unknown>;
}
export interface LoggerExcursion {
  from_s: number;
  to_s: number;
  minutes: number;
  warmest_c: number;
  text: string;
}
export interface LoggerReading {
  method: string;
  file: { readings: number; unit: string; column: string; unread: number; unread_rows: { line: number; code: string; text: string }[] };
  remarks: { code: string; text: string }[];
  /** Null: no two readings lie on the way. */
  counted: {
    from: string;
    to: string;
    coldest_c: number;
    warmest_c: number;
    mean_kinetic_c: number;
    gap_minutes: number;
    limits: {
      limit_c: number;
      minutes: number;
      minutes_text: string;
      count: number;
      names: string[];
      basis: Basis[];
      excursions: LoggerExcursion[];
    }[];
    life: { product: string; share: number; days_at_18: number; text: string; table: string }[];
  } | null;
  summary: string;
  explain: { mean_kinetic: string; mean_kinetic_basis: Basis; life: string; life_basis: Basis; caution: string };
  /** What the words below the drawing tell of it. */
  plot: { is_cut: boolean; shaded: { limit_c: number }[]; gaps: unknown[]; marks: unknown[] };
}
export interface LoggerFile {
  id: string;
  file_name: string;
  sha256: string;
  bytes: number;
  at: string;
  person: string;
  /** Empty when the file tells its own zone. */
  zone_assumed: string;
  answers: Record<string, string>;
  method_version: string;
  reading: LoggerReading;
  /** The log drawn by the server: SVG of class `phone` and of class `wide`. */
  drawings: string;
  /** Address of the file as it came. */
  file: string;
  /** The same file was read again later, with other answers. */
  is_read_anew: boolean;
}
/** What a file leaves open: one of unit, zone, day_order, column; the likeliest answer first. */
export interface LoggerQuestion {
  name: string;
  choices: { value: string; text: string }[];
}
export interface EvidenceLink {
  id: string;
  created_at?: string;
  created_by?: string;
  expires_at: string;
  revoked_at?: string | null;
  /** A note of the one who made it. */
  to_whom?: string;
  openings?: number;
  first_opened_at?: string | null;
  last_opened_at?: string | null;
}
/** As it is told once, when it is made: nobody can ask for its address again. */
export interface NewEvidenceLink extends EvidenceLink {
  url: string;
  /** A path of squares in a square of `size` modules. */
  qr: { size: number; path: string };
  mail_to: string;
  seal: { number: number; sha256: string };
}
export interface Difference {
  path: string;
  phone: unknown;
  server: unknown;
}
export interface DeliveryDetail {
  id: string;
  site: Site;
  supplier: Named;
  order: { id: string; number: string } | null;
  docket_number: string;
  arrived_at: string;
  signed_at: string;
  state: DeliveryState;
  is_demo: boolean;
  receiver: string;
  document: InspectionDocument;
  judgement: Judgement;
  difference: Difference[] | null;
  /** What did not go together at signing: moments, or the receiver's name. */
  noticed: { code: string; text: string }[];
  specifications: Specification[];
  limit_set: LimitSet;
  photos: DeskPhoto[];
  addenda: DeskAddendum[];
}

export interface Rate {
  cartons_opened: number;
  defective: number;
  rate: number | null;
  low: number | null;
  high: number | null;
}
export interface Count {
  cartons_opened: number;
  defective: number;
}
/** Beside the others, in the goods and at the sites where others were; all null where those are too few. */
export interface BesideOthers {
  comparable: { own: Count; others: Count } | null;
  /** Defective cartons that the others' rates would give in the same goods at the same sites. */
  expected: number | null;
  ratio: number | null;
  ratio_low: number | null;
  ratio_high: number | null;
  allowed_rate: number | null;
  allowed_low: number | null;
  allowed_high: number | null;
  apart: boolean;
}
export interface HowMany {
  deliveries: number;
  deliveries_opened: number;
  delivered_cartons: number;
  refused_cartons: number;
  held_cartons: number;
  thawed_faults: number;
}
export interface SiteHere extends Rate, HowMany {
  site_id: string;
  name: string;
  expected: number | null;
  ratio: number | null;
  too_few: boolean;
}
export interface MixPart extends Rate {
  presentation: string;
  state: string;
  share: number | null;
  everybody: Rate;
}
export interface Looks {
  cartons_with_product: number;
  cartons_with_sample: number;
}
/** What luck explains: chances 0 to 1. */
export interface Luck {
  says: "more" | "fewer" | "within";
  chance: number;
  among: number;
  one_in: number | null;
  compared: number;
  design_effect: number;
}
/** Defective of opened cartons; limits are counts of defective ones, null where too few points say anything. */
export interface LimitedCount {
  opened: number;
  defective: number;
  low: number | null;
  high: number | null;
  is_out: boolean;
}
/** One month or week, and the running total up to and with it. */
export interface TimePoint extends LimitedCount {
  from: string;
  total?: LimitedCount;
}
export interface Shift {
  /** First day of the first month or week after the change. */
  from: string;
  before: LimitedCount;
  since: LimitedCount;
  one_in: number | null;
}
export interface OverTime {
  by: "month" | "week";
  needed: number;
  centre: number | null;
  is_widened: boolean | null;
  points: TimePoint[];
  shift: Shift | null;
}
/** The latest deliveries of which every carton was refused. */
export interface RefusedRun {
  deliveries: number;
  cartons: number;
  since: string;
}
/** A place among suppliers, 1 for the lowest rate: the middle one, and those of 95 of 100 orders drawn. */
export interface Rank {
  middle: number;
  low: number;
  high: number;
  is_last: number;
  of: number;
}
/** Limits of found over expected at one expected number; 95 % and 99.8 % lie between them. */
export interface FunnelLimit {
  expected: number;
  warn_low: number;
  warn_high: number;
  alarm_low: number;
  alarm_high: number;
}
export interface Funnel {
  effect: number;
  spread: number | null;
  limits: FunnelLimit[];
}
export interface SupplierRow extends Rate, BesideOthers, HowMany, Looks {
  supplier: Named;
  refused_run: RefusedRun | null;
  luck: Luck | null;
  rank: Rank | null;
  over_time: OverTime;
  difference: { share: number; low: number; high: number } | null;
  shrunk: number | null;
  shrunk_low: number | null;
  shrunk_high: number | null;
  chance_over: number | null;
  alone_share: number | null;
  too_few: boolean;
}
/** What one supplier's rate is made of; asked for when somebody looks. */
export interface SupplierParts {
  by_site: SiteHere[];
  mix: MixPart[];
}
export interface SiteRow extends Rate, BesideOthers, Looks {
  id: string;
  name: string;
  code: string;
  deliveries: number;
  too_few: boolean;
}
export interface Comparison {
  period: { from: string; to: string };
  threshold: { cartons: number; deliveries: number };
  common: Rate;
  over_time: OverTime;
  funnel: Funnel | null;
  sites: SiteRow[];
  rows: SupplierRow[];
}

/** A table that may be taken away, and its columns in words. */
export interface TableWords {
  name: string;
  meaning: string;
  columns: { name: string; kind: string; meaning: string }[];
}

export type MeasuredBy = "supplier" | "site" | "specification" | "species" | "month";
export interface MeasuredShare {
  count: number;
  of: number;
  share: number | null;
  low: number | null;
  high: number | null;
}
/** What a sound kilogram cost, with its parts; money in the currency that is named. */
export interface Cost {
  currency: string;
  paid: number;
  net_share: number | null;
  sound_share: number | null;
  sound: number | null;
}
export interface Measured {
  counts: Record<string, number>;
  shares: Record<string, MeasuredShare>;
  too_few: boolean;
  mean_product_c: number | null;
  net_share: number | null;
  out_minutes: number | null;
  cost: Cost | null;
}
export interface Measures {
  by: MeasuredBy;
  period: { from: string; to: string };
  /** What the address asks for alone, by name: "supplier" to its name. */
  only: Partial<Record<MeasuredBy, string>>;
  rows: (Measured & { id: string; name: string })[];
  all: Measured;
}

/** A docket line that names a lot on its docket or on labels of its opened cartons. */
export interface LotRow {
  lot: string;
  is_on_docket: boolean;
  site: Named;
  supplier: Named;
  delivery_id: string;
  docket_number: string;
  line: number;
  order: string | null;
  arrived_at: string;
  timezone: string;
  specification: string;
  decided: Outcome;
  cartons: number;
  accepted: number;
  refused: number;
  held: number;
  opened: number;
  labels: { position: number | null; best_before: string; production_date: string }[];
  signed_by: string;
  signed_at: string;
  put_away: { count: number; freezer: string; position: string; in_at: string | null; by: string }[];
  not_put_away: number;
  set_apart: { count: number; part: "refused" | "held"; event: "stand" | "fetched"; where: string; by: string; at: string }[];
  is_demo: boolean;
}
export interface LotsAnswer {
  count: number;
  most: number;
  rows: LotRow[];
}

export interface OrderRow {
  id: string;
  number: string;
  site: Named;
  supplier: Named;
  /** ISO 4217, of the prices. */
  currency: string;
  expected_on: string;
  source: string;
  is_demo?: boolean;
  lines: { id: string; specification: string; cartons: number; price_per_kg: string | null }[];
  deliveries: { id: string; docket_number: string }[];
}

/** A check in ice, as filed from a phone. */
export interface IceCheckRow {
  id: string;
  at: string;
  day: string;
  reading: { entered: string; unit: "C" | "F" };
  reading_c: number;
  allowed_c: number;
  passed: boolean;
  due_on: string;
  done_by: string;
  sent_by: string;
}
export interface ThermometerHere extends ThermometerRow {
  site: Named;
  /** The day at the site, by which a check is due or not. */
  today: string;
  /** The newest that were filed, newest first. */
  checks: IceCheckRow[];
}

/** A phone, tablet or browser; with a site it is one that a dock shares. */
export interface DeviceRow {
  id: string;
  label: string;
  person: string;
  site: { id: string; name: string } | null;
  last_seen: string;
  enrolled_by: string | null;
  enrolled_at: string | null;
  revoked_by: string | null;
  revoked_at: string | null;
}
/** A row of the trail: who saw or did what. */
export interface DeedRow {
  id: number;
  at: string;
  words: string;
  about: string;
  person: string;
  site: string;
  device: string;
  address: string;
}

export type ImportKind = "suppliers" | "specifications" | "orders" | "thermometers";
export interface ImportReport {
  kind: ImportKind;
  is_dry_run: boolean;
  /** False: the counts say what would have been done. */
  is_written: boolean;
  /** The encoding that the file was read in, or "xlsx". */
  read_as: string;
  rows: number;
  added: number;
  changed: number;
  unchanged: number;
  errors: { line: number; column: string; value: string; sentence: string }[];
}

export interface LimitsAnswer {
  current: LimitSet | null;
  versions: { id: string; name: string; version: number; created_at: string; created_by: string | null; is_current: boolean }[];
}
export type { Basis, Limit, LimitSet, Specification };
