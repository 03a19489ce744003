/**
 * Everything that waits on this phone as one file, for a manager to bring in at the desk: the last resort of a phone that
 * cannot send any more. A first line names the version and the length of the JSON behind it; the photos' bytes follow.
 */
import type { StoredDelivery } from "./schema";
import { deviceId } from "./key_value";
import { oldestFirst } from "./outbox";
import { photoBySha } from "./photos";
import { database } from "./upgrades";

export interface FileEntry {
  kind: "document" | "signature" | "addendum" | "check";
  body: object;
  /** Of a document: the server's revision it builds on, 0 for none. */
  base?: number;
  is_replacement?: boolean;
  /** Of a signature: the phone sends it under the same one, should it ever. */
  key?: string;
}
export interface FilePhoto {
  sha256: string;
  type: string;
  size: number;
}
interface Contents {
  saved_at: string;
  device_id: string;
  entries: FileEntry[];
  photos: FilePhoto[];
}

const OPENING = /^Underlid outbox 1 ([0-9]{1,10})\n/;
const MOST_OPENING = 40;

/** The file; what waits goes on waiting. */
export async function outboxFile(): Promise<Blob> {
  const waiting = await oldestFirst();
  const deliveries = await (await database()).getAll("deliveries");
  const photos: FilePhoto[] = [];
  const bytes: Blob[] = [];
  for (const { id } of waiting.filter(({ kind }) => kind === "photo")) {
    const photo = await photoBySha(id.slice("photo:".length));
    if (!photo) continue;
    photos.push({ sha256: photo.sha256, type: photo.type, size: photo.bytes.byteLength });
    bytes.push(new Blob([photo.bytes]));
  }
  const entries = waiting.flatMap((entry): FileEntry[] => {
    if (entry.kind === "photo") return [];
    if (entry.kind === "document") return documentEntry(deliveries.find(({ id }) => id === entry.delivery_id));
    return [{ kind: entry.kind, body: entry.body!, ...(entry.kind === "signature" ? { key: entry.idempotency_key } : {}) }];
  });
  const contents: Contents = { saved_at: new Date().toISOString(), device_id: await deviceId(), entries, photos };
  const json = new Blob([JSON.stringify(contents)]);
  return new Blob([`Underlid outbox 1 ${json.size}\n`, json, ...bytes], { type: "application/octet-stream" });
}

function documentEntry(delivery: StoredDelivery | undefined): FileEntry[] {
  if (!delivery || delivery.state === "sealed") return [];
  return [{ kind: "document", body: delivery.body, base: delivery.revision ?? 0, is_replacement: delivery.replace }];
}

/** What stands in such a file; null when it is none, or is cut off. */
export async function readOutboxFile(file: Blob): Promise<{ entries: FileEntry[]; photos: (FilePhoto & { bytes: Blob })[] } | null> {
  const opening = OPENING.exec(await file.slice(0, MOST_OPENING).text());
  if (!opening) return null;
  let at = opening[0].length + Number(opening[1]);
  const contents = parsed(await file.slice(opening[0].length, at).text());
  if (!contents) return null;
  const photos = contents.photos.map((photo) => ({ ...photo, bytes: file.slice(at, (at += photo.size), photo.type) }));
  return at === file.size ? { entries: contents.entries, photos } : null;
}

function parsed(text: string): Contents | null {
  try {
    const contents = JSON.parse(text) as Contents;
    return Array.isArray(contents.entries) && Array.isArray(contents.photos) ? contents : null;
  } catch {
    return null;
  }
}
