/** What the phone keeps, as a type: stores, keys, values, indexes. Nothing else opens the database. */
import type { DBSchema } from "idb";
import type { Addendum, Inspection, ProbeMethod, Reading, Refusal, Seal, Signature } from "./document";
import type { IceCheck } from "./ice_checks";

export const DATABASE_NAME = "underlid";

/** A sentence kept with what could not be sent, so that it can be shown where the person looks. */
export interface Problem {
  code: string;
  sentence: string;
  facts: Record<string, unknown>;
  at: string;
}

/** Why the server would not take this phone's version, with the other version when it sent one. */
export interface Conflict {
  kind: "other_revision" | "docket_open_elsewhere" | "already_signed";
  other_id: string;
  other_revision: number | null;
  other: Inspection | null;
  facts: Record<string, unknown>;
  at: string;
}

/** What the walk must remember of a delivery that is no part of the record itself. */
export interface WalkNotes {
  /** When the cartons left the vehicle; the clock of CV-12-69 runs from here. */
  out_at: string | null;
  /** Steps left without an answer on purpose: the record says "not checked". */
  skipped: string[];
  /** Signatures given one after the other; they enter the document together at signing. */
  receiver_signature: Signature | null;
  driver_signature: Signature | Refusal | null;
  put_away: PutAwayDraft | null;
  /** Method of a probing procedure that was gone through, by the key of its temperature question. */
  probed?: Record<string, ProbeMethod>;
  last_step: string | null;
}
export interface PutAwayDraft {
  freezer_id: string;
  position: string;
  liner_closed: boolean | null;
  freezer_air: Reading | null;
}

export type DeliveryState = "draft" | "signing" | "sealed" | "set_aside";

/** Moments that cannot be, or another name: kept on the record with its seal. */
export interface Noticed {
  code: string;
  text: string;
}
export interface StoredDelivery {
  id: string;
  body: Inspection;
  /** Counts every change made on this phone; the sender compares it before it crosses one off. */
  change: number;
  /** The server's revision this phone builds on; null = the server has none yet. */
  revision: number | null;
  state: DeliveryState;
  conflict: Conflict | null;
  /** Put own version on top of the other's, as the receiver chose. */
  replace: boolean;
  notes: WalkNotes;
  seal: Seal | null;
  difference: unknown[] | null;
  /** What the server noticed at signing; absent in deliveries that an earlier app closed. */
  noticed?: Noticed[];
  advisories: Record<string, unknown> | null;
  put_away_seal: Seal | null;
  put_away: Addendum | null;
  created_at: string;
  updated_at: string;
}

export interface StoredPhoto {
  sha256: string;
  /** Bytes as taken, never re-encoded. An ArrayBuffer: blobs in IndexedDB get lost on some phones. */
  bytes: ArrayBuffer;
  type: string;
  delivery_ids: string[];
  kept_at: string;
  /** The server has said that it holds this hash for good. */
  received_at: string | null;
}

export type OutboxKind = "document" | "photo" | "signature" | "addendum" | "check";
export interface OutboxEntry {
  /** `document:<id>`, `photo:<sha256>`, `signature:<id>`, `addendum:<id>`, `check:<id>`. */
  id: string;
  order: number;
  kind: OutboxKind;
  /** What goes in order: a delivery; of a check `thermometer:<id>`, for it belongs to no delivery. */
  delivery_id: string;
  created_at: string;
  /** The document's change counter at writing; only a document entry uses it. */
  change: number;
  body: Inspection | Addendum | IceCheck | null;
  idempotency_key: string;
  attempts: number;
  next_try_at: number;
  problem: Problem | null;
}

export interface Kept {
  key: string;
  value: unknown;
}

export interface UnderlidSchema extends DBSchema {
  deliveries: { key: string; value: StoredDelivery; indexes: { by_state: string } };
  photos: { key: string; value: StoredPhoto };
  outbox: { key: string; value: OutboxEntry; indexes: { by_order: number; by_delivery: string } };
  /** Single values: who is signed in, the reference data, this device's id. */
  kept: { key: string; value: Kept };
}
