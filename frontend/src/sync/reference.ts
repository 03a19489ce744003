/** What the phone fetches: who is signed in, the reference data, other phones' documents, advice. */
import type { Inspection, LimitSet, Specification } from "../store/document";
import { keep, kept } from "../store/kept";
import { kindOfDevice, request, type Answer } from "./wire";

export interface SiteRow {
  id: string;
  name: string;
  code: string;
  timezone: string;
  currency: string;
  market: string;
}
export interface Me {
  id: number;
  name: string;
  role: "receiver" | "site_manager" | "group_operations" | "administrator";
  sites: SiteRow[];
}
export interface ExpectedOrder {
  id: string;
  number: string;
  site_id: string;
  supplier_id: string;
  expected_on: string;
  lines: { id: string; specification_id: string; cartons: number; price_per_kg: number | string | null }[];
}
export interface OpenDocument {
  id: string;
  site_id: string;
  supplier_id: string;
  docket_number: string;
  person_name: string;
  device_id: string;
  device_label: string;
  revision: number;
  updated_at: string;
}
/** A site's thermometer with its last check in crushed ice; dates are YYYY-MM-DD. */
export interface ThermometerRow {
  id: string;
  site_id: string;
  name: string;
  accuracy_c?: number;
  last_checked_on?: string | null;
  last_check_c?: number | null;
  check_due_on?: string | null;
  /** When the last check was filed; null for one that was only noted, which names a day. */
  last_checked_at?: string | null;
  in_use?: boolean;
}
/** A lot of a line that was kept, as docket or labels name it; "" where neither does. */
export interface LotRow {
  delivery_id: string;
  line_id: string;
  site_id: string;
  supplier_id: string;
  docket_number: string;
  name: string;
  lot: string;
  arrived_at: string;
}
export interface Reference {
  revision: string | number;
  server_time: string;
  installation: { name: string; public_key: string };
  me: Me;
  suppliers: { id: string; name: string; code: string }[];
  specifications: Specification[];
  limit_sets: LimitSet[];
  current_limits_id: string;
  expected: ExpectedOrder[];
  thermometers: ThermometerRow[];
  freezers: { id: string; site_id: string; name: string }[];
  open_documents: OpenDocument[];
  /** Absent in what a phone kept of an earlier server. */
  lots?: LotRow[];
}

/** Who the server takes this browser for, and why it takes nothing from it, if so; sets the CSRF cookie too. */
export async function currentSession(): Promise<{ me: Me | null; revoked: string | null }> {
  const { body } = await request<{ person: Me | null; revoked?: string }>("/api/session");
  return { me: body.person, revoked: body.revoked ?? null };
}

export async function signIn(username: string, password: string, device_id: string): Promise<Me> {
  await request("/api/session");
  const body = { username, password, device_id, device_label: kindOfDevice(navigator.userAgent) };
  return (await request<Me>("/api/session", { method: "POST", body })).body;
}

/** A device that a site shares, and who may take it into their hands. */
export interface SharedDevice {
  device: { id: string; label: string; site: string; revoked: string | null } | null;
  people: { id: number; name: string }[];
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
  const answer = await request<Inspection | { document: Inspection; revision: number }>(`/sync/documents/${id}`);
  const body = "document" in answer.body ? answer.body.document : answer.body;
  const given = "document" in answer.body ? answer.body.revision : Number(/\d+/.exec(answer.etag ?? "")?.[0]);
  return { body, revision: given };
}

export interface Advice {
  /**
   * look_here: frames alone. finding_first: it waits for the receiver's own finding. switched_off: the specification wants
   * no advice, or wanted none when the photo's turn came; no answer will come by itself.
   */
  answer: "darkening_seen" | "none_seen" | "cannot_tell" | "look_here" | "finding_first" | "switched_off";
  pieces?: number | null;
  dark_pieces?: number | null;
  at_head?: number | null;
  /** Mean length of pieces that lie alone: a hint beside the weighed count. */
  length_mm?: { mean: number; pieces: number } | null;
  /** Of methods before pieces-1: share of the surface. */
  share?: number | null;
  reasons: { code: string; text: string }[];
  overlay: string | null;
  thumb: string;
}

/** The advisory's answers for the photos of a delivery; null while one is still being worked on. */
export async function fetchAdvice(deliveryId: string): Promise<Record<string, Advice | null>> {
  const { body } = await request<{ photos: Record<string, Advice | null> }>(`/sync/advisories?delivery=${encodeURIComponent(deliveryId)}`);
  return body.photos ?? {};
}
