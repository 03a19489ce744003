/** What the server tells of claims. Amounts come as words too, rounded and with their currency: nothing is reckoned here. */
import type { Named } from "../../trade/types";

export interface Amount {
  value: string;
  words: string;
}
export type ClaimState = "drafted" | "sent" | "contested" | "offered" | "agreed" | "settled" | "withdrawn";
export type ClaimKind = "send" | "agree" | "contest" | "ask" | "offer" | "accept" | "note" | "credit" | "withdraw";

export interface ClaimRow {
  id: string;
  number: string;
  state: ClaimState;
  state_words: string;
  site: Named;
  supplier: Named;
  delivery_id: string;
  docket_number: string;
  line: number;
  line_id: string;
  product: string;
  age_days: number;
  currency: string;
  amount: Amount | null;
  claimed: Amount | null;
  offered: Amount | null;
  agreed: Amount | null;
  credited: Amount | null;
  credit_note: string;
  deadline: { at: string; what: string; left: string; words: string; is_over: boolean } | null;
}
export interface ClaimList {
  rows: ClaimRow[];
  count: number;
  sends_mail: boolean;
}

export interface ClaimItem {
  ground: string;
  name: string;
  inputs: string[];
  figures: Record<string, string>;
  amount: string | null;
  amount_words: string;
  computed: string | null;
  sum: string;
  reason: string;
}
export interface Ground {
  name: string;
  inputs: { name: string; words: string }[];
}
export interface ClaimFile {
  name: string;
  sha256: string;
  bytes: number;
  kind: "photo" | "logger";
  summary?: string;
  drawings?: string;
}
export interface ClaimEntry {
  id: string;
  number: number;
  kind: ClaimKind;
  side: "kitchen" | "supplier";
  what: string;
  when: string;
  by: string;
  text: string;
  amount_words: string;
  credit_note?: string;
  points: { item: number; name: string; text: string }[];
  files: ClaimFile[];
  seal: { number: number; sha256: string };
}
export interface ClaimDetail extends ClaimRow {
  found: { text: string; severity: string; limit: string; whose: string }[];
  items: ClaimItem[];
  thread: ClaimEntry[];
  notice: { until: string; basis: string; left: string };
  answer_hours: number;
  created_by: string;
  offered_by: string;
  may: ClaimKind[];
  contact: string;
  mails: { id: string; kind: string; to: string; state: string; words: string; sentence: string; at: string }[];
  grounds: Record<string, Ground>;
}
export interface ClaimFigures {
  supplier: Named;
  currency: string;
  claims: number;
  open: number;
  settled: number;
  claimed: string;
  agreed: string;
  credited: string;
  agreed_share: number | null;
  days: number | null;
}
export interface ClaimTerms {
  supplier: Named;
  is_kept: boolean;
  currency: string;
  notice_hours: number;
  answer_hours: number;
}
