import { uuidv7 } from "uuidv7";
import { beforeEach, expect, test, vi } from "vitest";
import { SIGNATURES, bytesOf, delivery, emptyPhone, restart } from "../testing/cast";
import type { Inspection } from "../store/document";
import { EMPTY_NOTES, closeForSigning, deliveryById, keepMine, saveDocument } from "../store/documents";
import { oldestFirst, tryAllNow } from "../store/outbox";
import { discardIceCheck, keepIceCheck, keptIceChecks, type IceCheck } from "../store/ice_checks";
import { keepPhoto, photoBySha } from "../store/photos";
import { FIRST_MS, LONGEST_MS, waitAfter } from "./backoff";
import { isCheckReceipt, revisionReceipt, sealReceipt } from "./receipts";
import { ON_HOLD, Sender } from "./sender";
import { NoAnswer, Refused, type Answer, type Asked, type Request } from "./wire";

const SEAL = { number: 1, sha256: "b".repeat(64), previous_sha256: null, signature: "sig", public_key_id: "key", sealed_at: "" };

/** A server of the protocol in memory; `trouble` is asked before and `losing` after each request. */
class Server {
  documents = new Map<string, { body: Inspection; revision: number }>();
  photos = new Set<string>();
  seals = new Map<string, object>();
  checks = new Map<string, IceCheck>();
  asked: string[] = [];
  trouble: (line: string) => Error | null = () => null;
  losing: (line: string) => boolean = () => false;

  request: Request = async <T>(path: string, asked: Asked = {}) => {
    const line = `${asked.method ?? "GET"} ${path}`;
    this.asked.push(line);
    const trouble = this.trouble(line);
    if (trouble) throw trouble;
    const answer = this.#answer(asked.method ?? "GET", path, asked);
    if (this.losing(line)) throw new NoAnswer("lost on the way back");
    return answer as Answer<T>;
  };

  upload = async (photo: { sha256: string }): Promise<void> => {
    this.asked.push(`TUS ${photo.sha256}`);
    const trouble = this.trouble(`TUS ${photo.sha256}`);
    if (trouble) throw trouble;
    this.photos.add(photo.sha256);
  };

