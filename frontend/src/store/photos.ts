/** Photo bytes as taken, under their SHA-256, and beside them a thumbnail of each. */
import { putPhotoEntry, type OutboxStore } from "./outbox";
import type { StoredPhoto, StoredThumb } from "./schema";
import { STRICT, database } from "./upgrades";

/** Keep a photo and queue it for the server in one transaction; the same bytes are kept once. */
export async function keepPhoto(
  photo: { sha256: string; bytes: ArrayBuffer; type: string },
  deliveryId: string,
  thumb: ArrayBuffer | null = null,
): Promise<void> {
  const tx = (await database()).transaction(["photos", "thumbs", "outbox"], "readwrite", STRICT);
  const before = await tx.objectStore("photos").get(photo.sha256);
  const delivery_ids = [...new Set([...(before?.delivery_ids ?? []), deliveryId])];
  const kept_at = before?.kept_at ?? new Date().toISOString();
  await tx.objectStore("photos").put({ ...photo, delivery_ids, kept_at, received_at: before?.received_at ?? null });
  await tx.objectStore("thumbs").put({ sha256: photo.sha256, bytes: thumb });
  if (!before?.received_at) await putPhotoEntry(tx.objectStore("outbox") as OutboxStore, photo.sha256, deliveryId);
  await tx.done;
}

export async function photoBySha(sha256: string): Promise<StoredPhoto | null> {
  return (await (await database()).get("photos", sha256)) ?? null;
}

/** Undefined: this photo was kept by an app that made none. */
export async function thumbBySha(sha256: string): Promise<StoredThumb | undefined> {
  return (await database()).get("thumbs", sha256);
}

export async function keepThumb(sha256: string, bytes: ArrayBuffer | null): Promise<void> {
  await (await database()).put("thumbs", { sha256, bytes });
}

/** The server misses these after all: queue again those that this phone still has; answers the rest. */
export async function queuePhotosAgain(shas: string[], deliveryId: string): Promise<string[]> {
  const tx = (await database()).transaction(["photos", "outbox"], "readwrite", STRICT);
  const outbox = tx.objectStore("outbox") as OutboxStore;
  // ahead of the delivery's own entries: its signature is what waits for them
  const order = Math.min(...(await outbox.index("by_delivery").getAll(deliveryId)).map((entry) => entry.order), Infinity) - 0.5;
  const gone: string[] = [];
  for (const sha of shas) {
    const photo = await tx.objectStore("photos").get(sha);
    if (!photo) {
      gone.push(sha);
      continue;
    }
    await tx.objectStore("photos").put({ ...photo, received_at: null });
    await putPhotoEntry(outbox, sha, deliveryId, Number.isFinite(order) ? order : undefined);
  }
  await tx.done;
  return gone;
}
