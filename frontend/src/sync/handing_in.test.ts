import { beforeEach, expect, test } from "vitest";
import { SIGNATURES, bytesOf, delivery, emptyPhone } from "../testing/cast";
import { handIn, NotAnOutbox, type Handed } from "./handing_in";
import { Refused, type Asked, type Request } from "./wire";
import { closeForSigning, EMPTY_NOTES, saveDocument } from "../store/documents";
import { oldestFirst } from "../store/outbox";
import { outboxFile, readOutboxFile } from "../store/outbox_file";
import { keepPhoto } from "../store/photos";

const SHA = "a".repeat(64);
beforeEach(emptyPhone);

async function aFullPhone(): Promise<string> {
  const body = delivery();
  await saveDocument(body, { ...EMPTY_NOTES });
  await keepPhoto({ sha256: SHA, bytes: bytesOf("bytes of a photo"), type: "image/jpeg" }, body.id);
  await closeForSigning(body.id, SIGNATURES, "key-of-the-phone");
  return body.id;
}

test("the file has what waits in its order, with the photos' bytes, and all of it goes on waiting", async () => {
  const id = await aFullPhone();
  const before = await oldestFirst();
  const { entries, photos } = (await readOutboxFile(await outboxFile()))!;
  expect(entries).toMatchObject([
    { kind: "document", base: 0, is_replacement: false, body: { id } },
    { kind: "signature", key: "key-of-the-phone", body: { id, signatures: SIGNATURES } },
  ]);
  expect(photos).toMatchObject([{ sha256: SHA, type: "image/jpeg", size: 16 }]);
  expect(await photos[0]!.bytes.text()).toBe("bytes of a photo");
  expect(await oldestFirst()).toEqual(before);
});

test("another file, or one that is cut off anywhere, is none of ours", async () => {
  await aFullPhone();
  const whole = await outboxFile();
  for (const end of [0, 10, 30, whole.size - 20, whole.size - 1]) expect(await readOutboxFile(whole.slice(0, end))).toBeNull();
  expect(await readOutboxFile(new Blob(["Underlid outbox 1 5\nhello"]))).toBeNull();
  await expect(handIn(new Blob(["a letter"]), () => undefined)).rejects.toBeInstanceOf(NotAnOutbox);
});

test("photos go in first, then each entry; a refusal is told and the rest goes on", async () => {
  const id = await aFullPhone();
  const asked: string[] = [];
  const request = (async (path: string, { method = "GET", body }: Asked = {}) => {
    asked.push(`${method} ${path} ${(body as { kind?: string } | undefined)?.kind ?? ""}`.trim());
    if (method === "HEAD") throw new Refused(404, "HTTP-404", "", {}, {}, null);
    if ((body as { kind?: string }).kind === "document") throw new Refused(409, "IDS-TAKEN", "Its id is taken.", {}, {}, null);
    return { status: 200, etag: null, body: {} };
  }) as Request;
  const done: Handed[] = [];
  const upload = async ({ sha256 }: { sha256: string }) => void asked.push(`TUS ${sha256}`);
  await handIn(await outboxFile(), (one) => done.push(one), { request, upload });
  expect(asked).toEqual([`HEAD /sync/photos/${SHA}`, `TUS ${SHA}`, "POST /sync/handed-in document", "POST /sync/handed-in signature"]);
  expect(done).toEqual([
    { kind: "photo", sentence: null },
    { kind: "document", sentence: "Its id is taken." },
    { kind: "signature", sentence: null },
  ]);
  expect(id).toBeTruthy();
});
