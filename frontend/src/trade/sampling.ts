// Mirror of inspections/trade/sampling.py.

import plans from "@trade-data/plans.json";
import type { Basis } from "./basis";
import { chanceOfAcceptance, chanceOfDouble, mostBadLeft, oneInFive } from "./chances";
import { type Facts, UnusablePlan } from "./quantities";

export const ISO_NAMES = ["iso_s1", "iso_s2", "iso_s3", "iso_s4", "iso_1", "iso_2", "iso_3"] as const;
const DOUBLE = "_double";
export const PLAN_NAMES = [
  ...(["house", "codex_1", "codex_2", ...ISO_NAMES] as const),
  ...ISO_NAMES.map((name): `${(typeof ISO_NAMES)[number]}_double` => `${name}_double`),
] as const;
export const INSPECTIONS = ["normal", "tightened", "reduced"] as const;
export const DEFAULT_AQL = "6.5";
export const MAX_LOT = 1000000;

export type PlanName = (typeof PLAN_NAMES)[number];
export type InspectionKind = (typeof INSPECTIONS)[number];
export type Plan = {
  name: string;
  lot: number;
  n: number;
  acceptance: number;
  rejection: number;
  letter: string | null;
  is_every_carton: boolean;
  basis: Basis;
};
export type SampleShows = {
  lot: number;
  opened: number;
  defective: number;
  upper_bad: number;
  bad_if_one_in_five: number;
  miss_chance: number;
};

type Cell = [number, number, number];

export function planFor(
  name: string,
  lot: number,
  unitNetG: number | null = null,
  aql: string = DEFAULT_AQL,
  inspection: string = "normal",
): Plan {
  const isKnown = (PLAN_NAMES as readonly string[]).includes(name) && plans.iso.aql.includes(aql);
  if (!isKnown || !(INSPECTIONS as readonly string[]).includes(inspection)) {
    throw new UnusablePlan("SAMPLE-01", { plan: name });
  }
  if (typeof lot !== "number" || !Number.isInteger(lot) || lot < 1) throw new UnusablePlan("SAMPLE-02", { lot });
  if (lot > MAX_LOT) throw new UnusablePlan("SAMPLE-03", { lot, plan: name });
  if (name === "house") return house(lot, unitNetG);
  if (name === "codex_1" || name === "codex_2") return codex(name, lot, unitNetG);
  if (name.endsWith(DOUBLE)) return firstOfDouble(name, lot, aql);
  return iso(name, lot, aql, inspection as InspectionKind);
}

export type Second = { rejection: number; total: number; acceptance: number; basis: Basis };

export function secondStage(plan: Plan, unitNetG: number | null = null, aql: string = DEFAULT_AQL): Second | null {
  if (plan.is_every_carton) return null;
  if (plan.name === "house") {
    const row = plans.house.rows.find((each) => plan.lot <= each.lot_at_most)!;
    if (row.second === undefined) return null;
    const [more, rejection, acceptance] = row.second as [number, number, number];
    return { rejection, total: Math.min(plan.n + more, plan.lot), acceptance, basis: plans.house.basis_second as Basis };
  }
  if (plan.name === "codex_1") {
    const referee = codex("codex_2", plan.lot, unitNetG);
    const basis = plans.codex.basis.referee as Basis;
    return { rejection: referee.acceptance + 1, total: referee.n, acceptance: referee.acceptance, basis };
  }
  if (!plan.name.endsWith(DOUBLE)) return null;
  const single = iso(plan.name.slice(0, -DOUBLE.length), plan.lot, aql, "normal");
  const numbers = numbersOfDouble(single);
  if (numbers === null) return null;
  const basis = plans.iso.double.basis as Basis;
  return { rejection: numbers[1], total: Math.min(2 * plan.n, plan.lot), acceptance: numbers[2], basis };
}

export function chanceOfPassing(plan: Plan, bad: number, second: Second | null = null): number {
  if (second === null) return chanceOfAcceptance(plan.lot, bad, plan.n, plan.acceptance);
  const then: [number, number] = [second.total - plan.n, second.acceptance];
  return chanceOfDouble(plan.lot, bad, [plan.n, plan.acceptance, second.rejection], then);
}

function numbersOfDouble(single: Plan): Cell | null {
  const numbers = (plans.iso.double.numbers_of as unknown as Record<string, Cell>)[String(single.acceptance)];
  return numbers === undefined || single.is_every_carton ? null : numbers;
}

