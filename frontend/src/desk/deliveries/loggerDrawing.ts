/**
 * Where the lines and words of a log's drawing go. Mirror of inspections/evidence/logger_drawing.py, held to the same
 * vectors; the points, ticks and words come with the reading.
 */
import { shown } from "../../trade/wording";

export interface LogPlot {
  from_s: number;
  to_s: number;
  stretches: [number, number][][];
  scale: { from: number; to: number; step: number };
  is_cut: boolean;
  ticks: { at_s: number; text: string; day: string }[];
  limits: { limit_c: number; text: string }[];
  shaded: { from_s: number; to_s: number; limit_c: number; text: string }[];
  gaps: { from_s: number; to_s: number; text: string }[];
  marks: { kind: "left" | "arrived"; at_s: number; text: string }[];
}
/** A stretch of time shaded from top to bottom; no text where there is no room. */
export interface Box {
  x: string;
  width: string;
  text: string;
  text_x: string;
  text_y: string;
}
export interface Line {
  at: string;
  text: string;
  text_at: string;
}
export interface Tick {
  x: string;
  text: string;
  day: string;
}
export interface Drawing {
  width: string;
  height: string;
  left: string;
  right: string;
  top: string;
  bottom: string;
  deep: string;
  scale_x: string;
  name_x: string;
  mark_y: string;
  tick_y: string;
  time_y: string;
  day_y: string;
  curves: string[];
  dots: [string, string][];
  steps: Line[];
  limits: Line[];
  shaded: Box[];
  gaps: Box[];
  outside: Box[];
  ticks: Tick[];
  marks: Line[];
}

const [LEFT, BOTTOM, TOP] = [38, 40, 22];
const [LETTER, LANE, LINE] = [7, 18, 15];
const MOST_LANES = 3;
const NARROW = 520;
const [GUTTER_NARROW, GUTTER_WIDE] = [56, 218];
const [TICK_APART, DAY_APART] = [52, 84];

type Scale = { start: number; end: number; at: (value: number) => number };
function scaled(low: number, high: number, start: number, end: number): Scale {
  const at = (value: number) => start + Math.min(1, Math.max(0, (value - low) / (high - low))) * (end - start);
  return { start, end, at };
}
const text = (value: number) => shown(value, 1);

export function drawingOf(plot: LogPlot, width: number, height: number): Drawing {
  const right = width - (width < NARROW ? GUTTER_NARROW : GUTTER_WIDE);
  const across = scaled(plot.from_s, plot.to_s, LEFT, right);
  const [shaded, lanes] = labelled(plot.shaded, across);
  const top = TOP + LANE * lanes;
  const bottom = height - BOTTOM;
  const up = scaled(plot.scale.to, plot.scale.from, top, bottom);
  const curves = plot.stretches.filter((one) => one.length > 1);
  const dots = plot.stretches.filter((one) => one.length === 1).map((one) => one[0]!);
  return {
    width: text(width), height: text(height), left: text(LEFT), right: text(right), top: text(top),
    bottom: text(bottom), deep: text(bottom - top), scale_x: text(LEFT - 6), name_x: text(right + 6),
    mark_y: text(bottom - 8), tick_y: text(bottom + 5), time_y: text(bottom + 19), day_y: text(bottom + 35),
    curves: curves.map((one) => one.map(([s, c]) => `${text(across.at(s))},${text(up.at(c))}`).join(" ")),
    dots: dots.map(([s, c]) => [text(across.at(s)), text(up.at(c))]),
    steps: steps(plot.scale, up), limits: limits(plot.limits, up, width < NARROW), shaded,
    gaps: plot.gaps.map((gap) => gapBox(gap, across, bottom)), outside: outside(plot, across),
    ticks: ticks(plot.ticks, across), marks: plot.marks.map((mark) => markLine(mark, across)),
  };
}

