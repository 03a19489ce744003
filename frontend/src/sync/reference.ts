/** What the phone fetches: who is signed in, the reference data, other phones' documents, advice. */
import type { Inspection } from "../store/document";
import { keep, kept } from "../store/key_value";
import type { Advice, Advisories, Me, Reference, SessionAnswer, SharedDevice, StoredDocument } from "../trade/types";
import { kindOfDevice, request, type Answer } from "./wire";

/** Who the server takes this browser for, and why it takes nothing from it, if so; sets the CSRF cookie too. */
export async function currentSession(): Promise<{ me: Me | null; revoked: string | null }> {
  const { body } = await request<SessionAnswer>("/api/session");
  return { me: body.person, revoked: body.revoked ?? null };
}

export async function signIn(username: string, password: string, device_id: string): Promise<Me> {
  await request("/api/session");
  const body = { username, password, device_id, device_label: kindOfDevice(navigator.userAgent) };
  return (await request<Me>("/api/session", { method: "POST", body })).body;
}

export async function sharedDevice(): Promise<SharedDevice> {
  return (await request<SharedDevice>("/api/device")).body;
}
/** Make this device a shared one, by the code that a manager was given. */
export async function shareDevice(code: string, device_id: string): Promise<SharedDevice> {
  return (await request<SharedDevice>("/api/device", { method: "POST", body: { code, device_id } })).body;
}
export async function signInByPin(person_id: number, pin: string): Promise<Me> {
  return (await request<Me>("/api/device/session", { method: "POST", body: { person_id, pin } })).body;
}

export async function signOut(): Promise<void> {
  await request("/api/session", { method: "DELETE" });
}

interface KeptReference {
  etag: string | null;
  reference: Reference;
  /** Server's clock minus this phone's, ms, at the moment of the answer. */
  clock_offset_ms: number;
  fetched_at: string;
}

/** Fetch the reference data when it has changed, and keep it for a start without a signal. */
export async function refreshReference(): Promise<KeptReference> {
  const before = await keptReference();
  const headers: Record<string, string> = before?.etag ? { "If-None-Match": before.etag } : {};
  const answer: Answer<Reference> = await request<Reference>("/sync/reference", { headers });
  const fetched_at = new Date().toISOString();
  if (answer.status === 304 && before) {
    // the clock may have been set since the data were fetched
    const told = Date.parse(answer.date ?? "");
    const clock_offset_ms = Number.isNaN(told) ? before.clock_offset_ms : told - Date.now();
    const again = { ...before, clock_offset_ms, fetched_at };
    await keep("reference", again);
    return again;
  }
  const clock_offset_ms = Date.parse(answer.body.server_time) - Date.now();
  const now: KeptReference = { etag: answer.etag, reference: answer.body, clock_offset_ms, fetched_at };
  await keep("reference", now);
  return now;
}

export function keptReference(): Promise<KeptReference | null> {
  return kept<KeptReference>("reference");
}

/** The document as the server holds it, with its revision. */
export async function fetchDocument(id: string): Promise<{ body: Inspection; revision: number }> {
  const { body } = await request<StoredDocument>(`/sync/documents/${id}`);
  // what another phone wrote, every key of it, as this one does
  return { body: body.document as Inspection, revision: body.revision };
}

/** The advisory's answers for the photos of a delivery; null while one is still being worked on. */
export async function fetchAdvice(deliveryId: string): Promise<Record<string, Advice | null>> {
  const { body } = await request<Advisories>(`/sync/advisories?delivery=${encodeURIComponent(deliveryId)}`);
  return body.photos ?? {};
}
