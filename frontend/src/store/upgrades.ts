/**
 * Upgrades in place, one step a version. A step may add; it never drops a store and never
 * deletes an entry, because what waits in the outbox may exist nowhere else.
 */
import { openDB, type IDBPDatabase, type IDBPTransaction, type StoreNames } from "idb";
import { DATABASE_NAME, type UnderlidSchema } from "./schema";

type Upgrade = (
  db: IDBPDatabase<UnderlidSchema>,
  tx: IDBPTransaction<UnderlidSchema, StoreNames<UnderlidSchema>[], "versionchange">,
) => void;

export const UPGRADES: Upgrade[] = [
  (db) => {
    db.createObjectStore("deliveries", { keyPath: "id" }).createIndex("by_state", "state");
    db.createObjectStore("photos", { keyPath: "sha256" });
    const outbox = db.createObjectStore("outbox", { keyPath: "id" });
    outbox.createIndex("by_order", "order");
    outbox.createIndex("by_delivery", "delivery_id");
    db.createObjectStore("kept", { keyPath: "key" });
  },
  (db) => void db.createObjectStore("thumbs", { keyPath: "sha256" }),
];

let opened: Promise<IDBPDatabase<UnderlidSchema>> | null = null;

/** The one database of the phone, opened once and reopened when the browser closes it. */
export function database(): Promise<IDBPDatabase<UnderlidSchema>> {
  opened ??= open().catch((error) => {
    opened = null;
    throw error;
  });
  return opened;
}

function open(): Promise<IDBPDatabase<UnderlidSchema>> {
  return openDB<UnderlidSchema>(DATABASE_NAME, UPGRADES.length, {
    upgrade(db, from, _to, tx) {
      for (const upgrade of UPGRADES.slice(from)) upgrade(db, tx);
    },
    // A newer page in another tab must be able to upgrade: let go, and open again on next use.
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated() {
      opened = null;
    },
  });
}

/** For tests and for a restart within one page: close, so that the next use opens anew. */
export async function closeDatabase(): Promise<void> {
  if (opened) (await opened).close();
  opened = null;
}

/** Strict: the promise resolves when the bytes are on the disk, not in a buffer. */
export const STRICT = { durability: "strict" } as const;
