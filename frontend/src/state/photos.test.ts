import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { keepPhoto, thumbBySha } from "../store/photos";
import { bytesOf, emptyPhone } from "../testing/cast";

const lookAt = vi.hoisted(() => vi.fn());
vi.mock("../camera/looking", () => ({ lookAt }));
const { thumbUrl } = await import("./photos.svelte");

beforeEach(async () => {
  await emptyPhone();
  lookAt.mockReset();
  URL.createObjectURL = vi.fn(() => "blob:one");
});
afterEach(() => vi.restoreAllMocks());
const photo = { sha256: "sha-1", bytes: bytesOf("abc"), type: "image/jpeg" };

test("a thumbnail kept with the photo is shown without looking at the photo again", async () => {
  await keepPhoto(photo, "d1", bytesOf("small"));
  expect(await thumbUrl("sha-1")).toBe("blob:one");
  expect(lookAt).not.toHaveBeenCalled();
});

test("a photo kept by an earlier app gets its thumbnail once; one that cannot be shown has none", async () => {
  for (const [sha256, thumb] of [
    ["sha-1", bytesOf("small")],
    ["sha-2", null],
  ] as const) {
    const db = await (await import("../store/upgrades")).database();
    await db.put("photos", { ...photo, sha256, delivery_ids: ["d1"], kept_at: "", received_at: null });
    lookAt.mockResolvedValue({ thumb });
    expect(await thumbUrl(sha256)).toBe(thumb ? "blob:one" : null);
    expect(await thumbUrl(sha256)).toBe(thumb ? "blob:one" : null);
    expect(await thumbBySha(sha256)).toEqual({ sha256, bytes: thumb });
  }
  expect(lookAt).toHaveBeenCalledTimes(2);
  expect(await thumbUrl("sha-gone")).toBeNull();
});
