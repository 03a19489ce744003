/**
 * Empties the outbox, oldest first, one request at a time, in one tab at a time.
 *
 *     for entry of oldestFirst(): answer = send(entry)
 *       if answer is the server's receipt for this entry: cross it off   // never before
 *       else keep it, with why and when to try again
 *
 * An entry that does not go holds back the later ones of its delivery, never those of others.
 */
import type { Addendum, Inspection } from "../store/document";
import { deliveryById, noteConflict, noteSeal, changeDelivery } from "../store/documents";
import { crossOffAddendum, crossOffDocument, crossOffPhoto, keepWaiting, oldestFirst } from "../store/outbox";
import { crossOffIceCheck, type IceCheck } from "../store/ice_checks";
import { photoBySha, queuePhotosAgain } from "../store/photos";
import type { Noticed, OutboxEntry, Problem } from "../store/schema";
import { waitAfter } from "./backoff";
import { isCheckReceipt, revisionReceipt, sealReceipt } from "./receipts";
import { conflictFrom, conflictKind, notTheServer, photoGone, unexpected } from "./refusals";
import { isHeldByServer, uploadByTus, type Upload } from "./uploads";
import { NoAnswer, Refused, kindOfDevice, request, type Answer, type Request } from "./wire";

/**
 * device: the server may take nothing from this device any more; whether so, the session tells. app, server: the one is
 * too old for the other. All of these end the round, and nothing counts as a try.
 */
type Stop = "no_signal" | "sign_in" | "device" | "app" | "server";
export type Outcome = "all_sent" | "waiting" | Stop;
const isStop = (outcome: string): outcome is Stop => ["no_signal", "sign_in", "device", "app", "server"].includes(outcome);
/** On hold until a person has chosen or something has changed. */
export const ON_HOLD = Number.POSITIVE_INFINITY;

export interface SenderParts {
  request: Request;
  upload: Upload;
  now: () => number;
  chance: () => number;
  locks: Pick<LockManager, "request"> | null;
  /** Called after each entry, so that screens show what still waits. */
  onProgress: () => void;
  /** What other phones are told this one is. */
  deviceLabel: string;
}

class SignInNeeded extends Error {}
class NotYet extends Error {
  constructor(readonly problem: Problem) {
    super(problem.code);
  }
}
class OnHold extends Error {
  constructor(readonly problem: Problem) {
    super(problem.code);
  }
}

export class Sender {
  readonly #parts: SenderParts;
  #running: Promise<Outcome> | null = null;
  #again = false;

