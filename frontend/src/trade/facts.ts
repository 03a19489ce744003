// Mirror of inspections/trade/facts.py.

import { Reader } from "./entries";
import { MAX_PIECES } from "./quantities";
import type { Unusable } from "./types";

export const LINERS = ["closed", "open", "torn", "missing"];
export const FROSTS = ["none", "some", "heavy"];
export const REFREEZING_SIGNS = ["ice_pool", "deformed", "clumped"];
export const PROBES = ["between_packs", "core", "surface"];
export const ODOURS = ["sound", "slight", "off", "chemical"];
export const FOREIGN = ["none", "harmless", "hazard"];
export const LOADS = ["sound", "shifted", "wet", "mixed", "dirty"];
export const DECISIONS = ["accept", "accept_with_allowance", "hold", "reject"];
export const SCORES = [0, 2, 4, 6, 8, 10];
export const ANSWERS = ["agree", "disagree", "unsure"];
export const WEIGHT_KINDS = ["deglazed", "glazed", "unglazed"];
export const PRESENTATIONS = ["HOSO", "HLSO", "EZP", "PTO", "PDTO", "PUD", "PD", "BTTY", "PPV"];
export const STATES = ["raw", "part_cooked", "cooked"];
export const METHODS = ["farmed", "caught", "caught_freshwater"];
export const PIECE_KINDS = [
  "black_spot",
  "black_spot_wide",
  "black_spot_meat",
  "dehydrated",
  "broken",
  "soft",
  "heads",
  "legs",
  "tails",
] as const;
export const PARTICULARS = [
  "name",
  "scientific_name",
  "method",
  "area",
  "gear",
  "state",
  "net_weight",
  "lot",
  "date",
  "storage",
  "crustacean",
  "sulphites",
  "producer",
  "approval",
  "origin",
];
export const MAX_CARTONS = 5000;

export type PieceCounts = Partial<Record<(typeof PIECE_KINDS)[number], number>>;
export interface LabelFacts {
  scan: string;
  species_code: string;
  scientific_name: string;
  presentation: string | null;
  state: string | null;
  grade: string;
  net_g: number | null;
  lot: string;
  production_day: number | null;
  frozen_day: number | null;
  best_before_day: number | null;
  origin: string;
  catch_area: string;
  method: string | null;
  shows: string[] | null;
}
export interface SampleFacts {
  pieces: number | null;
  weight_g: number | null;
  weight_is: string | null;
  largest_g: number | null;
  smallest_g: number | null;
}
export interface CartonFacts {
  id: string;
  position: number | null;
  label: LabelFacts | null;
  liner: string | null;
  frost: string | null;
  refreezing: string[] | null;
  product_c: number | null;
  probe: string | null;
  looked_at: number | null;
  pieces: PieceCounts;
  black_spot_score: number | null;
  odour: string | null;
  foreign_matter: string | null;
  gross_g: number | null;
  tare_g: number | null;
  glazed_g: number | null;
  deglazed_g: number | null;
  sample: SampleFacts | null;
  marks: string | null;
}
export interface DecisionFacts {
  kind: string;
  accepted: number;
  refused: number;
  held: number;
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
  decision: DecisionFacts | null;
  cartons: CartonFacts[];
}
export interface DeliveryFacts {
  limits_id: string;
  docket_number: string;
  arrived_day: number | null;
  air_c: number | null;
  load: string | null;
  lines: LineFacts[];
  unusable: Unusable[];
}

function readLabel(reader: Reader, value: unknown, path: string): LabelFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) return null;
  return {
    scan: reader.text(entry.scan, `${path}.scan`),
    species_code: reader.text(entry.species_code, `${path}.species_code`),
    scientific_name: reader.text(entry.scientific_name, `${path}.scientific_name`),
    presentation: reader.word(entry.presentation, `${path}.presentation`, PRESENTATIONS),
    state: reader.word(entry.state, `${path}.state`, STATES),
    grade: reader.text(entry.grade, `${path}.grade`),
    net_g: reader.reading(entry.net, `${path}.net`, "mass"),
    lot: reader.text(entry.lot, `${path}.lot`),
    production_day: reader.day(entry.production_date, `${path}.production_date`),
    frozen_day: reader.day(entry.frozen_on, `${path}.frozen_on`),
    best_before_day: reader.day(entry.best_before, `${path}.best_before`),
    origin: reader.text(entry.origin, `${path}.origin`),
    catch_area: reader.text(entry.catch_area, `${path}.catch_area`),
    method: reader.word(entry.method, `${path}.method`, METHODS),
    shows: reader.words(entry.shows, `${path}.shows`, PARTICULARS),
  };
}

