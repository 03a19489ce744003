import { beforeEach, expect, test } from "vitest";
import { bytesOf, emptyPhone, restart } from "../testing/cast";
import { crossOffPhoto, oldestFirst } from "./outbox";
import { keepPhoto, photoBySha, queuePhotosAgain } from "./photos";

beforeEach(emptyPhone);
const photo = (text: string) => ({ sha256: `sha-${text}`, bytes: bytesOf(text), type: "image/jpeg" });

test("bytes are kept as taken and wait once, however often they are added", async () => {
  await keepPhoto(photo("one"), "d1");
  await keepPhoto(photo("one"), "d2");
  await restart();
  const kept = await photoBySha("sha-one");
  expect(new TextDecoder().decode(kept?.bytes)).toBe("one");
  expect(kept?.delivery_ids).toEqual(["d1", "d2"]);
  expect((await oldestFirst()).length).toBe(1);
});

test("bytes outlive the receipt, so that a server that misses them can get them again", async () => {
  await keepPhoto(photo("one"), "d1");
  await crossOffPhoto("sha-one");
  expect(await oldestFirst()).toEqual([]);
  expect((await photoBySha("sha-one"))?.received_at).not.toBeNull();
  expect(await queuePhotosAgain(["sha-one", "sha-gone"], "d1")).toEqual(["sha-gone"]);
  expect((await oldestFirst()).map(({ id }) => id)).toEqual(["photo:sha-one"]);
});
