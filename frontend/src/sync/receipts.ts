/**
 * What counts as the server's receipt. Anything else keeps the entry: a 200 from a café's
 * sign-in page must never cross a signed record off.
 */
import type { Seal } from "../store/document";

const SHA256 = /^[0-9a-f]{64}$/;

/** The revision under which the server now holds the document, or null when this is no receipt. */
export function revisionReceipt(body: unknown): number | null {
  const revision = (body as { revision?: unknown } | null)?.revision;
  return typeof revision === "number" && Number.isInteger(revision) && revision >= 1 ? revision : null;
}

/** Whether the server says that it holds the check of this id. */
export function isCheckReceipt(body: unknown, id: string): boolean {
  const check = (body as { check?: { id?: unknown; passed?: unknown } } | null)?.check;
  return check?.id === id && typeof check.passed === "boolean";
}

/** The seal, or null when this is no receipt. */
export function sealReceipt(body: unknown): Seal | null {
  const seal = (body as { seal?: Partial<Seal> } | null)?.seal;
  if (!seal || typeof seal.sha256 !== "string" || !SHA256.test(seal.sha256)) return null;
  if (typeof seal.number !== "number" || typeof seal.signature !== "string" || !seal.signature) return null;
  return seal as Seal;
}
