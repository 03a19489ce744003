// Mirror of inspections/trade/delivered.py.

import { judgeChecks } from "./checks";
import type { DeliveryFacts, LineFacts } from "./facts";
import { againstItsLimit, finding, Judged, type Finding } from "./findings";
import { isFineFor, type Limits } from "./limits";
import { judgeThermometer } from "./temperature";

export function cartonCountFindings(line: LineFacts, limits: Limits): Finding[] {
  const { cartons_on_docket: docket, cartons_counted: counted } = line;
  if (docket === null || counted === null) return [];
  const limit = limits.get("cartons_short");
  const short = docket - counted;
  const facts = { docket_cartons: docket, counted_cartons: counted };
  if (!isFineFor(limit, short)) return [againstItsLimit("CARTONS-SHORT", limit, short, { ...facts, short })];
  if (short < 0) {
    return [finding("CARTONS-OVER", limits.get("cartons_over"), { facts: { ...facts, over: 0 - short } })];
  }
  return [];
}

export function vehicleFindings(delivery: DeliveryFacts, limits: Limits): Finding[] {
  const judged = new Judged();
  judgeChecks(judged, "vehicle", delivery.seen, limits);
  if (delivery.seen["air_c"] !== null) {
    judgeThermometer(judged, delivery.air_thermometer, delivery.arrived_day, limits, "air");
  }
  return judged.findings;
}
