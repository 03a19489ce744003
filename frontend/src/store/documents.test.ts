import { uuidv7 } from "uuidv7";
import { beforeEach, expect, test } from "vitest";
import { SIGNATURES, delivery, emptyPhone, restart } from "../testing/cast";
import {
  EMPTY_NOTES,
  SignedAlready,
  closeForSigning,
  continueWithOther,
  deliveryById,
  discardDraft,
  allDeliveries,
  keepAddendum,
  keepMine,
  noteSeal,
  reopenDraft,
  saveDocument,
} from "./documents";
import { oldestFirst } from "./outbox";

beforeEach(emptyPhone);
const notes = () => ({ ...EMPTY_NOTES });

test("a change and its place in the outbox survive a killed browser", async () => {
  const body = delivery();
  await saveDocument(body, notes());
  await restart();
  expect((await deliveryById(body.id))?.body).toEqual(body);
  expect((await oldestFirst()).map(({ id }) => id)).toEqual([`document:${body.id}`]);
});

test("many changes of one document wait once, as old as the first", async () => {
  const body = delivery();
  await saveDocument(body, notes());
  const [first] = await oldestFirst();
  await saveDocument({ ...body, notes: "wet corner" }, notes());
  const [entry, ...rest] = await oldestFirst();
  expect(rest).toEqual([]);
  expect(entry).toMatchObject({ created_at: first!.created_at, order: first!.order, change: 2 });
});

test("after signing nothing changes the document any more", async () => {
  const body = delivery();
  await saveDocument(body, notes());
  await closeForSigning(body.id, SIGNATURES, uuidv7());
  await expect(saveDocument({ ...body, notes: "later" }, notes())).rejects.toBeInstanceOf(SignedAlready);
  await expect(closeForSigning(body.id, SIGNATURES, uuidv7())).rejects.toBeInstanceOf(SignedAlready);
  expect((await deliveryById(body.id))?.body.notes).toBe("");
});

test("the signature waits behind the document, the put-away behind both", async () => {
  const body = delivery();
  await saveDocument(body, notes());
  await closeForSigning(body.id, SIGNATURES, uuidv7());
  const person = { person_id: 1, name: "Mara" };
  const addendum = {
    id: uuidv7(),
    delivery_id: body.id,
    kind: "put_away" as const,
    at: "",
    person,
    device_id: "",
    body: { cartons: [], freezer_air: null },
  };
  await keepAddendum(addendum);
  expect((await oldestFirst()).map(({ kind }) => kind)).toEqual(["document", "signature", "addendum"]);
  expect((await deliveryById(body.id))?.put_away).toEqual(addendum);
});

test("reopening takes both signatures off and the signature out of the outbox", async () => {
  const body = delivery();
  await saveDocument(body, notes());
  await closeForSigning(body.id, SIGNATURES, uuidv7());
  await reopenDraft(body.id);
  expect((await deliveryById(body.id))?.state).toBe("draft");
  expect((await deliveryById(body.id))?.body.signatures).toBeNull();
  expect((await oldestFirst()).map(({ kind }) => kind)).toEqual(["document"]);
});

test("only an empty draft that the server never saw can be discarded", async () => {
  const empty = delivery({ docket_number: "" });
  await saveDocument(empty, notes());
  expect(await discardDraft(empty.id)).toBe(true);
  expect(await oldestFirst()).toEqual([]);
  const load = { air: null, load: "sound" as const, seal_number: "", note: "" };
  for (const begun of [
    delivery({ docket_number: "", vehicle: load }),
    delivery({ docket_number: "DN-1" }),
    delivery({ docket_number: "", vehicle: { ...load, load: null, seal_number: "S-9" } }),
    delivery({ docket_number: "", lines: [{ ...delivery().lines[0]!, lot: "L-1" }] }),
    delivery({ docket_number: "", order_id: null }),
  ]) {
    await saveDocument(begun, notes());
    expect(await discardDraft(begun.id)).toBe(false);
    expect(await deliveryById(begun.id)).not.toBeNull();
  }
});

test("continuing with the other phone's sets mine aside and loses neither", async () => {
  const mine = delivery({ notes: "mine" });
  await saveDocument(mine, notes());
  const other = delivery({ id: mine.id, notes: "theirs" });
  await continueWithOther(mine.id, { body: other, revision: 7 }, "aside-1");
  expect(await deliveryById(mine.id)).toMatchObject({ body: { notes: "theirs" }, revision: 7, state: "draft" });
  expect(await deliveryById("aside-1")).toMatchObject({ body: { notes: "mine" }, state: "set_aside" });
  expect(await oldestFirst()).toEqual([]);
});

test("mine as a separate record names the other and starts without a revision", async () => {
  const mine = delivery();
  await saveDocument(mine, notes());
  await keepMine(mine.id, { id: "new-id", revision: null, replace: false, separate_from: mine.id });
  expect(await deliveryById(mine.id)).toBeNull();
  expect(await deliveryById("new-id")).toMatchObject({ revision: null, body: { id: "new-id", separate_from: mine.id } });
  expect((await oldestFirst()).map(({ id }) => id)).toEqual(["document:new-id"]);
});

test("the seal closes the delivery and clears what waited for it", async () => {
  const body = delivery();
  await saveDocument(body, notes());
  await closeForSigning(body.id, SIGNATURES, uuidv7());
  const seal = { number: 4, sha256: "a".repeat(64), previous_sha256: null, signature: "s", public_key_id: "k", sealed_at: "" };
  await noteSeal(body.id, seal, null);
  expect(await oldestFirst()).toEqual([]);
  expect((await allDeliveries())[0]).toMatchObject({ state: "sealed", seal });
});
