/** The receiver's three ways out when another phone was on the same docket. Nothing is overwritten. */
import { uuidv7 } from "uuidv7";
import { continueWithOther, keepMine, takeOver } from "../store/documents";
import type { StoredDelivery } from "../store/schema";
import { fetchDocument } from "../sync/reference";
import { waiting } from "./waiting.svelte";

/** Take the other phone's version; this phone's is set aside, not lost. Answers the id to go on with. */
export async function continueWithTheOther(delivery: StoredDelivery): Promise<string> {
  const conflict = delivery.conflict!;
  const other = await fetchDocument(conflict.other_id);
  await continueWithOther(delivery.id, other, uuidv7());
  waiting.nudge();
  return other.body.id;
}

/** Put this phone's version on top; the server keeps the other's as an earlier revision. */
export async function putMineOnTop(delivery: StoredDelivery): Promise<string> {
  const { other_id } = delivery.conflict!;
  const { revision } = await fetchDocument(other_id);
  const separate_from = delivery.body.separate_from;
  await keepMine(delivery.id, { id: other_id, revision, replace: true, separate_from });
  waiting.nudge();
  return other_id;
}

/** Send this phone's version as a record of its own; both stay. Needs no signal. */
export async function sendMineSeparately(delivery: StoredDelivery): Promise<string> {
  const { other_id } = delivery.conflict!;
  const id = other_id === delivery.id ? uuidv7() : delivery.id;
  // An unnamed draft may be on the server already: under its own id it goes on from its own revision.
  const revision = id === delivery.id ? delivery.revision : null;
  await keepMine(delivery.id, { id, revision, replace: false, separate_from: other_id });
  waiting.nudge();
  return id;
}

/** Go on here with what another phone began. Throws without a signal. */
export async function takeOverDocument(id: string): Promise<void> {
  const { body, revision } = await fetchDocument(id);
  await takeOver(body, revision);
}