  #answer(method: string, path: string, asked: Asked): Answer<unknown> {
    const ok = (body: unknown) => ({ status: 200, etag: null, body });
    const [, , kind, id = "", rest] = path.split("/");
    if (kind === "photos") {
      if (!this.photos.has(id)) throw refused(404, "NOT-FOUND");
      return ok({});
    }
    if (kind === "deliveries") return ok({ seal: this.#sealFor(path) });
    if (kind === "thermometers") return ok({ check: this.#checkOf(asked.body as IceCheck) });
    if (rest === "signature") {
      const { document } = asked.body as { document: Inspection };
      const missing = document.photos.map(({ sha256 }) => sha256).filter((sha) => !this.photos.has(sha));
      if (missing.length > 0) throw refused(409, "PHOTOS-MISSING", { missing });
      return ok({ seal: this.#sealFor(asked.headers!["Idempotency-Key"]!), difference: null });
    }
    if (method === "PUT") return ok({ revision: this.#put(id, asked) });
    throw new Error(`not modelled: ${method} ${path}`);
  }

  #checkOf(check: IceCheck): object {
    this.checks.set(check.id, check);
    return { id: check.id, passed: true };
  }

  #sealFor(key: string): object {
    if (!this.seals.has(key)) this.seals.set(key, { ...SEAL, number: this.seals.size + 1 });
    return this.seals.get(key)!;
  }

  #put(id: string, asked: Asked): number {
    const held = this.documents.get(id);
    const body = JSON.parse(JSON.stringify(asked.body)) as Inspection;
    if (held && JSON.stringify(held.body) === JSON.stringify(body)) return held.revision;
    if (held && asked.headers!["If-Match"] !== `"${held.revision}"`) {
      throw refused(412, "DOC-OTHER-REVISION", { revision: held.revision, person: "Teo" }, { current: held.body });
    }
    const revision = (held?.revision ?? 0) + 1;
    this.documents.set(id, { body, revision });
    return revision;
  }
}

const refused = (status: number, code: string, facts = {}, body = {}) =>
  new Refused(status, code, `${code}. Nothing is lost. Go on.`, facts, body, null);

let server: Server;
let now: number;
const sender = () => new Sender({ request: server.request, upload: server.upload, now: () => now, chance: () => 0.5, locks: null });
const keep = (body: Inspection) => saveDocument(body, { ...EMPTY_NOTES });
const photoIn = (sha256: string) => ({
  id: uuidv7(),
  sha256,
  bytes: 3,
  type: "image/jpeg",
  purpose: "top" as const,
  line_id: null,
  carton_id: null,
  taken_at: "",
  gate: { sharpness: 1, exposure: 200, glare: 0, verdict: "usable" as const },
});

beforeEach(async () => {
  await emptyPhone();
  server = new Server();
  now = 1_000_000;
});

async function signedWithPhoto(): Promise<Inspection> {
  const body = delivery({ photos: [photoIn("sha-1")] as never });
  await keep(body);
  await keepPhoto({ sha256: "sha-1", bytes: bytesOf("abc"), type: "image/jpeg" }, body.id);
  await closeForSigning(body.id, SIGNATURES, "key-1");
  return body;
}

test("a delivery goes as document, photo, signature, in that order, and is sealed once", async () => {
  const body = await signedWithPhoto();
  expect(await sender().flush()).toBe("all_sent");
  expect(server.asked.map((line) => line.split(" ")[0])).toEqual(["PUT", "HEAD", "TUS", "HEAD", "POST"]);
  expect(await deliveryById(body.id)).toMatchObject({ state: "sealed", seal: { number: 1 } });
  expect(server.seals.size).toBe(1);
});

test("killed between the server's yes and the receipt, everything goes again and counts once", async () => {
  const body = await signedWithPhoto();
  for (const lost of ["PUT /sync/documents", "TUS", "POST"]) {
    server.losing = (line) => line.startsWith(lost);
    if (lost === "TUS") server.trouble = (line) => (line.startsWith("TUS") ? new NoAnswer() : null);
    expect(await sender().flush()).toBe("no_signal");
    server.trouble = () => null;
    await restart();
  }
  server.losing = () => false;
  expect(await sender().flush()).toBe("all_sent");
  expect(server.documents.get(body.id)?.revision).toBe(1);
  expect(server.seals.size).toBe(1);
  expect((await deliveryById(body.id))?.seal?.number).toBe(1);
});

test("an entry leaves only on a receipt: a 200 from another machine keeps it", async () => {
  const body = delivery();
  await keep(body);
  const portal: Request = async <T>() => ({ status: 200, etag: null, body: {} as T });
  await new Sender({ request: portal, upload: server.upload, now: () => now, locks: null }).flush();
  const [entry] = await oldestFirst();
  expect(entry?.problem?.code).toBe("NO-RECEIPT");
});

test("a photo is not crossed off because an upload said yes, only because the server holds its hash", async () => {
  await keep(delivery());
  await keepPhoto({ sha256: "sha-1", bytes: bytesOf("abc"), type: "image/jpeg" }, "d1");
  const forgetful = async () => undefined;
  await new Sender({ request: server.request, upload: forgetful, now: () => now, chance: () => 0.5, locks: null }).flush();
  expect((await oldestFirst()).map(({ id }) => id)).toEqual(["photo:sha-1"]);
  expect((await photoBySha("sha-1"))?.received_at).toBeNull();
});

test("a 500 keeps the entry with its sentence, waits longer each time, and holds no other delivery back", async () => {
  const [first, second] = [delivery(), delivery()];
  await keep(first);
  await keep(second);
  server.trouble = (line) => (line.includes(first.id) ? refused(500, "SERVER") : null);
  expect(await sender().flush()).toBe("waiting");
  const [entry] = await oldestFirst();
  expect(entry).toMatchObject({ delivery_id: first.id, attempts: 1, next_try_at: now + FIRST_MS, problem: { code: "SERVER" } });
  expect(server.documents.has(second.id)).toBe(true);
  await sender().flush();
  expect(server.asked.filter((line) => line.includes(first.id)).length).toBe(1);
  now += FIRST_MS + 1;
  await sender().flush();
  expect((await oldestFirst())[0]).toMatchObject({ attempts: 2, next_try_at: now + 2 * FIRST_MS });
});

test("a 401 keeps everything, stops, and asks to sign in", async () => {
  await signedWithPhoto();
  server.trouble = () => refused(401, "AUTH");
  expect(await sender().flush()).toBe("sign_in");
  expect((await oldestFirst()).length).toBe(3);
  expect(server.asked.length).toBe(1);
  server.trouble = () => null;
  expect(await sender().flush()).toBe("all_sent");
});

test("a device out of use keeps everything, stops, and goes on when it is in use again", async () => {
  await signedWithPhoto();
  server.trouble = () => refused(403, "DEVICE-REVOKED");
  expect(await sender().flush()).toBe("device");
  expect(server.asked.length).toBe(1);
  expect(await oldestFirst()).toEqual((await oldestFirst()).map((entry) => ({ ...entry, attempts: 0, problem: null })));
  expect((await oldestFirst()).length).toBe(3);
  server.trouble = () => null;
  expect(await sender().flush()).toBe("all_sent");
});

test("a 401 in the middle of a photo asks to sign in too", async () => {
  await keepPhoto({ sha256: "sha-1", bytes: bytesOf("abc"), type: "image/jpeg" }, "d1");
  server.trouble = (line) => (line.startsWith("TUS") ? refused(401, "AUTH") : null);
  expect(await sender().flush()).toBe("sign_in");
  expect((await oldestFirst())[0]).toMatchObject({ attempts: 0, problem: null });
});

test("a 412 notes the choice, holds the entry, overwrites nothing", async () => {
  const body = delivery();
  await keep(body);
  await sender().flush();
  server.documents.set(body.id, { body: delivery({ id: body.id, notes: "theirs" }), revision: 5 });
  await keep({ ...body, notes: "mine" });
  expect(await sender().flush()).toBe("waiting");
  expect((await deliveryById(body.id))?.conflict).toMatchObject({
    kind: "other_revision",
    other_id: body.id,
    other_revision: 5,
    other: { notes: "theirs" },
  });
  expect((await oldestFirst())[0]?.next_try_at).toBe(ON_HOLD);
  expect(server.documents.get(body.id)?.body.notes).toBe("theirs");
  await keepMine(body.id, { id: body.id, revision: 5, replace: true, separate_from: null });
  expect(await sender().flush()).toBe("all_sent");
  expect(server.documents.get(body.id)).toMatchObject({ revision: 6, body: { notes: "mine" } });
  expect(await deliveryById(body.id)).toMatchObject({ revision: 6, replace: false, conflict: null });
});

test("a 409 for a docket open elsewhere names the other document", async () => {
  const body = delivery();
  await keep(body);
  server.trouble = () => refused(409, "DOCKET-OPEN-ELSEWHERE", { other_id: "other-1" });
  await sender().flush();
  expect((await deliveryById(body.id))?.conflict).toMatchObject({ kind: "docket_open_elsewhere", other_id: "other-1" });
});

test("a docket signed by another phone holds the draft for a choice", async () => {
  const body = delivery();
  await keep(body);
  server.trouble = () => refused(409, "DOC-SIGNED", { person: "Teo" });
  await sender().flush();
  expect((await deliveryById(body.id))?.conflict?.kind).toBe("already_signed");
});

test("a document that the server has lost is sent again from the start", async () => {
  const body = delivery();
  await keep(body);
  await sender().flush();
  server.documents.clear();
  await keep({ ...body, notes: "more" });
  server.trouble = () => {
    server.trouble = () => null;
    return refused(412, "DOC-NOT-HERE", { revision: 0 }, { current: null });
  };
  expect(await sender().flush()).toBe("all_sent");
  expect(server.documents.get(body.id)).toMatchObject({ revision: 1, body: { notes: "more" } });
});

test("an own signature whose answer was lost needs no choice: the repeat brings the seal", async () => {
  const body = await signedWithPhoto();
  server.photos.add("sha-1");
  server.trouble = (line) => (line.startsWith("PUT") ? refused(409, "DOC-SIGNED") : null);
  expect(await sender().flush()).toBe("all_sent");
  expect(await deliveryById(body.id)).toMatchObject({ state: "sealed", conflict: null });
});

test("photos that the server misses at signing are sent again, then it is sealed", async () => {
  const body = await signedWithPhoto();
  let asked = 0;
  server.losing = (line) => {
    if (line.startsWith("HEAD") && ++asked === 1) server.photos.clear();
    return false;
  };
  expect(await sender().flush()).toBe("all_sent");
  expect(server.asked.filter((line) => line.startsWith("TUS")).length).toBe(2);
  expect((await deliveryById(body.id))?.state).toBe("sealed");
});

test("a server that misses what it says it holds is asked with growing waits, not in a circle", async () => {
  await signedWithPhoto();
  server.photos.add("sha-1");
  server.trouble = (line) => (line.startsWith("POST") ? refused(409, "PHOTOS-MISSING", { missing: ["sha-1"] }) : null);
  expect(await sender().flush()).toBe("waiting");
  expect(server.asked.filter((line) => line.startsWith("POST")).length).toBe(2);
  expect((await oldestFirst()).at(-1)).toMatchObject({ kind: "signature", attempts: 2 });
});

test("what cannot be signed is held with the server's sentence", async () => {
  const body = await signedWithPhoto();
  server.trouble = (line) => (line.startsWith("POST") ? refused(422, "NOT-SIGNABLE") : null);
  await sender().flush();
  expect((await oldestFirst())[0]).toMatchObject({ kind: "signature", next_try_at: ON_HOLD, problem: { code: "NOT-SIGNABLE" } });
  expect((await deliveryById(body.id))?.state).toBe("signing");
  await tryAllNow();
  server.trouble = () => null;
  expect(await sender().flush()).toBe("all_sent");
});

test("a change made while the document is on its way is sent on top, not lost", async () => {
  const body = delivery();
  await keep(body);
  const once = vi.fn();
  const slow: Request = async (path, asked) => {
    const answer = await server.request(path, asked);
    if (once.mock.calls.length === 0) {
      once();
      await keep({ ...body, notes: "one more tap" });
    }
    return answer as never;
  };
  const one = new Sender({ request: slow, upload: server.upload, now: () => now, locks: null });
  await one.flush();
  await one.flush();
  expect(server.documents.get(body.id)).toMatchObject({ revision: 2, body: { notes: "one more tap" } });
  expect(await oldestFirst()).toEqual([]);
});

test("two flushes at once send each thing once", async () => {
  await signedWithPhoto();
  const one = sender();
  await Promise.all([one.flush(), one.flush(), one.flush()]);
  expect(server.asked.filter((line) => line.startsWith("POST")).length).toBe(1);
});

test("two tabs take turns through the browser's lock", async () => {
  await signedWithPhoto();
  let turn: Promise<unknown> = Promise.resolve();
  const locks = { request: (_name: string, work: () => Promise<unknown>) => (turn = turn.then(work)) } as never;
  const tab = () => new Sender({ request: server.request, upload: server.upload, now: () => now, locks });
  await Promise.all([tab().flush(), tab().flush()]);
  expect(server.asked.filter((line) => line.startsWith("POST")).length).toBe(1);
});

test("without a signal nothing is counted as a failure of the entry", async () => {
  await keep(delivery());
  server.trouble = () => new NoAnswer("offline");
  expect(await sender().flush()).toBe("no_signal");
  expect((await oldestFirst())[0]).toMatchObject({ attempts: 0, problem: null });
});

test("the wait doubles from 2 s to 5 min, a fifth to either side", () => {
  expect([1, 2, 3, 30].map((attempts) => waitAfter(attempts, 0.5))).toEqual([FIRST_MS, 2 * FIRST_MS, 4 * FIRST_MS, LONGEST_MS]);
  expect(waitAfter(1, 0)).toBe(FIRST_MS * 0.8);
});

test("a receipt is a whole revision from 1, or a seal with hash, number and signature", () => {
  expect([{ revision: 3 }, { revision: 0 }, { revision: "3" }, {}, null].map(revisionReceipt)).toEqual([3, null, null, null, null]);
  expect(sealReceipt({ seal: SEAL })).toEqual(SEAL);
  expect(sealReceipt({ seal: { ...SEAL, sha256: "short" } })).toBeNull();
  expect(sealReceipt({ seal: { ...SEAL, signature: "" } })).toBeNull();
  expect(sealReceipt({})).toBeNull();
});

const iceCheck = (edit: Partial<IceCheck> = {}): IceCheck => ({
  id: uuidv7(),
  thermometer_id: "probe-1",
  at: "2026-11-25T06:10:00+11:00",
  reading: { entered: "0,2", unit: "C" },
  person: { person_id: 1, name: "Mara" },
  device_id: "device-1",
  ...edit,
});

test("a check of a thermometer waits through a kill, goes on its receipt, and counts on", async () => {
  const check = iceCheck();
  await keepIceCheck(check);
  await restart();
  expect((await oldestFirst()).map(({ id, delivery_id }) => [id, delivery_id])).toEqual([[`check:${check.id}`, "thermometer:probe-1"]]);
  server.trouble = () => new NoAnswer("no signal");
  expect(await sender().flush()).toBe("no_signal");
  server.trouble = () => null;
  server.losing = (line) => line.startsWith("PUT");
  expect(await sender().flush()).toBe("no_signal");
  expect(await oldestFirst()).toHaveLength(1);
  server.losing = () => false;
  expect(await sender().flush()).toBe("all_sent");
  expect(server.asked.at(-1)).toBe(`PUT /sync/thermometers/probe-1/checks/${check.id}`);
  expect([...server.checks.values()]).toEqual([check]);
  expect(await keptIceChecks()).toEqual({ "probe-1": check });
});

test("the same check kept twice waits once", async () => {
  const check = iceCheck();
  await keepIceCheck(check);
  await sender().flush();
  await keepIceCheck(check);
  expect(await oldestFirst()).toEqual([]);
});

test("a check that the server will never file is held, keeps nobody else waiting, and is taken off by a person", async () => {
  const [wrong, fine] = [iceCheck(), iceCheck({ thermometer_id: "probe-2" })];
  await keepIceCheck(wrong);
  await keepIceCheck(fine);
  server.trouble = (line) => (line.includes("probe-1") ? refused(422, "CHECK-TIME") : null);
  expect(await sender().flush()).toBe("waiting");
  const [held, ...others] = await oldestFirst();
  expect([held!.next_try_at, held!.problem?.code, others]).toEqual([ON_HOLD, "CHECK-TIME", []]);
  expect(await discardIceCheck(wrong)).toEqual({ "probe-2": fine });
  expect(await oldestFirst()).toEqual([]);
});

test("a check of a site that is not this person's is tried again, for the next one on this phone", async () => {
  await keepIceCheck(iceCheck());
  server.trouble = () => refused(403, "NOT-YOURS");
  await sender().flush();
  const [kept] = await oldestFirst();
  expect(kept!.next_try_at).toBeLessThan(ON_HOLD);
  expect(kept!.problem?.code).toBe("NOT-YOURS");
});

test.each([null, {}, "ok", { check: null }, { check: { id: "other", passed: true } }, { check: { id: "mine" } }])(
  "what is no receipt for a check crosses nothing off: %j",
  (body) => expect(isCheckReceipt(body, "mine")).toBe(false),
);

test.each([
  ["APP-TOO-OLD", "app"],
  ["SERVER-TOO-OLD", "server"],
])("%s ends the round; the outbox stays as it was, and goes once both speak alike", async (code, outcome) => {
  const server = new Server();
  await saveDocument(delivery(), { ...EMPTY_NOTES });
  const before = await oldestFirst();
  server.trouble = () => new Refused(409, code, "", {}, {}, null);
  const sender = new Sender({ request: server.request, upload: server.upload, locks: null });
  expect(await sender.flush()).toBe(outcome);
  expect(await oldestFirst()).toEqual(before);
  server.trouble = () => null;
  expect(await sender.flush()).toBe("all_sent");
});