  constructor(parts: Partial<SenderParts> = {}) {
    this.#parts = {
      request,
      upload: uploadByTus,
      now: () => Date.now(),
      chance: () => Math.random(),
      locks: globalThis.navigator?.locks ?? null,
      onProgress: () => undefined,
      deviceLabel: kindOfDevice(globalThis.navigator?.userAgent ?? ""),
      ...parts,
    };
  }

  /** Send what is due. A call while one runs makes it look once more at the end. */
  flush(): Promise<Outcome> {
    if (this.#running) {
      this.#again = true;
      return this.#running;
    }
    this.#running = this.#inOneTab().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  async #inOneTab(): Promise<Outcome> {
    const { locks } = this.#parts;
    if (!locks) return this.#untilQuiet();
    return locks.request("underlid-sender", () => this.#untilQuiet());
  }

  async #untilQuiet(): Promise<Outcome> {
    let outcome: Outcome;
    do {
      this.#again = false;
      outcome = await this.#round();
    } while (this.#again && !isStop(outcome));
    return outcome;
  }

  async #round(): Promise<Outcome> {
    const heldBack = new Set<string>();
    for (const entry of await oldestFirst()) {
      if (heldBack.has(entry.delivery_id)) continue;
      if (entry.next_try_at > this.#parts.now()) {
        heldBack.add(entry.delivery_id);
        continue;
      }
      const result = await this.#one(entry);
      this.#parts.onProgress();
      if (isStop(result)) return result;
      if (result === "kept") heldBack.add(entry.delivery_id);
    }
    return (await oldestFirst()).length === 0 ? "all_sent" : "waiting";
  }

  async #one(entry: OutboxEntry): Promise<"sent" | "kept" | Stop> {
    try {
      await this.#send(entry);
      return "sent";
    } catch (error) {
      return this.#keep(entry, error);
    }
  }

  async #keep(entry: OutboxEntry, error: unknown): Promise<"kept" | Stop> {
    const later = this.#parts.now() + waitAfter(entry.attempts + 1, this.#parts.chance());
    if (error instanceof SignInNeeded) return "sign_in";
    if (error instanceof NoAnswer) return "no_signal";
    if (error instanceof Refused && error.code === "APP-TOO-OLD") return "app";
    if (error instanceof Refused && error.code === "SERVER-TOO-OLD") return "server";
    // An answer to HEAD carries no words, so it may be this.
    if (error instanceof Refused && (error.code === "DEVICE-REVOKED" || error.code === "HTTP-403")) return "device";
    if (error instanceof OnHold) await keepWaiting(entry.id, ON_HOLD, error.problem);
    else if (error instanceof NotYet) await keepWaiting(entry.id, 0, error.problem);
    else if (error instanceof Refused) await keepWaiting(entry.id, this.#nextTry(error, later), error.problem());
    else await keepWaiting(entry.id, later, unexpected(error));
    return "kept";
  }

  /** A busy or broken server is asked again; any other refusal is asked again too, but seldom. */
  #nextTry(error: Refused, later: number): number {
    if (error.retryAfter !== null) return Math.max(later, this.#parts.now() + error.retryAfter * 1000);
    return later;
  }

  #send(entry: OutboxEntry): Promise<void> {
    switch (entry.kind) {
      case "document":
        return this.#sendDocument(entry);
      case "photo":
        return this.#sendPhoto(entry);
      case "signature":
        return this.#sendSignature(entry);
      case "addendum":
        return this.#sendAddendum(entry);
      case "check":
        return this.#sendCheck(entry.body as IceCheck);
    }
  }

  async #ask<T>(path: string, asked: Parameters<Request>[1]): Promise<Answer<T>> {
    try {
      return await this.#parts.request<T>(path, asked);
    } catch (error) {
      if (error instanceof Refused && error.status === 401) throw new SignInNeeded();
      throw error;
    }
  }

  async #sendDocument(entry: OutboxEntry): Promise<void> {
    const delivery = await deliveryById(entry.delivery_id);
    if (!delivery || delivery.state === "sealed") {
      return crossOffDocument(entry.delivery_id, entry.change, delivery?.revision ?? 0);
    }
    const headers: Record<string, string> =
      delivery.revision === null ? { "If-None-Match": "*" } : { "If-Match": `"${delivery.revision}"` };
    headers["X-Underlid-Device"] = this.#parts.deviceLabel;
    if (delivery.replace) headers["X-Underlid-Replace"] = "yes";
    try {
      const asked = { method: "PUT" as const, headers, body: delivery.body };
      const answer = await this.#ask<unknown>(`/sync/documents/${delivery.id}`, asked);
      const revision = revisionReceipt(answer.body);
      if (revision === null) throw notTheServer();
      await crossOffDocument(delivery.id, delivery.change, revision);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      // our own signature got through and its answer was lost: the repeated signature brings the seal
      if (error.code === "DOC-SIGNED" && delivery.state === "signing") {
        return crossOffDocument(delivery.id, delivery.change, delivery.revision ?? 1);
      }
      if (error.code === "DOC-NOT-HERE") await this.#fromTheStart(entry, error);
      await this.#onConflict(delivery.id, error);
      throw error;
    }
  }

  /** The server knows of no such document, as after a restore from an older copy: send it as a new one. */
  async #fromTheStart(entry: OutboxEntry, error: Refused): Promise<never> {
    await changeDelivery(entry.delivery_id, (delivery) => ({ ...delivery, revision: null, replace: false }));
    if (entry.attempts > 0) throw new Refused(503, error.code, error.sentence, error.facts, error.body, error.retryAfter);
    this.#again = true;
    throw new NotYet(error.problem());
  }

  /** 412 and 409 are a choice for the receiver: note it, hold the entry, overwrite nothing. */
  async #onConflict(id: string, error: Refused): Promise<void> {
    const kind = conflictKind(error);
    if (!kind) return;
    await noteConflict(id, conflictFrom(kind, id, error, this.#parts.now()));
    throw new OnHold(error.problem());
  }

  async #sendPhoto(entry: OutboxEntry): Promise<void> {
    const sha256 = entry.id.slice("photo:".length);
    const photo = await photoBySha(sha256);
    if (!photo) throw new OnHold(photoGone());
    try {
      if (!(await isHeldByServer(sha256, this.#parts.request))) {
        await this.#parts.upload(photo);
        if (!(await isHeldByServer(sha256, this.#parts.request))) throw notTheServer();
      }
    } catch (error) {
      if (error instanceof Refused && error.status === 401) throw new SignInNeeded();
      throw error;
    }
    await crossOffPhoto(sha256);
  }

  async #sendSignature(entry: OutboxEntry): Promise<void> {
    const body = entry.body as Inspection;
    const asked = {
      method: "POST" as const,
      headers: { "Idempotency-Key": entry.idempotency_key },
      body: { document: body },
      timeoutMs: 60_000,
    };
    try {
      const answer = await this.#ask<{ difference?: unknown[] | null; noticed?: Noticed[] }>(`/sync/documents/${body.id}/signature`, asked);
      const seal = sealReceipt(answer.body);
      if (!seal) throw notTheServer();
      await noteSeal(body.id, seal, answer.body.difference ?? null, answer.body.noticed ?? []);
    } catch (error) {
      if (error instanceof Refused) await this.#onRefusedSignature(entry, error);
      throw error;
    }
  }

  async #onRefusedSignature(entry: OutboxEntry, error: Refused): Promise<void> {
    await this.#photosAgain(entry, error);
    await this.#onConflict(entry.delivery_id, error);
    if (error.status === 422) throw new OnHold(error.problem());
  }

  /** Photos that the server misses go again, ahead of what names them. */
  async #photosAgain(entry: OutboxEntry, error: Refused): Promise<void> {
    if (error.code !== "PHOTOS-MISSING") return;
    const missing = (error.facts.missing as string[] | undefined) ?? [];
    const gone = await queuePhotosAgain(missing, entry.delivery_id);
    if (gone.length > 0) throw new OnHold(photoGone());
    this.#again = true;
    // once at once; should the server go on missing what it says it holds, then with growing waits
    if (entry.attempts === 0) throw new NotYet(error.problem());
  }

  async #sendAddendum(entry: OutboxEntry): Promise<void> {
    const addendum = entry.body as Addendum;
    const path = `/sync/deliveries/${addendum.delivery_id}/addenda/${addendum.id}`;
    const answer = await this.#ask<unknown>(path, { method: "PUT", body: addendum }).catch(async (error: unknown) => {
      if (error instanceof Refused) await this.#photosAgain(entry, error);
      throw error;
    });
    const seal = sealReceipt(answer.body);
    if (!seal) throw notTheServer();
    if (addendum.kind === "put_away") {
      await changeDelivery(addendum.delivery_id, (delivery) => ({ ...delivery, put_away_seal: seal }));
    }
    await crossOffAddendum(addendum.id);
  }

  /** A check that the server cannot file, ever, waits for a person; of another site's it may be sent by the next one. */
  async #sendCheck(check: IceCheck): Promise<void> {
    try {
      const path = `/sync/thermometers/${check.thermometer_id}/checks/${check.id}`;
      const answer = await this.#ask<unknown>(path, { method: "PUT", body: check });
      if (!isCheckReceipt(answer.body, check.id)) throw notTheServer();
    } catch (error) {
      if (error instanceof Refused && (error.status === 422 || error.code === "CHECK-OTHER")) throw new OnHold(error.problem());
      throw error;
    }
    await crossOffIceCheck(check.id);
  }
}
