// Mirror of inspections/trade/findings.py.

import { isFineFor } from "./limits";
import type { Facts } from "./quantities";
import type { Check, Limit, Sense } from "./types";

export interface Finding {
  code: string;
  limit: Limit;
  measured: number | null;
  unit: string | null;
  bound: number | null;
  sense: Sense | null;
  facts: Facts;
}

export function finding(code: string, limit: Limit, rest: Partial<Omit<Finding, "code" | "limit">> = {}): Finding {
  return { code, limit, measured: null, unit: null, bound: null, sense: null, facts: {}, ...rest };
}

export function againstItsLimit(code: string, limit: Limit, measured: number, facts: Facts = {}): Finding {
  return finding(code, limit, { measured, unit: limit.unit, bound: limit.bound, sense: limit.sense, facts });
}

export class Judged {
  readonly checks: Record<string, Check> = {};
  readonly findings: Finding[] = [];
  readonly derived: Record<string, number | null> = {};

  see(name: string, isSeen: boolean, code: string, limit: Limit, facts: Facts = {}): void {
    this.checks[name] = isSeen ? "beyond" : "within";
    if (isSeen) this.findings.push(finding(code, limit, { facts }));
  }

  measure(name: string, measured: number, code: string, limit: Limit, facts: Facts = {}): boolean {
    const fine = isFineFor(limit, measured);
    this.checks[name] = fine ? "within" : "beyond";
    if (!fine) this.findings.push(againstItsLimit(code, limit, measured, facts));
    return !fine;
  }

  leave(...names: string[]): void {
    for (const name of names) this.checks[name] = "not_checked";
  }

  join(other: Judged): void {
    Object.assign(this.checks, other.checks);
    this.findings.push(...other.findings);
    Object.assign(this.derived, other.derived);
  }
}
