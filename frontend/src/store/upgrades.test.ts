import { openDB } from "idb";
import { beforeEach, expect, test } from "vitest";
import { delivery, emptyPhone, restart } from "../testing/cast";
import { EMPTY_NOTES, deliveryById, saveDocument } from "./documents";
import { oldestFirst } from "./outbox";
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
