/** For tests: a clean database, and a delivery of our own invention. */
import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { uuidv7 } from "uuidv7";
import type { Inspection } from "../store/document";
import { closeDatabase } from "../store/upgrades";

export async function emptyPhone(): Promise<void> {
  await closeDatabase();
  globalThis.indexedDB = new IDBFactory();
}

/** The page is gone and opened anew, as after a killed browser; the disk stays. */
export const restart = closeDatabase;

export function delivery(edit: Partial<Inspection> = {}): Inspection {
  return {
    schema: 1,
    id: uuidv7(),
    site_id: "site-1",
    supplier_id: "supplier-1",
    order_id: "order-1",
    limits_id: "limits-1",
    docket_number: "DN-5530",
    arrived_at: "2026-11-25T06:10:00+11:00",
    receiver: { person_id: 1, name: "Mara" },
    device_id: "device-1",
    separate_from: null,
    vehicle: { air: null, load: null, seal_number: "", note: "" },
    lines: [
      {
        id: "line-1",
        order_line_id: null,
        specification_id: "specification-1",
        cartons_on_docket: 6,
        cartons_counted: null,
        lot: "",
        sampling: null,
        cartons: [],
        suggested: null,
        decision: null,
      },
    ],
    photos: [],
    wording: null,
    signatures: null,
    notes: "",
    ...edit,
  };
}

export const SIGNATURES = {
  receiver: { name: "Mara", strokes: [[[0.1, 0.2, 0]]] as [number, number, number][][], at: "2026-11-25T06:20:00Z" },
  driver: { refused: true as const, reason: "in a hurry", at: "2026-11-25T06:20:00Z" },
};

export const bytesOf = (text: string): ArrayBuffer => new TextEncoder().encode(text).buffer as ArrayBuffer;