/** Shaded stretches in time order, the longest labelled first; and how many lanes of labels that takes. */
function labelled(shaded: LogPlot["shaded"], across: Scale): [Box[], number] {
  const lanes: [number, number][][] = Array.from({ length: MOST_LANES }, () => []);
  const placed = new Map<number, [number, number]>();
  const order = shaded.map((_, i) => i);
  const length = (i: number) => shaded[i]!.to_s - shaded[i]!.from_s;
  order.sort((a, b) => length(b) - length(a) || a - b);
  for (const i of order) {
    const one = shaded[i]!;
    const half = (one.text.length * LETTER) / 2;
    const between = (across.at(one.from_s) + across.at(one.to_s)) / 2;
    const middle = Math.max(across.start + half, Math.min(across.end - half, between));
    const free = lanes.findIndex((lane) => lane.every(([a, b]) => middle + half + 6 <= a || middle - half - 6 >= b));
    if (free >= 0) {
      lanes[free]!.push([middle - half, middle + half]);
      placed.set(i, [free, middle]);
    }
  }
  return [shaded.map((one, i) => shadedBox(one, placed.get(i), across)), lanes.filter((lane) => lane.length).length];
}

function shadedBox(one: LogPlot["shaded"][number], placed: [number, number] | undefined, across: Scale): Box {
  const x = across.at(one.from_s);
  const [lane, middle] = placed ?? [0, 0];
  return {
    x: text(x), width: text(Math.max(2, across.at(one.to_s) - x)), text: placed ? one.text : "", text_x: text(middle),
    text_y: text(TOP + LANE * lane + 10),
  };
}

function gapBox(gap: LogPlot["gaps"][number], across: Scale, bottom: number): Box {
  const [x, end] = [across.at(gap.from_s), across.at(gap.to_s)];
  const fits = end - x >= gap.text.length * LETTER;
  return { x: text(x), width: text(end - x), text: fits ? gap.text : "", text_x: text((x + end) / 2), text_y: text(bottom - 28) };
}

function outside(plot: LogPlot, across: Scale): Box[] {
  return plot.marks.map((mark) => {
    const [a, b] = mark.kind === "left" ? [plot.from_s, mark.at_s] : [mark.at_s, plot.to_s];
    return { x: text(across.at(a)), width: text(across.at(b) - across.at(a)), text: "", text_x: text(across.at(a)), text_y: "0.0" };
  });
}

function steps(scale: LogPlot["scale"], up: Scale): Line[] {
  const number = Math.floor((scale.to - scale.from) / scale.step + 0.5);
  const values = Array.from({ length: number + 1 }, (_, i) => scale.from + i * scale.step);
  return values.map((value) => ({ at: text(up.at(value)), text: shown(value, 0), text_at: text(up.at(value) + 4.5) }));
}

/** Lines of the limits, warmest first; labels that would touch are pushed apart, downwards then upwards. */
function limits(given: LogPlot["limits"], up: Scale, isNarrow: boolean): Line[] {
  const warmestFirst = [...given].sort((a, b) => b.limit_c - a.limit_c);
  const places = warmestFirst.map((one) => up.at(one.limit_c) + 4.5);
  for (let i = 1; i < places.length; i++) places[i] = Math.max(places[i]!, places[i - 1]! + LINE);
  const over = places.length ? Math.max(0, places.at(-1)! - (up.end + 4.5)) : 0;
  return warmestFirst.map((one, i) => ({
    at: text(up.at(one.limit_c)), text: limitText(one, isNarrow), text_at: text(places[i]! - over),
  }));
}

function limitText(one: LogPlot["limits"][number], isNarrow: boolean): string {
  const number = `${shown(one.limit_c, Number.isInteger(one.limit_c) ? 0 : 1)} °C`;
  return isNarrow ? number : `${number} ${one.text}`;
}

function ticks(given: LogPlot["ticks"], across: Scale): Tick[] {
  const found: Tick[] = [];
  let [lastX, lastDayX, lastDay] = [-1000, -1000, ""];
  for (const tick of given) {
    const x = across.at(tick.at_s);
    if (x - lastX < TICK_APART) continue;
    const day = tick.day !== lastDay && x - lastDayX >= DAY_APART ? tick.day : "";
    found.push({ x: text(x), text: tick.text, day });
    lastX = x;
    if (day) [lastDay, lastDayX] = [day, x];
  }
  return found;
}

function markLine(mark: LogPlot["marks"][number], across: Scale): Line {
  const x = across.at(mark.at_s);
  const length = mark.text.length * LETTER;
  const isLeft = x - length - 5 >= LEFT;
  return { at: text(x), text: mark.text, text_at: text(isLeft ? x - length / 2 - 5 : x + length / 2 + 5) };
}
