/** Single values the phone needs on a cold start without a signal: identity, reference data, device. */
import { uuidv7 } from "uuidv7";
import { STRICT, database } from "./upgrades";

export async function keep(key: string, value: unknown): Promise<void> {
  const tx = (await database()).transaction("kept", "readwrite", STRICT);
  await tx.store.put({ key, value });
  await tx.done;
}

export async function kept<T>(key: string): Promise<T | null> {
  return ((await (await database()).get("kept", key))?.value as T | undefined) ?? null;
}

/** This device's own id, made on first use and kept. */
export async function deviceId(): Promise<string> {
  const before = await kept<string>("device_id");
  if (before) return before;
  const made = uuidv7();
  await keep("device_id", made);
  return made;
}

/** Whether the browser has promised not to clear what is kept; null where it cannot say. */
export async function askToPersist(storage: StorageManager | undefined = navigator.storage): Promise<boolean | null> {
  if (!storage?.persist) return null;
  return (await storage.persisted()) || (await storage.persist());
}

/** Bytes that this browser would still keep, as far as it says; null where it cannot. */
export async function roomLeft(storage: StorageManager | undefined = navigator.storage): Promise<number | null> {
  const told = await storage?.estimate?.().catch(() => null);
  return told?.quota === undefined || told.usage === undefined ? null : Math.max(0, told.quota - told.usage);
}
