// Mirror of inspections/trade/specification.py.

import { Reader } from "./entries";
import { isSoftAndBroken } from "./grades";
import { choicesOf, packOf } from "./registry";
import type { Unusable } from "./types";

export const MARKETS = ["EU", "US", "ANZ", "CODEX"];
export const PACKS = ["lined_carton", "sealed_bags"];
export const WITHOUT_MARKS = ["PUD", "PD", "PPV"];

export interface Ordered {
  id: string;
  name: string;
  species_code: string;
  presentation: string;
  state: string;
  grade: string;
  carton_net_g: number;
  units_per_carton: number;
  declared_glaze_percent: number | null;
  origin: string[];
  method: string | null;
  market: string;
  pack: string;
  min_life_share: number | null;
  overrides: Record<string, unknown>;
}

export const unitNetG = (ordered: Ordered): number => ordered.carton_net_g / ordered.units_per_carton;
export const orderedSoftAndBroken = (ordered: Ordered): boolean => isSoftAndBroken(ordered.grade);

function readNumber(reader: Reader, value: unknown, path: string, low: number, high: number): number | null {
  if (value === null || value === undefined) return null;
  if (typeof value !== "number") {
    reader.refuse(path, "FACT-01", { expected: "number" });
    return null;
  }
  if (!(low < value && value <= high)) {
    reader.refuse(path, "FACT-03", { low, high });
    return null;
  }
  return value + 0;
}

function readOrdered(reader: Reader, value: unknown, path: string): Ordered | null {
  const entry = reader.record(value, path);
  if (entry === null) return null;
  const overrides = reader.record(entry.overrides, `${path}.overrides`);
  const origin = reader.items(entry.origin, `${path}.origin`) ?? [];
  const presentation = reader.word(entry.presentation, `${path}.presentation`, choicesOf("presentation"));
  const state = reader.word(entry.state, `${path}.state`, choicesOf("state"));
  const market = reader.word(entry.market, `${path}.market`, MARKETS);
  const pack = reader.word(entry.pack, `${path}.pack`, PACKS);
  const netG = readNumber(reader, entry.carton_net_g, `${path}.carton_net_g`, 0, 100000);
  const units = reader.whole(entry.units_per_carton, `${path}.units_per_carton`, 1, 1000);
  if (presentation === null || state === null || market === null || netG === null || units === null) return null;
  return {
    id: reader.text(entry.id, `${path}.id`),
    name: reader.text(entry.name, `${path}.name`),
    species_code: reader.text(entry.species_code, `${path}.species_code`),
    presentation,
    state,
    grade: reader.text(entry.grade, `${path}.grade`),
    carton_net_g: netG,
    units_per_carton: units,
    declared_glaze_percent: readNumber(reader, entry.declared_glaze_percent, `${path}.declared_glaze_percent`, -1e-9, 99),
    origin: origin.map((one) => reader.text(one, `${path}.origin`)).filter((text) => text !== ""),
    method: reader.word(entry.method, `${path}.method`, choicesOf("method")),
    market,
    pack: packOf({ pack, units_per_carton: units, presentation }),
    min_life_share: readNumber(reader, entry.min_life_share, `${path}.min_life_share`, -1e-9, 1),
    overrides: overrides ?? {},
  };
}

export function specificationsFromJson(values: unknown): { byId: Map<string, Ordered>; unusable: Unusable[] } {
  const reader = new Reader();
  const byId = new Map<string, Ordered>();
  (reader.items(values, "specifications") ?? []).forEach((value, i) => {
    const ordered = readOrdered(reader, value, `specifications[${i}]`);
    if (ordered !== null && !byId.has(ordered.id)) byId.set(ordered.id, ordered);
  });
  return { byId, unusable: reader.unusable };
}
