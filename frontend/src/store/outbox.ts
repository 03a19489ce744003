/**
 * What waits for the server, oldest first. An entry leaves only on the server's receipt for it:
 * it is sent, answered, and then crossed off, never the other way round.
 */
import type { IDBPObjectStore } from "idb";
import type { OutboxEntry, Problem, StoredDelivery, UnderlidSchema } from "./schema";
import { STRICT, database } from "./upgrades";

export type OutboxStore = IDBPObjectStore<UnderlidSchema, ("deliveries" | "outbox" | "photos" | "thumbs")[], "outbox", "readwrite">;

const now = () => new Date().toISOString();

async function nextOrder(store: OutboxStore): Promise<number> {
  const last = await store.index("by_order").openCursor(null, "prev");
  return (last?.value.order ?? 0) + 1;
}

/** One entry a document: a later change refreshes it, its age stays that of the oldest change. */
export async function putDocumentEntry(store: OutboxStore, delivery: StoredDelivery): Promise<void> {
  const id = `document:${delivery.id}`;
  const before = await store.get(id);
  await store.put({
    id,
    order: before?.order ?? (await nextOrder(store)),
    kind: "document",
    delivery_id: delivery.id,
    created_at: before?.created_at ?? now(),
    change: delivery.change,
    body: null,
    idempotency_key: "",
    attempts: before?.attempts ?? 0,
    next_try_at: 0,
    problem: null,
  });
}

/** A photo waits under its hash; the same bytes taken twice wait once. */
export async function putPhotoEntry(store: OutboxStore, sha256: string, deliveryId: string, order?: number): Promise<void> {
  const id = `photo:${sha256}`;
  if (await store.get(id)) return;
  await store.put({
    id,
    order: order ?? (await nextOrder(store)),
    kind: "photo",
    delivery_id: deliveryId,
    created_at: now(),
    change: 0,
    body: null,
    idempotency_key: "",
    attempts: 0,
    next_try_at: 0,
    problem: null,
  });
}

export async function oldestFirst(): Promise<OutboxEntry[]> {
  return (await database()).getAllFromIndex("outbox", "by_order");
}

/** Keep the entry, with why it did not go and when to try again (ms since 1970; Infinity = on hold). */
export async function keepWaiting(id: string, nextTryAt: number, problem: Problem | null): Promise<void> {
  const tx = (await database()).transaction("outbox", "readwrite", STRICT);
  const entry = await tx.store.get(id);
  if (entry) await tx.store.put({ ...entry, attempts: entry.attempts + 1, next_try_at: nextTryAt, problem });
  await tx.done;
}

/** Let everything try again now: after signing in, or when a person asks. */
export async function tryAllNow(): Promise<void> {
  const tx = (await database()).transaction("outbox", "readwrite", STRICT);
  for (const entry of await tx.store.getAll()) {
    if (entry.next_try_at > 0) await tx.store.put({ ...entry, next_try_at: 0 });
  }
  await tx.done;
}

/**
 * Cross off a document entry: the server holds this change at this revision.
 *
 * A change made while it was on its way keeps the entry, on top of the new revision.
 */
export async function crossOffDocument(deliveryId: string, change: number, revision: number): Promise<void> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const delivery = await tx.objectStore("deliveries").get(deliveryId);
  const id = `document:${deliveryId}`;
  const entry = await tx.objectStore("outbox").get(id);
  if (delivery) await tx.objectStore("deliveries").put({ ...delivery, revision, replace: false, conflict: null });
  if (entry && entry.change === change) await tx.objectStore("outbox").delete(id);
  else if (entry) await tx.objectStore("outbox").put({ ...entry, attempts: 0, problem: null });
  await tx.done;
}

/** Cross off a photo: the server has said that it holds this hash for good. */
export async function crossOffPhoto(sha256: string): Promise<void> {
  const tx = (await database()).transaction(["photos", "outbox"], "readwrite", STRICT);
  const photo = await tx.objectStore("photos").get(sha256);
  if (photo) await tx.objectStore("photos").put({ ...photo, received_at: now() });
  await tx.objectStore("outbox").delete(`photo:${sha256}`);
  await tx.done;
}

/** Cross off an addendum: its seal has come. */
export async function crossOffAddendum(id: string): Promise<void> {
  await (await database()).delete("outbox", `addendum:${id}`);
}
