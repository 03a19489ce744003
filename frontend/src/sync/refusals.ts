/** What the server's answers mean to the receiver: a choice between versions, or a problem in a sentence. */
import { t } from "../messages";
import type { Inspection } from "../store/document";
import type { Conflict, Problem } from "../store/schema";
import type { Refused } from "./wire";

/** Which choice a refusal puts to the receiver; null for one that is none. */
export function conflictKind(error: Refused): Conflict["kind"] | null {
  if (error.status === 412) return "other_revision";
  if (error.status !== 409) return null;
  if (error.code === "DOCKET-OPEN-ELSEWHERE") return "docket_open_elsewhere";
  return error.code === "DOC-SIGNED" ? "already_signed" : null;
}

export function conflictFrom(kind: Conflict["kind"], id: string, error: Refused, now: number): Conflict {
  const current = (error.body.current as Inspection | undefined) ?? null;
  const revision = error.facts.revision ?? error.facts.current_revision ?? error.facts.current;
  return {
    kind,
    other_id: String(error.facts.other_id ?? id),
    other_revision: typeof revision === "number" ? revision : null,
    other: current,
    facts: error.facts,
    at: new Date(now).toISOString(),
  };
}

function problem(code: string, sentence: string): Problem {
  return { code, sentence, facts: {}, at: new Date().toISOString() };
}

export function notTheServer(): NotOurs {
  return new NotOurs();
}
/** A 2xx without the receipt: some other machine answered in the server's place. */
class NotOurs extends Error {}

export function photoGone(): Problem {
  return problem("PHOTO-GONE", t("dock-refusals-photo-delivery-no"));
}

export function unexpected(error: unknown): Problem {
  if (error instanceof NotOurs) {
    return problem("NO-RECEIPT", t("dock-refusals-something-answered-in"));
  }
  return problem("NOT-SENT", t("dock-refusals-could-not-be"));
}
