/** What the server's answers mean to the receiver: a choice between versions, or a problem in a sentence. */
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
  return problem(
    "PHOTO-GONE",
    "A photo of this delivery is no longer on this phone. All other entries are kept. Take the photo again, or tell your manager.",
  );
}

export function unexpected(error: unknown): Problem {
  if (error instanceof NotOurs) {
    return problem(
      "NO-RECEIPT",
      "Something answered in place of the server, perhaps the sign-in page of this network. Everything is kept on this phone. Check the network.",
    );
  }
  return problem("NOT-SENT", "This could not be sent just now. It is kept on this phone and will be sent again by itself.");
}
