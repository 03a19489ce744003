import { openDB } from "idb";
import { beforeEach, expect, test } from "vitest";
import { bytesOf, delivery, emptyPhone, restart } from "../testing/cast";
import { EMPTY_NOTES, deliveryById, saveDocument } from "./documents";
import { oldestFirst } from "./outbox";
import { keepThumb, photoBySha, thumbBySha } from "./photos";
import { DATABASE_NAME } from "./schema";
import { UPGRADES } from "./upgrades";

beforeEach(emptyPhone);

test("every version upgrades in place from an empty phone and drops no store", async () => {
  for (let version = 1; version <= UPGRADES.length; version++) {
    const db = await openDB(`step-${version}`, version, {
      upgrade: (opened, from, _to, tx) => UPGRADES.slice(from, version).forEach((step) => step(opened as never, tx as never)),
    });
    expect([...db.objectStoreNames]).toEqual(expect.arrayContaining(["deliveries", "photos", "outbox", "kept"]));
    db.close();
  }
});

test("a phone of version 1 gets a place for thumbnails; its photos and what waits stay as they are", async () => {
  const photo = { sha256: "sha-1", bytes: bytesOf("abc"), type: "image/jpeg", delivery_ids: ["d1"], kept_at: "", received_at: null };
  const waits = {
    id: "photo:sha-1",
    order: 1,
    kind: "photo",
    delivery_id: "d1",
    created_at: "",
    change: 0,
    body: null,
    idempotency_key: "",
    attempts: 0,
    next_try_at: 0,
    problem: null,
  };
  const earlier = await openDB(DATABASE_NAME, 1, { upgrade: (db, _from, _to, tx) => UPGRADES[0]!(db as never, tx as never) });
  await earlier.put("photos", photo);
  await earlier.put("outbox", waits);
  earlier.close();

  expect(await photoBySha("sha-1")).toEqual(photo);
  expect(await oldestFirst()).toEqual([waits]);
  expect(await thumbBySha("sha-1")).toBeUndefined();
  await keepThumb("sha-1", bytesOf("small"));
  await restart();
  expect(new TextDecoder().decode((await thumbBySha("sha-1"))!.bytes!)).toBe("small");
});

test("a newer version that adds a store leaves what waits where it is", async () => {
  const body = delivery();
  await saveDocument(body, { ...EMPTY_NOTES });
  await restart();
  const newer = await openDB(DATABASE_NAME, UPGRADES.length + 1, { upgrade: (db) => void db.createObjectStore("later") });
  expect((await newer.getAll("outbox")).length).toBe(1);
  expect((await newer.get("deliveries", body.id)).body).toEqual(body);
  newer.close();
});

test("an open page lets go when a newer page has to upgrade", async () => {
  await saveDocument(delivery(), { ...EMPTY_NOTES });
  const newer = await openDB(DATABASE_NAME, UPGRADES.length + 1, { upgrade: (db) => void db.createObjectStore("later") });
  newer.close();
  await expect(oldestFirst()).rejects.toMatchObject({ name: "VersionError" });
  await expect(deliveryById("any")).rejects.toMatchObject({ name: "VersionError" });
});
