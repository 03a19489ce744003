// Mirror of inspections/trade/carton_facts.py.

import type { Reader } from "./entries";
import { MAX_PIECES } from "./quantities";

export const LINERS = ["closed", "open", "torn", "missing"];
export const FROSTS = ["none", "some", "heavy"];
export const REFREEZING_SIGNS = ["ice_pool", "deformed", "clumped"];
export const PROBES = ["between_packs", "core", "surface"];
export const ODOURS = ["sound", "slight", "off", "chemical"];
export const ODOUR_TAKEN = ["frozen", "thawed"];
export const FOREIGN = ["none", "harmless", "hazard"];
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
/** How a thermometer stood when a reading was taken; days as numbers, ice point in °C. */
export interface ThermometerFacts {
  name: string;
  checked_day: number | null;
  ice_c: number | null;
  due_day: number | null;
}
export interface DryingFacts {
  dried_g: number | null;
  of_g: number | null;
  block_share: number | null;
}
export interface CartonFacts {
  id: string;
  position: number | null;
  label: LabelFacts | null;
  liner: string | null;
  frost: string | null;
  refreezing: string[] | null;
  product_c: number | null;
  product_typed: [entered: string, unit: string];
  is_sign_sure: boolean;
  probe: string | null;
  thermometer: ThermometerFacts | null;
  looked_at: number | null;
  pieces: PieceCounts;
  drying: DryingFacts | null;
  black_spot_score: number | null;
  odour: string | null;
  odour_taken: string | null;
  foreign_matter: string | null;
  gross_g: number | null;
  tare_g: number | null;
  glazed_g: number | null;
  deglazed_g: number | null;
  sample: SampleFacts | null;
  marks: string | null;
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

export function readThermometer(reader: Reader, value: unknown, path: string): ThermometerFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) return null;
  return {
    name: reader.text(entry.name, `${path}.name`),
    checked_day: reader.day(entry.checked_at, `${path}.checked_at`),
    ice_c: reader.reading(entry.ice_point, `${path}.ice_point`, "ice"),
    due_day: reader.day(entry.due_at, `${path}.due_at`),
  };
}

function readDrying(reader: Reader, value: unknown, path: string): DryingFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) return null;
  let driedG = reader.reading(entry.dried, `${path}.dried`, "mass_or_zero");
  const ofG = reader.reading(entry.of, `${path}.of`, "mass");
  if (driedG !== null && ofG !== null && driedG > ofG) {
    reader.refuse(`${path}.dried`, "FACT-07", { dried_g: driedG, of_g: ofG });
    driedG = null;
  }
  const percent = reader.reading(entry.block_surface, `${path}.block_surface`, "percent");
  return { dried_g: driedG, of_g: ofG, block_share: percent === null ? null : percent / 100 };
}

export function readCarton(reader: Reader, value: unknown, path: string): CartonFacts | null {
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
    product_typed: reader.typed(temperature.product),
    is_sign_sure: temperature.is_above_zero === true,
    probe: reader.word(temperature.method, `${path}.temperature.method`, PROBES),
    thermometer: readThermometer(reader, temperature.thermometer, `${path}.temperature.thermometer`),
    looked_at: lookedAt,
    pieces: readPieces(reader, entry.pieces, `${path}.pieces`, lookedAt),
    drying: readDrying(reader, entry.dehydration, `${path}.dehydration`),
    black_spot_score: readScore(reader, entry.black_spot_score, `${path}.black_spot_score`),
    odour: reader.word(entry.odour, `${path}.odour`, ODOURS),
    odour_taken: reader.word(entry.odour_taken, `${path}.odour_taken`, ODOUR_TAKEN),
    foreign_matter: reader.word(entry.foreign_matter, `${path}.foreign_matter`, FOREIGN),
    gross_g: reader.reading(weights.gross, `${path}.weights.gross`, "mass"),
    tare_g: reader.reading(weights.tare, `${path}.weights.tare`, "mass"),
    glazed_g: reader.reading(weights.glazed, `${path}.weights.glazed`, "mass"),
    deglazed_g: reader.reading(weights.deglazed, `${path}.weights.deglazed`, "mass"),
    sample: readSample(reader, entry.sample, `${path}.sample`),
    marks: reader.word(marks.answer, `${path}.marks.answer`, ANSWERS),
  };
}