function readSample(reader: Reader, value: unknown, path: string): SampleFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) return null;
  let largest = reader.reading(entry.largest, `${path}.largest`, "mass");
  let smallest = reader.reading(entry.smallest, `${path}.smallest`, "mass");
  if (largest !== null && smallest !== null && largest < smallest) {
    reader.refuse(`${path}.largest`, "COUNT-02", { largest_g: largest, smallest_g: smallest });
    largest = smallest = null;
  }
  return {
    pieces: reader.whole(entry.pieces, `${path}.pieces`, 1, MAX_PIECES),
    weight_g: reader.reading(entry.weight, `${path}.weight`, "mass"),
    weight_is: reader.word(entry.weight_is, `${path}.weight_is`, WEIGHT_KINDS),
    largest_g: largest,
    smallest_g: smallest,
  };
}

function readPieces(reader: Reader, value: unknown, path: string, lookedAt: number | null): PieceCounts {
  const entry = reader.record(value, path);
  const counted: PieceCounts = {};
  for (const kind of entry === null ? [] : PIECE_KINDS) {
    const number = reader.whole(entry![kind], `${path}.${kind}`, 0, MAX_PIECES);
    if (number === null) continue;
    if (lookedAt !== null && number > lookedAt) {
      reader.refuse(`${path}.${kind}`, "FACT-04", { counted: number, looked_at: lookedAt });
      continue;
    }
    counted[kind] = number;
  }
  return counted;
}

function readScore(reader: Reader, value: unknown, path: string): number | null {
  const score = reader.whole(value, path, 0, 10);
  if (score !== null && !SCORES.includes(score)) {
    reader.refuse(path, "FACT-02", { known: [...SCORES] });
    return null;
  }
  return score;
}

function readCarton(reader: Reader, value: unknown, path: string): CartonFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) {
    if (value === null || value === undefined) reader.refuse(path, "FACT-01", { expected: "object" });
    return null;
  }
  const temperature = reader.record(entry.temperature, `${path}.temperature`) ?? {};
  const weights = reader.record(entry.weights, `${path}.weights`) ?? {};
  const marks = reader.record(entry.marks, `${path}.marks`) ?? {};
  const lookedAt = reader.whole(entry.looked_at, `${path}.looked_at`, 1, MAX_PIECES);
  return {
    id: reader.text(entry.id, `${path}.id`),
    position: reader.whole(entry.position, `${path}.position`, 1, MAX_CARTONS),
    label: readLabel(reader, entry.label, `${path}.label`),
    liner: reader.word(entry.liner, `${path}.liner`, LINERS),
    frost: reader.word(entry.frost, `${path}.frost`, FROSTS),
    refreezing: reader.words(entry.refreezing, `${path}.refreezing`, REFREEZING_SIGNS),
    product_c: reader.reading(temperature.product, `${path}.temperature.product`, "product"),
    probe: reader.word(temperature.method, `${path}.temperature.method`, PROBES),
    looked_at: lookedAt,
    pieces: readPieces(reader, entry.pieces, `${path}.pieces`, lookedAt),
    black_spot_score: readScore(reader, entry.black_spot_score, `${path}.black_spot_score`),
    odour: reader.word(entry.odour, `${path}.odour`, ODOURS),
    foreign_matter: reader.word(entry.foreign_matter, `${path}.foreign_matter`, FOREIGN),
    gross_g: reader.reading(weights.gross, `${path}.weights.gross`, "mass"),
    tare_g: reader.reading(weights.tare, `${path}.weights.tare`, "mass"),
    glazed_g: reader.reading(weights.glazed, `${path}.weights.glazed`, "mass"),
    deglazed_g: reader.reading(weights.deglazed, `${path}.weights.deglazed`, "mass"),
    sample: readSample(reader, entry.sample, `${path}.sample`),
    marks: reader.word(marks.answer, `${path}.marks.answer`, ANSWERS),
  };
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
    air_c: reader.reading(vehicle.air, "vehicle.air", "air"),
    load: reader.word(vehicle.load, "vehicle.load", LOADS),
    lines: read.filter((line) => line !== null),
    unusable: reader.unusable,
  };
}
