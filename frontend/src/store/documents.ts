/** The deliveries on this phone. A change and its place in the outbox are one transaction. */
import { putDocumentEntry, type OutboxStore } from "./outbox";
import type { Addendum, Inspection, Refusal, Seal, Signature } from "./document";
import type { Conflict, Noticed, OutboxEntry, StoredDelivery, WalkNotes } from "./schema";
import { STRICT, database } from "./upgrades";

const now = () => new Date().toISOString();

export const EMPTY_NOTES: WalkNotes = {
  out_at: null,
  skipped: [],
  receiver_signature: null,
  driver_signature: null,
  put_away: null,
  last_step: null,
};

function newDelivery(body: Inspection): StoredDelivery {
  return {
    id: body.id,
    body,
    change: 0,
    revision: null,
    state: "draft",
    conflict: null,
    replace: false,
    notes: { ...EMPTY_NOTES },
    seal: null,
    difference: null,
    advisories: null,
    put_away: null,
    put_away_seal: null,
    created_at: now(),
    updated_at: now(),
  };
}

/** Thrown when a change comes after signing: the record can only be added to. */
export class SignedAlready extends Error {
  override name = "SignedAlready";
}

/**
 * Keep the document as it now stands and note that the server has to hear of it.
 *
 * Resolves when both are on the disk. A signed delivery is refused (SignedAlready).
 */
export async function saveDocument(body: Inspection, notes: WalkNotes): Promise<StoredDelivery> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const store = tx.objectStore("deliveries");
  const before = (await store.get(body.id)) ?? newDelivery(body);
  if (before.state !== "draft") {
    tx.abort();
    await tx.done.catch(() => undefined);
    throw new SignedAlready(body.id);
  }
  const after = { ...before, body, notes, change: before.change + 1, updated_at: now() };
  await store.put(after);
  await putDocumentEntry(tx.objectStore("outbox") as OutboxStore, after);
  await tx.done;
  return after;
}

/** Keep what the walk remembers beside the record; the server need not hear of it. */
export async function saveNotes(id: string, notes: WalkNotes): Promise<void> {
  await changeDelivery(id, (delivery) => ({ ...delivery, notes }));
}

/** Read, change and write one delivery in one strict transaction; nothing when it is unknown. */
export async function changeDelivery(id: string, change: (delivery: StoredDelivery) => StoredDelivery): Promise<StoredDelivery | null> {
  const tx = (await database()).transaction("deliveries", "readwrite", STRICT);
  const before = await tx.store.get(id);
  const after = before ? change(before) : null;
  if (after) await tx.store.put(after);
  await tx.done;
  return after;
}

export async function deliveryById(id: string): Promise<StoredDelivery | null> {
  return (await (await database()).get("deliveries", id)) ?? null;
}

export async function allDeliveries(): Promise<StoredDelivery[]> {
  const all = await (await database()).getAll("deliveries");
  return all.sort((a, b) => (a.created_at < b.created_at ? 1 : -1));
}

/** A draft may go only while it is empty and the server has never heard of it. */
export function isDiscardable({ body, state, revision }: StoredDelivery): boolean {
  const { air, load, seal_number, note } = body.vehicle;
  const typed = [body.docket_number, seal_number, note, body.notes, ...body.lines.map(({ lot }) => lot)];
  return (
    state === "draft" &&
    revision === null &&
    body.photos.length === 0 &&
    air === null &&
    load === null &&
    typed.every((text) => text === "") &&
    (body.order_id !== null || (body.supplier_id === "" && body.lines.length === 0)) &&
    body.lines.every((line) => line.cartons.length === 0 && line.cartons_counted === null)
  );
}

/** Discard an empty, unsent draft. Answers whether it was one; anything else stays. */
export async function discardDraft(id: string): Promise<boolean> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const delivery = await tx.objectStore("deliveries").get(id);
  const goes = delivery !== undefined && isDiscardable(delivery);
  if (goes) {
    await tx.objectStore("deliveries").delete(id);
    await tx.objectStore("outbox").delete(`document:${id}`);
  }
  await tx.done;
  return goes;
}

/** The document is closed on the phone and its signature waits for the server's seal. */
export async function closeForSigning(
  id: string,
  signatures: { receiver: Signature; driver: Signature | Refusal },
  idempotencyKey: string,
): Promise<StoredDelivery> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const before = await tx.objectStore("deliveries").get(id);
  if (!before || before.state !== "draft") {
    tx.abort();
    await tx.done.catch(() => undefined);
    throw new SignedAlready(id);
  }
  const body = { ...before.body, signatures };
  const after: StoredDelivery = { ...before, body, state: "signing", change: before.change + 1, updated_at: now() };
  await tx.objectStore("deliveries").put(after);
  const outbox = tx.objectStore("outbox") as OutboxStore;
  await putDocumentEntry(outbox, after);
  await outbox.put(await signatureEntry(outbox, after, idempotencyKey));
  await tx.done;
  return after;
}

async function signatureEntry(outbox: OutboxStore, delivery: StoredDelivery, key: string): Promise<OutboxEntry> {
  return {
    id: `signature:${delivery.id}`,
    order: await nextOrder(outbox),
    kind: "signature",
    delivery_id: delivery.id,
    created_at: now(),
    change: delivery.change,
    body: delivery.body,
    idempotency_key: key,
    attempts: 0,
    next_try_at: 0,
    problem: null,
  };
}

