/** What the server tells of the photo advice. Shares are 0 to 1; null means "cannot be said", never zero. */
import type { Site } from "../shapes";

export interface Share {
  count: number;
  of: number;
  share: number | null;
  low: number | null;
  high: number | null;
  too_few: boolean;
}
export type Said = "darkening_seen" | "none_seen" | "cannot_tell";
export type Found = "beyond" | "within" | "none";

export interface Counts {
  cartons: number;
  deliveries: number;
  table: Record<Said, Record<Found, number>>;
  agreeing: Share;
  right_flags: Share;
  flagged: Share;
  flagged_beyond: Share;
  wrong_flags: Share;
  untold: Share;
}
export interface Group extends Counts {
  nothing_to_compare: number;
}
export interface AdviceSwitch {
  specification_id: string;
  code: string;
  name: string;
  version: number;
  is_on: boolean;
  /** The version that set it so, who wrote that and when. */
  since_version: number;
  by: string | null;
  at: string;
}
export type SpecificationRow = AdviceSwitch & Group;

/** Where darkening begins at some goods; what stands after `cut_off` is there once there are enough findings. */
export interface CutOff {
  species_code: string;
  species: string;
  presentation: string;
  state: string;
  sound: number;
  spotted: number;
  shipped: number;
  from: "shipped" | "findings";
  cut_off: number;
  is_quiet?: boolean;
  refitted?: number;
  low?: number;
  high?: number;
  drift?: number;
  auc?: number;
  auc_low?: number;
  auc_high?: number;
}
export interface LearntAnswer {
  least: number;
  floor: number;
  most_moved: number;
  /** By state: what photographs kept aside showed; empty until they are known. */
  kept_aside: Record<string, { auc: number; auc_low: number; auc_high: number; marked: number; none: number }>;
  rows: CutOff[];
}
export interface AgreementAnswer {
  period: { from: string; to: string };
  threshold: { cartons: number; deliveries: number };
  all: Group;
  blind: Counts;
  maybe_read: Counts;
  unanswered: number;
  methods: { version: string; photos: number }[];
  sites: (Site & Group & { unanswered: number })[];
  specifications: SpecificationRow[];
  species: (Counts & { code: string; name: string })[];
  learnt: LearntAnswer;
}
