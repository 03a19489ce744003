/**
 * The shapes that phone, server and judgements share. Field names are the same in JSON, Python and
 * TypeScript. An absent key or null means "not checked": never zero, never passed. What a phone sends is
 * made from the server's schema (document_types), what it is answered from the server's description of it.
 */
import type { Limit as LimitTold } from "./answer_types";
import type {
  CorrectionAddendum,
  CorrectionBody,
  Photo,
  PutAwayAddendum,
  PutAwayBody,
  SetApartAddendum,
  SetApartBody,
  ThawedAddendum,
  ThawedBody,
} from "./document_types";

export type * from "./answer_types";
export type * from "./document_types";
export type PhotoPurpose = Photo["purpose"];
export interface Limit extends LimitTold {
  /** The specification laid its own bound over the group's. */
  is_ordered?: boolean;
}
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
