/**
 * Frees photo bytes long after the server has said, by the seal, that it holds them for good.
 *
 * Only bytes go, and only when every delivery that names them is sealed, put away and sealed, and
 * has nothing in the outbox. The records themselves stay.
 */
import type { StoredDelivery } from "./schema";
import { STRICT, database } from "./upgrades";

export const KEEP_DAYS = 14;

/** Free what may go; answers how many photos went. */
export async function prune(now: number): Promise<number> {
  const tx = (await database()).transaction(["deliveries", "photos", "thumbs", "outbox"], "readwrite", STRICT);
  const waiting = new Set((await tx.objectStore("outbox").getAll()).map((entry) => entry.delivery_id));
  const kept = new Set<string>();
  for (const delivery of await tx.objectStore("deliveries").getAll()) {
    if (!waiting.has(delivery.id) && isLongSealed(delivery, now)) continue;
    for (const photo of delivery.body.photos) kept.add(photo.sha256);
  }
  let freed = 0;
  // hashes first, then one photo at a time: all of them at once would not fit a phone
  for (const sha256 of await tx.objectStore("photos").getAllKeys()) {
    if (kept.has(sha256)) continue;
    const received = (await tx.objectStore("photos").get(sha256))?.received_at ?? null;
    if (received === null || !isOld(received, now)) continue;
    await tx.objectStore("photos").delete(sha256);
    await tx.objectStore("thumbs").delete(sha256);
    freed++;
  }
  await tx.done;
  return freed;
}

function isLongSealed({ state, seal, put_away_seal }: StoredDelivery, now: number): boolean {
  return state === "sealed" && seal !== null && put_away_seal !== null && isOld(seal.sealed_at, now);
}

function isOld(iso: string, now: number): boolean {
  return now - Date.parse(iso) > KEEP_DAYS * 86_400_000;
}
