/**
 * Checks of thermometers in ice that were filed on this phone. A check, its place in the outbox and its
 * standing as the thermometer's last are one transaction: a kill leaves all of it or nothing.
 */
import type { Reading } from "./document";
import type { OutboxEntry } from "./schema";
import { STRICT, database } from "./upgrades";

/** A check as it is sent. */
export interface IceCheck {
  id: string;
  thermometer_id: string;
  /** ISO 8601 with this place's offset; its calendar gives the day. */
  at: string;
  reading: Reading;
  person: { person_id: number; name: string };
  device_id: string;
}
/** The newest check of each thermometer that this phone filed, by the thermometer's id. */
export type IceChecks = Record<string, IceCheck>;

const KEY = "ice_checks";
const entryId = (id: string) => `check:${id}`;

export async function keptIceChecks(): Promise<IceChecks> {
  return ((await (await database()).get("kept", KEY))?.value as IceChecks | undefined) ?? {};
}

/** Keep a check and let it wait for the server; one that was filed already stays as it is. Answers all that are kept. */
export async function keepIceCheck(check: IceCheck): Promise<IceChecks> {
  const tx = (await database()).transaction(["outbox", "kept"], "readwrite", STRICT);
  const [outbox, keptStore] = [tx.objectStore("outbox"), tx.objectStore("kept")];
  const before = ((await keptStore.get(KEY))?.value as IceChecks | undefined) ?? {};
  if (before[check.thermometer_id]?.id === check.id) {
    await tx.done;
    return before;
  }
  const last = await outbox.index("by_order").openCursor(null, "prev");
  await outbox.put(entryOf(check, (last?.value.order ?? 0) + 1));
  const checks = { ...before, [check.thermometer_id]: check };
  await keptStore.put({ key: KEY, value: checks });
  await tx.done;
  return checks;
}

function entryOf(check: IceCheck, order: number): OutboxEntry {
  return {
    id: entryId(check.id),
    order,
    kind: "check",
    delivery_id: `thermometer:${check.thermometer_id}`,
    created_at: new Date().toISOString(),
    change: 0,
    body: check,
    idempotency_key: check.id,
    attempts: 0,
    next_try_at: 0,
    problem: null,
  };
}

/** Cross off a check: the server has said that it holds it. It goes on counting on this phone. */
export async function crossOffIceCheck(id: string): Promise<void> {
  await (await database()).delete("outbox", entryId(id));
}

/** Take off a check that the server will not have, as a person chose; it no longer counts. Answers what is left. */
export async function discardIceCheck(check: IceCheck): Promise<IceChecks> {
  const tx = (await database()).transaction(["outbox", "kept"], "readwrite", STRICT);
  const checks = { ...((await tx.objectStore("kept").get(KEY))?.value as IceChecks | undefined) };
  if (checks[check.thermometer_id]?.id === check.id) delete checks[check.thermometer_id];
  await tx.objectStore("kept").put({ key: KEY, value: checks });
  await tx.objectStore("outbox").delete(entryId(check.id));
  await tx.done;
  return checks;
}
