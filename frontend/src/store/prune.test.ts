import { beforeEach, expect, test } from "vitest";
import { bytesOf, delivery, emptyPhone } from "../testing/cast";
import { EMPTY_NOTES, changeDelivery, noteSeal, saveDocument } from "./documents";
import { crossOffPhoto } from "./outbox";
import { keepPhoto, photoBySha } from "./photos";
import { KEEP_DAYS, prune } from "./prune";

beforeEach(emptyPhone);
const DAY = 86_400_000;
const seal = {
  number: 1,
  sha256: "a".repeat(64),
  previous_sha256: null,
  signature: "s",
  public_key_id: "k",
  sealed_at: new Date().toISOString(),
};

async function sealedWithPhoto(): Promise<string> {
  const body = delivery({ photos: [{ sha256: "sha-1" }] as never });
  await saveDocument(body, { ...EMPTY_NOTES });
  await keepPhoto({ sha256: "sha-1", bytes: bytesOf("abc"), type: "image/jpeg" }, body.id);
  await crossOffPhoto("sha-1");
  await noteSeal(body.id, seal, null);
  return body.id;
}

test("bytes go only after seal, put-away seal and a fortnight", async () => {
  const id = await sealedWithPhoto();
  const later = Date.now() + (KEEP_DAYS + 1) * DAY;
  expect(await prune(later)).toBe(0);
  await changeDelivery(id, (one) => ({ ...one, put_away_seal: seal }));
  expect(await prune(Date.now() + (KEEP_DAYS - 1) * DAY)).toBe(0);
  expect(await prune(later)).toBe(1);
  expect(await photoBySha("sha-1")).toBeNull();
});

test("bytes that another delivery still needs, or that were never received, stay", async () => {
  const id = await sealedWithPhoto();
  await changeDelivery(id, (one) => ({ ...one, put_away_seal: seal }));
  await saveDocument(delivery({ photos: [{ sha256: "sha-1" }] as never }), { ...EMPTY_NOTES });
  await keepPhoto({ sha256: "sha-2", bytes: bytesOf("x"), type: "image/jpeg" }, id);
  expect(await prune(Date.now() + 100 * DAY)).toBe(0);
  expect(await photoBySha("sha-1")).not.toBeNull();
  expect(await photoBySha("sha-2")).not.toBeNull();
});
