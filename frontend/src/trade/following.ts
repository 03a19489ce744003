// Mirror of inspections/trade/following.py.

import { hasMoreToDo, type LineJudged } from "./outcome";
import type { NextStep, Suggestion } from "./types";
import { counted, filled, listed, WORDS } from "./wording";

const ODD_TEMPERATURE = ["TEMP-OUTSIDE", "TEMP-REJECT"];
const NEXT = WORDS["next"] as Record<string, string>;

export function nextStep(line: LineJudged, suggestion: Suggestion): NextStep | null {
  if (line.isWhole || line.facts.declined || line.isHazard) return null;
  if (suggestion === "hold") return probe(line) ?? (line.count("unfit") > 0 ? open(line, further(line)) : null);
  if (suggestion !== "not_yet" || line.facts.cartons_counted === null) return null;
  if (line.isSecondStageDue) return open(line, line.stages.total - line.cartons.length);
  if (hasMoreToDo(line)) return sort(line);
  if (line.cartons.length < line.stages.planned) return open(line, line.stages.planned - line.cartons.length);
  return null;
}

function further(line: LineJudged): number {
  const opened = line.cartons.length;
  const goal = opened < line.stages.planned ? line.stages.planned : line.stages.total;
  return goal > opened ? goal - opened : Math.max(0, (line.facts.cartons_counted ?? 0) - opened);
}

function open(line: LineJudged, more: number): NextStep | null {
  if (more <= 0) return null;
  const { stages, bad } = line;
  const came = line.facts.cartons_counted ?? 0;
  const opened = line.cartons.length + more;
  const isLast = opened >= stages.total || opened >= came;
  let clean: Suggestion = bad > 0 ? "accept_with_allowance" : "accept";
  if (!isLast && bad > stages.acceptance) clean = "not_yet";
  const isRefused = bad + 1 >= stages.rejection || (isLast && bad + 1 > stages.last_acceptance);
  let worse: Suggestion = isRefused ? "reject" : "not_yet";
  if (opened >= came) worse = bad + 1 < came ? "accept_with_allowance" : "reject";
  if (!isLast && bad + 1 <= stages.acceptance) worse = "accept_with_allowance";
  const places = {
    more: counted(more, "carton"),
    bad: String(bad),
    opened: String(line.cartons.length),
    accepted: String(came - bad),
    refused: String(bad),
    counted: String(came),
  };
  const last = opened >= came ? "each_by_itself" : `bad_${worse}`;
  const parts = [bad === 0 ? "open_first" : "open_more", `clean_${clean}`, last];
  const text = parts.map((part) => filled(NEXT[part]!, places)).join(" ");
  return { kind: "open", cartons: more, positions: [], if_clean: clean, if_bad: worse, text };
}

function sort(line: LineJudged): NextStep {
  const told = line.facts.sorted_by_label;
  const read = Math.max(line.cartons.length, told === null ? 0 : told.read);
  const left = Math.max(0, (line.facts.cartons_counted ?? 0) - read);
  const known = counted(line.count("sort_refuse", "sort_hold"), "carton");
  const text = filled(NEXT["sort"]!, { known, read: String(read), left: counted(left, "carton") });
  const follows = "accept_with_allowance";
  return { kind: "sort", cartons: left, positions: [], if_clean: follows, if_bad: follows, text };
}

function probe(line: LineJudged): NextStep | null {
  const odd = line.cartons
    .filter(({ judged }) => judged.findings.some((found) => ODD_TEMPERATURE.includes(found.code)))
    .map((carton) => carton.facts.position);
  if (odd.length === 0 || odd.length === line.cartons.length) return null;
  const inOrder = (numbers: Iterable<number>): number[] => [...numbers].sort((a, b) => a - b);
  const known = inOrder(odd.filter((position) => position !== null));
  const opened = new Set(line.cartons.map((carton) => carton.facts.position));
  const came = line.facts.cartons_counted ?? 0;
  const near = known.flatMap((position) => [position - 1, position + 1]);
  const beside = inOrder(new Set(near.filter((one) => one >= 1 && one <= came && !opened.has(one))));
  const places = { again: listed(known.map(String)), beside: listed(beside.map(String)) };
  const text = filled(NEXT[known.length > 0 && beside.length > 0 ? "probe" : "probe_again"]!, places);
  const positions = [...known, ...beside];
  return { kind: "probe", cartons: odd.length + beside.length, positions, if_clean: "not_yet", if_bad: "reject", text };
}
