import { flushSync } from "svelte";
import { beforeEach, expect, test, vi } from "vitest";
import { delivery, emptyPhone, restart } from "../testing/cast";
import { deliveryById } from "../store/documents";
import { oldestFirst } from "../store/outbox";
import { database } from "../store/upgrades";
import { undo } from "./undo.svelte";
import { waiting } from "./waiting.svelte";
import { Walk } from "./walk.svelte";

beforeEach(async () => {
  await emptyPhone();
  vi.spyOn(waiting, "nudge").mockImplementation(() => undefined);
  undo.clear();
});

test("each tap is on the disk before the next screen, and a killed browser resumes with it", async () => {
  const walk = new Walk(delivery());
  await walk.change({ said: "Load: sound", document: (draft) => void (draft.vehicle.load = "sound") });
  await restart();
  const again = await Walk.open(walk.id);
  expect(again?.body.vehicle.load).toBe("sound");
  expect(again?.step("load")?.state).toBe("answered");
});

test("an accidental tap is taken back, on the screen and on the disk", async () => {
  const walk = new Walk(delivery());
  await walk.change({ said: "Load: sound", document: (draft) => void (draft.vehicle.load = "sound") });
  await walk.change({ said: "Load: dirty", document: (draft) => void (draft.vehicle.load = "dirty") });
  expect(undo.last).toMatchObject({ said: "Load: dirty", kept: true });
  await undo.run();
  expect(walk.body.vehicle.load).toBe("sound");
  expect((await deliveryById(walk.id))?.body.vehicle.load).toBe("sound");
});

test("a carton enters the record with its first answer and not before", async () => {
  const walk = new Walk(delivery());
  await walk.changeCarton("line-1", 3, "41 pieces", (carton) => void (carton.looked_at = 41));
  await walk.changeCarton("line-1", 3, "again", (carton) => void (carton.odour = "sound"));
  const [carton, ...others] = walk.body.lines[0]!.cartons;
  expect(others).toEqual([]);
  expect(carton).toMatchObject({ position: 3, looked_at: 41, odour: "sound", liner: null, label: null, pieces: {} });
});

test("words for the docket fall away when the facts under them change", async () => {
  const walk = new Walk(delivery({ wording: { text: "6 accepted", copied_at: "" } }));
  await walk.change({ said: "note", document: (draft) => void (draft.notes = "x") });
  expect(walk.body.wording).not.toBeNull();
  await walk.change({ said: "5 counted", document: (draft) => void (draft.lines[0]!.cartons_counted = 5) });
  expect(walk.body.wording).toBeNull();
});

test("a verdict falls away when its line's facts change, and only that line's", async () => {
  const decision = { kind: "accept" as const, accepted: 6, refused: 0, held: 0, reason: "", decided_at: "" };
  const body = delivery();
  body.lines = [
    { ...body.lines[0]!, decision },
    { ...body.lines[0]!, id: "line-2", cartons: [], decision },
  ];
  const walk = new Walk(body);
  await walk.changeCarton("line-2", 3, "frost", (carton) => void (carton.frost = "heavy"));
  expect(walk.body.lines.map((line) => line.decision)).toEqual([decision, null]);
});

test("a full phone says so where the person looks, keeps the entry on the screen, and can try again", async () => {
  const walk = new Walk(delivery());
  const db = await database();
  const full = vi.spyOn(db, "transaction").mockImplementation(() => {
    throw new DOMException("no space", "QuotaExceededError");
  });
  await walk.change({ said: "Load: wet", document: (draft) => void (draft.vehicle.load = "wet") });
  flushSync();
  expect(walk.failure).toContain("This phone is full");
  expect(walk.body.vehicle.load).toBe("wet");
  expect(undo.last?.kept).toBe(false);
  full.mockRestore();
  await walk.saveAgain();
  expect(walk.failure).toBeNull();
  expect((await deliveryById(walk.id))?.body.vehicle.load).toBe("wet");
});

test("signing closes the draft with both signatures and queues document and signature", async () => {
  const walk = new Walk(delivery());
  await walk.change({ said: "x", document: (draft) => void (draft.notes = "x") });
  await walk.saveNotesOnly((draft) => {
    draft.receiver_signature = { name: "Mara", strokes: [], at: "" };
    draft.driver_signature = { refused: true, reason: "hurry", at: "" };
  });
  await walk.sign();
  expect(walk.isDraft).toBe(false);
  expect(walk.body.signatures?.receiver.name).toBe("Mara");
  expect((await oldestFirst()).map(({ kind }) => kind)).toEqual(["document", "signature"]);
  await walk.change({ said: "late", document: (draft) => void (draft.notes = "late") });
  expect(walk.failure).toContain("signed");
  expect((await deliveryById(walk.id))?.body.notes).toBe("x");
});
