/** New documents, lines and cartons, with every check still "not checked". */
import { uuidv7 } from "uuidv7";
import type { Carton, Inspection, Label, Line, Specification, Vehicle } from "../store/document";
import { EMPTY_NOTES, saveDocument } from "../store/documents";
import type { ExpectedOrder, Me, Reference } from "../trade/types";
import { unanswered } from "./plain_checks";
import { isoWithOffset } from "./clock.svelte";

export interface Start {
  me: Me;
  reference: Reference;
  device: string;
  siteId: string;
  order: ExpectedOrder | null;
}

export function newDocument({ me, reference, device, siteId, order }: Start): Inspection {
  return {
    schema: 1,
    id: uuidv7(),
    site_id: siteId,
    supplier_id: order?.supplier_id ?? "",
    order_id: order?.id ?? null,
    limits_id: reference.current_limits_id ?? "",
    docket_number: "",
    arrived_at: isoWithOffset(new Date()),
    receiver: { person_id: me.id, name: me.name },
    device_id: device,
    separate_from: null,
    vehicle: { ...unanswered<Pick<Vehicle, "air" | "load">>("vehicle"), seal_number: "", note: "" },
    lines: (order?.lines ?? []).map((line) => newLine(line.specification_id, line.cartons, line.id)),
    photos: [],
    wording: null,
    signatures: null,
    notes: "",
  };
}

/** Begin a delivery and keep it at once; answers its id. */
export async function beginDelivery(start: Start): Promise<string> {
  const body = newDocument(start);
  await saveDocument(body, { ...EMPTY_NOTES });
  return body.id;
}

export function newLine(specificationId: string, cartonsOnDocket: number, orderLineId: string | null): Line {
  return {
    id: uuidv7(),
    order_line_id: orderLineId,
    specification_id: specificationId,
    cartons_on_docket: cartonsOnDocket,
    cartons_counted: null,
    lot: "",
    sampling: null,
    cartons: [],
    suggested: null,
    decision: null,
  };
}

export function newCarton(position: number): Carton {
  return {
    ...unanswered<Carton>("carton"),
    id: uuidv7(),
    position,
    opened_at: isoWithOffset(new Date()),
    label: null,
    temperature: null,
    weights: {},
    sample: null,
    marks: null,
    note: "",
  };
}

/** A label that reads as the specification asks; the receiver confirms or corrects each particular. */
export function labelAsOrdered(specification: Specification | null, scientificName: string): Label {
  return {
    source: "typed",
    scan: "",
    species_code: specification?.species_code ?? "",
    scientific_name: scientificName,
    presentation: specification?.presentation ?? "",
    state: specification?.state ?? "",
    grade: specification?.grade ?? "",
    net: specification ? { entered: String(specification.carton_net_g / 1000), unit: "kg" } : null,
    lot: "",
    production_date: "",
    frozen_on: "",
    best_before: "",
    // where more than one origin is ordered, the label says which
    origin: specification?.origin.length === 1 ? specification.origin[0]! : "",
    catch_area: "",
    method: specification?.method ?? "",
    shows: [],
  };
}
