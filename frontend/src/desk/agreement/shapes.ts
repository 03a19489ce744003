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

export interface Look {
  version: string;
  from: "documented" | "group" | "site";
  site_photos: number;
  group_photos: number;
  drift: number;
  is_too_far: boolean;
  lab: [number, number, number];
  own_dark_share: number;
}
export interface LookRow {
  species_code: string;
  species: string;
  presentation: string;
  state: string;
  documented: { lab: [number, number, number]; own_dark_share: number; version: string };
  group: Look;
  sites: ({ id: string; name: string } & Look)[];
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
  looks: { most_drift: number; rows: LookRow[] };
}