async function nextOrder(outbox: OutboxStore): Promise<number> {
  const last = await outbox.index("by_order").openCursor(null, "prev");
  return (last?.value.order ?? 0) + 1;
}

/** The server would not sign: open the draft again, with both signatures taken off. */
export async function reopenDraft(id: string): Promise<void> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const before = await tx.objectStore("deliveries").get(id);
  if (before?.state === "signing") {
    const notes = { ...before.notes, receiver_signature: null, driver_signature: null };
    const body = { ...before.body, signatures: null };
    const after: StoredDelivery = { ...before, body, notes, state: "draft", change: before.change + 1 };
    await tx.objectStore("deliveries").put(after);
    await tx.objectStore("outbox").delete(`signature:${id}`);
    await putDocumentEntry(tx.objectStore("outbox") as OutboxStore, after);
  }
  await tx.done;
}

/** Keep an addition to a signed delivery together with its place in the outbox. */
export async function keepAddendum(addendum: Addendum): Promise<void> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const before = await tx.objectStore("deliveries").get(addendum.delivery_id);
  if (before && addendum.kind === "put_away") {
    await tx.objectStore("deliveries").put({ ...before, put_away: addendum, updated_at: now() });
  }
  const outbox = tx.objectStore("outbox") as OutboxStore;
  await outbox.put({
    id: `addendum:${addendum.id}`,
    order: await nextOrder(outbox),
    kind: "addendum",
    delivery_id: addendum.delivery_id,
    created_at: now(),
    change: 0,
    body: addendum,
    idempotency_key: addendum.id,
    attempts: 0,
    next_try_at: 0,
    problem: null,
  });
  await tx.done;
}

/** Note why the server would not take this version; the entry stays in the outbox, on hold. */
export async function noteConflict(id: string, conflict: Conflict): Promise<void> {
  await changeDelivery(id, (delivery) => ({ ...delivery, conflict }));
}

/**
 * Put the server's version in place of this phone's, and keep this phone's beside it.
 *
 * The own version stays on the phone as "set aside" under a new id, so nothing is lost.
 */
export async function continueWithOther(id: string, other: { body: Inspection; revision: number }, asideId: string): Promise<void> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const mine = await tx.objectStore("deliveries").get(id);
  if (mine) {
    await tx.objectStore("deliveries").put({ ...mine, id: asideId, state: "set_aside", conflict: null });
    await tx.objectStore("deliveries").delete(id);
    await tx.objectStore("outbox").delete(`document:${id}`);
    await movePhotoEntries(tx.objectStore("outbox") as OutboxStore, id, other.body.id);
  }
  await tx.objectStore("deliveries").put({ ...newDelivery(other.body), revision: other.revision });
  await tx.done;
}

async function movePhotoEntries(outbox: OutboxStore, from: string, to: string): Promise<void> {
  for (const entry of await outbox.index("by_delivery").getAll(from)) {
    if (entry.kind === "photo") await outbox.put({ ...entry, delivery_id: to });
  }
}

/** Take over a delivery that another phone began, at the revision that the server holds. */
export async function takeOver(body: Inspection, revision: number): Promise<void> {
  const tx = (await database()).transaction("deliveries", "readwrite", STRICT);
  if (!(await tx.store.get(body.id))) await tx.store.put({ ...newDelivery(body), revision });
  await tx.done;
}

/** Put this phone's version on top of the other's, or send it as a record of its own. */
export async function keepMine(
  id: string,
  as: { id: string; revision: number | null; replace: boolean; separate_from: string | null },
): Promise<void> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const mine = await tx.objectStore("deliveries").get(id);
  if (mine) {
    const body = { ...mine.body, id: as.id, separate_from: as.separate_from };
    const after: StoredDelivery = {
      ...mine,
      id: as.id,
      body,
      revision: as.revision,
      replace: as.replace,
      conflict: null,
      change: mine.change + 1,
      updated_at: now(),
    };
    const outbox = tx.objectStore("outbox") as OutboxStore;
    if (as.id !== id) {
      await tx.objectStore("deliveries").delete(id);
      await outbox.delete(`document:${id}`);
      await movePhotoEntries(outbox, id, as.id);
    }
    await outbox.delete(`signature:${id}`);
    await tx.objectStore("deliveries").put(reopened(after));
    await putDocumentEntry(outbox, reopened(after));
  }
  await tx.done;
}

/** A conflict found after signing opens the draft: what was signed must be what is sealed. */
function reopened(delivery: StoredDelivery): StoredDelivery {
  if (delivery.state !== "signing") return delivery;
  const notes = { ...delivery.notes, receiver_signature: null, driver_signature: null };
  return { ...delivery, state: "draft", body: { ...delivery.body, signatures: null }, notes };
}

/** The server's seal has come: the delivery is closed for good and its entries may go. */
export async function noteSeal(id: string, seal: Seal, difference: unknown[] | null, noticed: Noticed[] = []): Promise<void> {
  const tx = (await database()).transaction(["deliveries", "outbox"], "readwrite", STRICT);
  const before = await tx.objectStore("deliveries").get(id);
  if (before) await tx.objectStore("deliveries").put({ ...before, seal, difference, noticed, state: "sealed", conflict: null });
  await tx.objectStore("outbox").delete(`signature:${id}`);
  await tx.objectStore("outbox").delete(`document:${id}`);
  await tx.done;
}