function firstOfDouble(name: string, lot: number, aql: string): Plan {
  const single = iso(name.slice(0, -DOUBLE.length), lot, aql, "normal");
  const numbers = numbersOfDouble(single);
  if (numbers === null) return { ...single, name };
  const firstN = (plans.iso.double.first_n_of as Record<string, number>)[String(single.n)]!;
  return resolved(name, lot, [firstN, numbers[0], numbers[1]], single.letter, plans.iso.double.basis as Basis);
}

export function isAccepted(plan: Plan, defective: number): boolean {
  return plan.rejection === plan.acceptance + 1 ? defective <= plan.acceptance : defective < plan.rejection;
}

export function whatASampleShows(lot: number, opened: number, defective: number): SampleShows {
  const bad = oneInFive(lot);
  return {
    lot,
    opened,
    defective,
    upper_bad: mostBadLeft(lot, opened, defective),
    bad_if_one_in_five: bad,
    miss_chance: chanceOfAcceptance(lot, bad, opened, 0),
  };
}

export type SamplingShown = {
  lot: number | null;
  opened: number;
  planned: number | null;
  acceptance: number;
  defective: number;
  upper_bad: number | null;
  miss_chance: number | null;
};

export function samplingShown(
  lot: number | null,
  opened: number,
  planned: number | null,
  acceptance: number,
  defective: number,
): SamplingShown {
  const told = { lot, opened, planned, acceptance, defective };
  if (lot === null || lot < 1 || !(defective >= 0 && defective <= opened && opened <= lot)) {
    return { ...told, upper_bad: null, miss_chance: null };
  }
  const facts = whatASampleShows(lot, opened, defective);
  return { ...told, upper_bad: facts.upper_bad, miss_chance: facts.miss_chance };
}

export function operatingCharacteristic(plan: Plan, bad: number[] | null = null): { bad: number; chance: number }[] {
  const steps = Math.min(plan.lot, 100);
  const points = bad ?? Array.from({ length: steps + 1 }, (_, i) => Math.floor((plan.lot * i) / steps));
  return points.map((each) => ({ bad: each, chance: chanceOfAcceptance(plan.lot, each, plan.n, plan.acceptance) }));
}

export function explainSample(plan: Plan, opened: number, defective: number): Facts {
  return {
    formula: "P(at most c) = sum over k = 0..c of C(D, k) C(N - D, n - k) / C(N, n)",
    numbers: { planned: plan.n, ...whatASampleShows(plan.lot, opened, defective) },
    limit: { acceptance: plan.acceptance, rejection: plan.rejection, plan: plan.name, letter: plan.letter },
    source: [plan.basis, plans.statement.basis],
  };
}

function house(lot: number, unitNetG: number | null): Plan {
  const row = plans.house.rows.find((each) => lot <= each.lot_at_most);
  if (row === undefined) return codex(plans.house.above as PlanName, lot, unitNetG);
  return resolved("house", lot, [row.n, row.acceptance, row.acceptance + 1], null, plans.house.basis as Basis);
}

function codex(name: string, lot: number, unitNetG: number | null): Plan {
  const classes = plans.codex.unit_at_most_g;
  let place = classes.length - 1;
  if (unitNetG !== null) place = classes.findIndex((most) => most === null || unitNetG <= most);
  const level = name === "codex_2" ? "level_2" : "level_1";
  const row = plans.codex.rows.find((each) => each.lot_at_most[place] === null || lot <= each.lot_at_most[place]!)!;
  const [n, acceptance] = row[level] as [number, number];
  const basis = plans.codex.basis[level === "level_2" && place === 0 ? "level_2_small" : "other"];
  return resolved(name, lot, [n, acceptance, acceptance + 1], null, basis as Basis);
}

function iso(name: string, lot: number, aql: string, inspection: InspectionKind): Plan {
  const { basis, basis_beyond, letters, read_to } = plans.iso;
  if (lot === 1) return resolved(name, 1, [1, 0, 1], null, basis as Basis);
  const place = plans.iso.levels.indexOf(name.slice(4));
  const row = letters.find((each) => each[1] === null || lot <= (each[1] as number))!;
  const letter = row[2 + place] as string;
  const tables = plans.iso[inspection] as Record<string, { own_n: number; cells: number[][] }>;
  const cell = tables[letter]!.cells[plans.iso.aql.indexOf(aql)] as Cell;
  const wasRead = letter <= read_to.letter && lot <= read_to.lot;
  return resolved(name, lot, cell, letter, (wasRead ? basis : basis_beyond) as Basis);
}

function resolved(name: string, lot: number, cell: Cell, letter: string | null, basis: Basis): Plan {
  const [n, acceptance, rejection] = cell;
  return { name, lot, n: Math.min(n, lot), acceptance, rejection, letter, is_every_carton: n >= lot, basis };
}
