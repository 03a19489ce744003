// Mirror of inspections/trade/temperature.py, where the rules are explained in words.

import type { CartonFacts, ThermometerFacts } from "./carton_facts";
import { dayText } from "./entries";
import { finding, Judged, type Finding } from "./findings";
import { isFineFor, type Limits } from "./limits";
import type { Facts } from "./quantities";
import { thermometerOn, type Thermometer } from "./thermometer";
import type { Check, Limit, ThermometerSnapshot } from "./types";

export const BETWEEN_PACKS = "between_packs";
const EASED = [
  ["product_c.reject", "TEMP-REJECT"],
  ["product_c.tolerance", "TEMP-OUTSIDE"],
] as const;
const STANDING: Readonly<Record<string, readonly [code: string, limit: string, check: Check]>> = {
  overdue: ["TEMP-PROBE-OVERDUE", "thermometer.overdue", "beyond"],
  failed: ["TEMP-PROBE-FAILED", "thermometer.ice_point", "beyond"],
  unchecked: ["TEMP-PROBE-UNCHECKED", "thermometer.unknown", "cannot_tell"],
};

/** What a phone keeps with a reading, of a thermometer as the reference data tell it. */
export function thermometerSnapshot(row: {
  name: string;
  last_checked_on?: string | null;
  last_check_c?: number | null;
  check_due_on?: string | null;
}): ThermometerSnapshot {
  const ice = row.last_check_c ?? null;
  return {
    name: row.name,
    checked_at: row.last_checked_on ?? null,
    ice_point: ice === null ? null : { entered: String(ice), unit: "C" },
    due_at: row.check_due_on ?? null,
  };
}

export function allowanceC(probe: string | null, limits: Limits): number {
  return probe === BETWEEN_PACKS ? (limits.get("product_c.between_packs").bound ?? 0) : 0;
}

export function judgeProbe(carton: CartonFacts, arrivedDay: number | null, limits: Limits): Judged {
  const judged = new Judged();
  const measured = carton.product_c;
  judged.derived["product_c"] = measured;
  if (measured === null) {
    judged.leave("product_c", "thermometer");
    return judged;
  }
  const allowedC = allowanceC(carton.probe, limits);
  const typed = { typed: [...carton.product_typed] };
  if (isSignDoubtful(carton, limits)) {
    judged.checks["product_c"] = "cannot_tell";
    const facts = { ...typed, meant_c: -measured };
    judged.findings.push(finding("TEMP-SIGN", limits.get("product_c.sign"), { measured, unit: "C", facts }));
  } else if (carton.probe === "surface") {
    judged.checks["product_c"] = "cannot_tell";
    const rest = { measured, unit: "C", facts: typed };
    judged.findings.push(finding("TEMP-SURFACE", limits.get("product_c.surface"), rest));
  } else {
    judgeReading(judged, measured, allowedC, typed, limits);
    noteNearBound(judged, measured, allowedC, limits);
  }
  judgeThermometer(judged, carton.thermometer, arrivedDay, limits, "product");
  if (countsAsReading(carton, limits) && carton.thermometer !== null) {
    noteDoubt(judged, measured, carton.thermometer, allowedC, limits);
  }
  return judged;
}

export function isSignDoubtful(carton: CartonFacts, limits: Limits): boolean {
  const measured = carton.product_c;
  if (measured === null || measured <= 0 || carton.is_sign_sure) return false;
  return isFineFor(limits.get("product_c.reject"), -measured);
}

export function countsAsReading(carton: CartonFacts, limits: Limits): boolean {
  return carton.product_c !== null && carton.probe !== "surface" && !isSignDoubtful(carton, limits);
}

function temperatureFinding(code: string, limit: Limit, measured: number, met: Limit, facts: Facts): Finding {
  const { bound, sense } = met;
  return finding(code, limit, { measured, unit: "C", bound, sense, facts });
}

function judgeReading(judged: Judged, measured: number, allowedC: number, typed: Facts, limits: Limits): void {
  judged.checks["product_c"] = "within";
  for (const [code, found] of EASED) {
    const limit = limits.get(code);
    if (isFineFor(limit, measured - allowedC)) continue;
    judged.checks["product_c"] = "beyond";
    judged.findings.push(temperatureFinding(found, limit, measured, limit, { allowance_c: allowedC, ...typed }));
    return;
  }
  noteAllowance(judged, measured, allowedC, typed, limits);
  const within = limits.get("product_c.within");
  if (isFineFor(limits.get("product_c.tolerance"), measured) && !isFineFor(within, measured)) {
    judged.findings.push(temperatureFinding("TEMP-TOLERANCE", within, measured, within, { allowance_c: 0, ...typed }));
  }
}

