/** The questions of one delivery, in the order of the door (CV-12-01 … 11), and which are answered. */
import type { Carton, Inspection, Line, Specification } from "../store/document";
import type { WalkNotes } from "../store/schema";
import { answersOf, checksOfStep, firstOpen, leftOpen } from "./plain_checks";

export type StepKind =
  | "docket"
  | "lines"
  | "count"
  | "air"
  | "load"
  | "draw"
  | "label"
  | "lid"
  | "temperature"
  | "pieces"
  | "weigh"
  | "faults"
  | "marks"
  | "photos"
  | "decide"
  | "sign";

export type StepState = "answered" | "skipped" | "open";
export interface Step {
  key: string;
  kind: StepKind;
  lineId: string | null;
  position: number | null;
  state: StepState;
}

export const CARTON_STEPS = ["label", "lid", "temperature", "pieces", "weigh", "faults", "marks", "photos"] as const;
export type CartonStep = (typeof CARTON_STEPS)[number];

/** Without shell and head nothing on the meat tells the species (CV-7-33). */
const PEELED = ["PD", "PUD", "PPV"];

export const stepKey = (kind: StepKind, lineId?: string, position?: number): string =>
  [kind, lineId, position].filter((part) => part !== undefined).join("~");

/** The cartons to open: those drawn, then any that the receiver opened besides. */
export function positionsOf(line: Line): number[] {
  const drawn = [...(line.sampling?.positions ?? []), ...(line.sampling?.more ?? [])];
  const besides = line.cartons.map((carton) => carton.position).filter((position) => !drawn.includes(position));
  return [...drawn, ...besides];
}

export function cartonAt(line: Line, position: number): Carton | null {
  return line.cartons.find((carton) => carton.position === position) ?? null;
}

export function stepsOf(document: Inspection, notes: WalkNotes, specificationOf: (id: string) => Specification | null): Step[] {
  const steps: Step[] = [];
  const add = (kind: StepKind, isAnswered: boolean, lineId?: string, position?: number) => {
    const key = stepKey(kind, lineId, position);
    // photos are offered where the thing is seen, and never demanded
    const isLeft = kind === "photos" || notes.skipped.includes(key);
    const state = isAnswered ? "answered" : isLeft ? "skipped" : "open";
    steps.push({ key, kind, lineId: lineId ?? null, position: position ?? null, state });
  };
  add("docket", document.docket_number !== "" && document.supplier_id !== "");
  if (document.order_id === null) add("lines", document.lines.length > 0 && notes.skipped.includes("lines"));
  // the air first: it tells nothing once the doors have stood open
  add("air", document.vehicle.air !== null);
  for (const line of document.lines) add("count", line.cartons_counted !== null, line.id);
  add("load", document.vehicle.load !== null);
  for (const line of document.lines) addLine(document, line, add, specificationOf(line.specification_id));
  for (const line of document.lines) add("decide", line.decision !== null, line.id);
  add("sign", document.signatures !== null);
  return steps;
}

function addLine(
  document: Inspection,
  line: Line,
  add: (kind: StepKind, isAnswered: boolean, lineId?: string, position?: number) => void,
  specification: Specification | null,
): void {
  if (line.cartons_counted === 0) return;
  add("draw", line.sampling !== null, line.id);
  const showsMarks = !PEELED.includes(specification?.presentation ?? "");
  for (const position of positionsOf(line)) {
    const carton = cartonAt(line, position);
    for (const kind of CARTON_STEPS) {
      if (kind === "marks" && !showsMarks) continue;
      add(kind, carton !== null && isAnswered(kind, carton, document, specification), line.id, position);
    }
  }
}

function isAnswered(kind: CartonStep, carton: Carton, document: Inspection, ordered: Specification | null): boolean {
  switch (kind) {
    case "label":
      return carton.label !== null;
    case "lid":
    case "faults": {
      const checks = checksOfStep(kind, ordered).filter(({ name }) => !leftOpen(carton).includes(name));
      return firstOpen(checks, answersOf(carton, checks)) === null;
    }
    case "temperature":
      return carton.temperature !== null;
    case "pieces":
      return carton.looked_at !== null;
    case "weigh":
      return carton.sample?.weight != null;
    case "marks":
      return carton.marks !== null;
    case "photos":
      return document.photos.some((photo) => photo.carton_id === carton.id);
  }
}

/** How much is left to answer; what comes with the next draw is not known yet, and what was added is told. */
export interface Progress {
  kind: "draw" | "cartons" | "added" | "end";
  left: number;
  cartons: number;
  added: number;
}
export function progressOf(steps: Step[], lines: Line[]): Progress {
  const open = steps.filter(({ state }) => state === "open");
  const draw = open.findIndex(({ kind }) => kind === "draw" || kind === "lines");
  const cartonsOf = (some: Step[]) =>
    new Set(some.filter(({ position }) => position !== null).map((step) => `${step.lineId}~${step.position}`));
  const cartons = cartonsOf(open);
  const planned = lines.flatMap((line) => (line.sampling?.positions ?? []).map((position) => `${line.id}~${position}`));
  const added = [...cartons].filter((carton) => !planned.includes(carton)).length;
  if (draw >= 0) return { kind: "draw", left: draw + 1, cartons: cartons.size, added };
  return { kind: added > 0 ? "added" : cartons.size > 0 ? "cartons" : "end", left: open.length, cartons: cartons.size, added };
}

/** The next question that has no answer, looking on from `from` and then from the start. */
export function nextOpen(steps: Step[], from: string | null): Step | null {
  const at = steps.findIndex((step) => step.key === from);
  const ahead = steps.slice(at + 1).find((step) => step.state === "open");
  return ahead ?? steps.find((step) => step.state === "open") ?? null;
}
