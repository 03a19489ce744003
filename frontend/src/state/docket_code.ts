/** What the QR code of a docket says, put together without a signal; mirror of inspections/evidence/anchors.py. */
import type { Reference } from "../trade/types";

const DIGITS = 16;

interface Known {
  number: number;
  sha256: string;
}

/** The record's own seal once it has one, else the newest of its site that the server told of; null before the first. */
export function sealKnown(own: Known | null | undefined, siteId: string, reference: Reference | null): Known | null {
  return own ?? reference?.latest_seals?.find(({ site_id }) => site_id === siteId) ?? null;
}

/** The address, with the seal behind the #, which browsers do not send. */
export function docketAddress(id: string, seal: Known | null, reference: Reference | null, origin: string): string {
  const address = `${reference?.public_address || origin}/e/docket/${id}`;
  return seal ? `${address}#seal-${seal.number}-${seal.sha256.slice(0, DIGITS)}` : address;
}