function noteAllowance(judged: Judged, measured: number, allowedC: number, typed: Facts, limits: Limits): void {
  for (const [code] of EASED) {
    const limit = limits.get(code);
    if (isFineFor(limit, measured) || !isFineFor(limit, measured - allowedC)) continue;
    judged.checks["product_c"] = "cannot_tell";
    const own = limits.get("product_c.between_packs");
    judged.findings.push(temperatureFinding("TEMP-BETWEEN", own, measured, limit, { allowance_c: allowedC, ...typed }));
    return;
  }
}

function noteNearBound(judged: Judged, measured: number, allowedC: number, limits: Limits): void {
  const limit = limits.get("product_c.accuracy");
  const accuracy = limit.bound;
  for (const [code] of EASED) {
    const { bound, sense } = limits.get(code);
    if (bound === null || accuracy === null || !(Math.abs(measured - (bound + allowedC)) < accuracy)) continue;
    const facts = { accuracy_c: accuracy, allowance_c: allowedC };
    judged.findings.push(finding("TEMP-NEAR", limit, { measured, unit: "C", bound: bound + allowedC, sense, facts }));
    return;
  }
}

export function judgeThermometer(
  judged: Judged,
  thermometer: ThermometerFacts | null,
  day: number | null,
  limits: Limits,
  what: "product" | "air",
): void {
  if (thermometer === null) {
    judged.leave("thermometer");
    return;
  }
  const limit = limits.get("thermometer.ice_point");
  const standing = standingOf(thermometer, day, limit);
  if (standing.state === "passed") {
    judged.checks["thermometer"] = "within";
    return;
  }
  const [code, limitCode, check] = STANDING[standing.state]!;
  judged.checks["thermometer"] = check;
  const facts = { what, thermometer: thermometer.name, due_on: standing.due_on ?? "" };
  if (standing.state === "failed") {
    const ice = thermometer.ice_c ?? 0;
    const rest = { measured: Math.abs(ice), unit: "degrees", bound: limit.bound, sense: limit.sense };
    judged.findings.push(finding(code, limit, { ...rest, facts: { ...facts, ice_c: ice } }));
  } else {
    judged.findings.push(finding(code, limits.get(limitCode), { facts }));
  }
}

export function standingOf(thermometer: ThermometerFacts, day: number | null, limit: Limit): Thermometer {
  const checked = thermometer.checked_day;
  const today = day ?? checked;
  return thermometerOn(
    today === null ? "0001-01-01" : dayText(today),
    checked === null ? null : dayText(checked),
    thermometer.ice_c,
    thermometer.due_day === null ? null : dayText(thermometer.due_day),
    limit.bound ?? 0,
  );
}

function noteDoubt(judged: Judged, measured: number, thermometer: ThermometerFacts, allowedC: number, limits: Limits): void {
  if (thermometer.ice_c === null) return;
  const corrected = measured - thermometer.ice_c;
  const bounds = [
    ["product_c.reject", allowedC],
    ["product_c.tolerance", allowedC],
    ["product_c.within", 0],
  ] as const;
  for (const [code, easedC] of bounds) {
    const limit = limits.get(code);
    if (isFineFor(limit, measured - easedC) === isFineFor(limit, corrected - easedC)) continue;
    if (judged.checks["product_c"] === "within") judged.checks["product_c"] = "cannot_tell";
    const facts = {
      ice_c: thermometer.ice_c,
      corrected_c: corrected,
      allowance_c: easedC,
      thermometer: thermometer.name,
    };
    const { bound, sense } = limit;
    const rest = { measured, unit: "C", bound, sense, facts };
    judged.findings.push(finding("TEMP-PROBE-DOUBT", limits.get("thermometer.doubt"), rest));
    return;
  }
}

export function unknownThermometers(cartons: readonly CartonFacts[], limits: Limits): Finding[] {
  const readings = cartons.filter((carton) => carton.product_c !== null);
  const unknown = readings.filter((carton) => carton.thermometer === null).length;
  if (unknown === 0) return [];
  const facts = { unknown, readings: readings.length };
  return [finding("TEMP-PROBE-UNKNOWN", limits.get("thermometer.unknown"), { facts })];
}
