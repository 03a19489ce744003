// Mirror of inspections/trade/facts.py.

import { MAX_CARTONS, readCarton, readThermometer, type CartonFacts, type ThermometerFacts } from "./carton_facts";
import { readChecks, type Seen } from "./checks";
import { Reader } from "./entries";
import type { Unusable } from "./types";

export const DECISIONS = ["accept", "accept_with_allowance", "hold", "reject"];

export interface DecisionFacts {
  kind: string;
  accepted: number;
  refused: number;
  held: number;
}
export interface SortedFacts {
  read: number;
  differ: number;
}
export interface LineFacts {
  id: string;
  specification_id: string;
  cartons_on_docket: number | null;
  cartons_counted: number | null;
  lot: string;
  plan: string | null;
  planned: number | null;
  acceptance: number | null;
  declined: string;
  sorted_by_label: SortedFacts | null;
  left_out: [check: string, reason: string][];
  decision: DecisionFacts | null;
  cartons: CartonFacts[];
}
export interface DeliveryFacts {
  limits_id: string;
  docket_number: string;
  arrived_day: number | null;
  air_thermometer: ThermometerFacts | null;
  seen: Seen;
  lines: LineFacts[];
  unusable: Unusable[];
}

function readDecision(reader: Reader, value: unknown, path: string, counted: number | null): DecisionFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) return null;
  const kind = reader.word(entry.kind, `${path}.kind`, DECISIONS);
  const accepted = reader.whole(entry.accepted, `${path}.accepted`, 0, MAX_CARTONS);
  const refused = reader.whole(entry.refused, `${path}.refused`, 0, MAX_CARTONS);
  const held = reader.whole(entry.held, `${path}.held`, 0, MAX_CARTONS);
  if (kind === null || accepted === null || refused === null || held === null) return null;
  if (counted !== null && accepted + refused + held !== counted) {
    reader.refuse(path, "FACT-06", { sum: accepted + refused + held, counted });
    return null;
  }
  return { kind, accepted, refused, held };
}

function readSorted(reader: Reader, value: unknown, path: string): SortedFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) return null;
  const read = reader.whole(entry.read, `${path}.read`, 1, MAX_CARTONS);
  const differ = reader.whole(entry.differ, `${path}.differ`, 0, MAX_CARTONS);
  if (read === null || differ === null) return null;
  if (differ > read) {
    reader.refuse(`${path}.differ`, "FACT-08", { differ, read });
    return null;
  }
  return { read, differ };
}

function readLeftOut(reader: Reader, value: unknown, path: string): [check: string, reason: string][] {
  const told: [check: string, reason: string][] = [];
  (reader.items(value, path) ?? []).forEach((one, i) => {
    const entry = reader.record(one, `${path}[${i}]`) ?? {};
    const check = reader.text(entry.check, `${path}[${i}].check`);
    const reason = reader.text(entry.reason, `${path}[${i}].reason`);
    if (check && reason && !told.some(([name]) => name === check)) told.push([check, reason]);
  });
  return told;
}

function readLine(reader: Reader, value: unknown, path: string): LineFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) {
    if (value === null || value === undefined) reader.refuse(path, "FACT-01", { expected: "object" });
    return null;
  }
  const drawn = reader.record(entry.sampling, `${path}.sampling`) ?? {};
  const cartons = reader.items(entry.cartons, `${path}.cartons`) ?? [];
  const read = cartons.map((carton, i) => readCarton(reader, carton, `${path}.cartons[${i}]`));
  const counted = reader.whole(entry.cartons_counted, `${path}.cartons_counted`, 0, MAX_CARTONS);
  return {
    id: reader.text(entry.id, `${path}.id`),
    specification_id: reader.text(entry.specification_id, `${path}.specification_id`),
    cartons_on_docket: reader.whole(entry.cartons_on_docket, `${path}.cartons_on_docket`, 0, MAX_CARTONS),
    cartons_counted: counted,
    lot: reader.text(entry.lot, `${path}.lot`),
    plan: reader.text(drawn.plan, `${path}.sampling.plan`) || null,
    planned: reader.whole(drawn.n, `${path}.sampling.n`, 0, MAX_CARTONS),
    acceptance: reader.whole(drawn.acceptance, `${path}.sampling.acceptance`, 0, MAX_CARTONS),
    declined: reader.text(drawn.declined, `${path}.sampling.declined`),
    sorted_by_label: readSorted(reader, entry.sorted, `${path}.sorted`),
    left_out: readLeftOut(reader, entry.left_out, `${path}.left_out`),
    decision: readDecision(reader, entry.decision, `${path}.decision`, counted),
    cartons: read.filter((carton) => carton !== null),
  };
}

export function factsFromDocument(document: unknown): DeliveryFacts {
  const reader = new Reader();
  const entry = reader.record(document, "") ?? {};
  if (document === null || document === undefined) reader.refuse("", "FACT-01", { expected: "object" });
  const vehicle = reader.record(entry.vehicle, "vehicle") ?? {};
  const lines = reader.items(entry.lines, "lines") ?? [];
  const read = lines.map((line, i) => readLine(reader, line, `lines[${i}]`));
  return {
    limits_id: reader.text(entry.limits_id, "limits_id"),
    docket_number: reader.text(entry.docket_number, "docket_number"),
    arrived_day: reader.day(entry.arrived_at, "arrived_at"),
    air_thermometer: readThermometer(reader, vehicle.thermometer, "vehicle.thermometer"),
    seen: readChecks(reader, vehicle, "vehicle", "vehicle"),
    lines: read.filter((line) => line !== null),
    unusable: reader.unusable,
  };
}
