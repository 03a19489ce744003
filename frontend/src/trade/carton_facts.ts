// Mirror of inspections/trade/carton_facts.py.

import { readChecks, type Seen } from "./checks";
import type { Reader } from "./entries";
import { MAX_PIECES } from "./quantities";

export const PROBES = ["between_packs", "core", "surface"];
export const ANSWERS = ["agree", "disagree", "unsure"];
export const WEIGHT_KINDS = ["deglazed", "glazed", "unglazed"];
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

export interface LabelFacts {
  scan: string;
  species_code: string;
  scientific_name: string;
  production_day: number | null;
  frozen_day: number | null;
  best_before_day: number | null;
  catch_area: string;
  shows: string[] | null;
  seen: Seen;
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
export interface CartonFacts {
  id: string;
  position: number | null;
  label: LabelFacts | null;
  product_c: number | null;
  product_typed: [entered: string, unit: string];
  is_sign_sure: boolean;
  probe: string | null;
  thermometer: ThermometerFacts | null;
  seen: Seen;
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
    production_day: reader.day(entry.production_date, `${path}.production_date`),
    frozen_day: reader.day(entry.frozen_on, `${path}.frozen_on`),
    best_before_day: reader.day(entry.best_before, `${path}.best_before`),
    catch_area: reader.text(entry.catch_area, `${path}.catch_area`),
    shows: reader.words(entry.shows, `${path}.shows`, PARTICULARS),
    seen: readChecks(reader, entry, path, "label"),
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

export function readCarton(reader: Reader, value: unknown, path: string): CartonFacts | null {
  const entry = reader.record(value, path);
  if (entry === null) {
    if (value === null || value === undefined) reader.refuse(path, "FACT-01", { expected: "object" });
    return null;
  }
  const temperature = reader.record(entry.temperature, `${path}.temperature`) ?? {};
  const weights = reader.record(entry.weights, `${path}.weights`) ?? {};
  const marks = reader.record(entry.marks, `${path}.marks`) ?? {};
  return {
    id: reader.text(entry.id, `${path}.id`),
    position: reader.whole(entry.position, `${path}.position`, 1, MAX_CARTONS),
    label: readLabel(reader, entry.label, `${path}.label`),
    product_c: reader.reading(temperature.product, `${path}.temperature.product`, "product"),
    product_typed: reader.typed(temperature.product),
    is_sign_sure: temperature.is_above_zero === true,
    probe: reader.word(temperature.method, `${path}.temperature.method`, PROBES),
    thermometer: readThermometer(reader, temperature.thermometer, `${path}.temperature.thermometer`),
    seen: readChecks(reader, entry, path, "carton"),
    gross_g: reader.reading(weights.gross, `${path}.weights.gross`, "mass"),
    tare_g: reader.reading(weights.tare, `${path}.weights.tare`, "mass"),
    glazed_g: reader.reading(weights.glazed, `${path}.weights.glazed`, "mass"),
    deglazed_g: reader.reading(weights.deglazed, `${path}.weights.deglazed`, "mass"),
    sample: readSample(reader, entry.sample, `${path}.sample`),
    marks: reader.word(marks.answer, `${path}.marks.answer`, ANSWERS),
  };
}
