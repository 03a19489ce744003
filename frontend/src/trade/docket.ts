// Mirror of inspections/trade/docket.py.

import { textSeen } from "./checks";
import type { LineFacts } from "./facts";
import { placesOf, typedShown } from "./reasons";
import type { Allowance, LineVerdict, Reason } from "./types";
import { counted, filled, listed, shown, shownMeasure, word, WORDS } from "./wording";

const DOCKET = WORDS["docket"] as Record<string, string>;
const PHRASES = WORDS["docket_reasons"] as Record<string, string>;
const MOST_WORDS = 25;
const MOST_MISSING = 3;
type Unworded = Omit<LineVerdict, "wording">;

function quantities(verdict: Unworded, line: LineFacts): [string, LineVerdict["suggested_split"]] {
  if (line.decision === null) return [verdict.suggestion, verdict.suggested_split];
  const { kind, accepted, refused, held } = line.decision;
  return [kind, { accepted, refused, held }];
}

function missingWords(names: readonly string[]): string {
  const told = names.slice(0, MOST_MISSING).map((name) => word("docket_checks", name));
  if (names.length <= MOST_MISSING) return listed(told);
  return `${told.join(", ")} ${filled(DOCKET["and_more"]!, { number: String(names.length - MOST_MISSING) })}`;
}

function outcome(verdict: Unworded, line: LineFacts): string {
  const [kind, split] = quantities(verdict, line);
  if (kind === "not_yet") {
    const missing = missingWords(verdict.needed) || word("docket_checks", `next_${verdict.next!.kind}`);
    return filled(DOCKET["not_yet"]!, { missing });
  }
  if (split === null) return DOCKET["uncounted"]!;
  const parts = (["accepted", "refused", "held"] as const)
    .filter((part) => split[part] > 0)
    .map((part) => filled(DOCKET[part]!, { cartons: counted(split[part], "carton") }));
  return parts.join(", ") || DOCKET["nothing"]!;
}

const typedOf = ({ facts }: Reason): string[] => (facts["typed"] as string[] | undefined) ?? ["", ""];

function valueOf(reason: Reason): string {
  const { facts } = reason;
  if ("affected" in facts) return filled(DOCKET["of"]!, placesOf(facts, null, null, null));
  if (typedOf(reason)[0]) return typedShown(typedOf(reason));
  if ("net_g" in facts) return shownMeasure(facts["net_g"] as number, "g");
  return reason.measured === null ? "" : shownMeasure(reason.measured, reason.unit!);
}

function limitOf(reason: Reason): string {
  const { bound, unit } = reason;
  if (bound === null) return "";
  if (unit === "C" && typedOf(reason)[1] === "F") {
    return filled(DOCKET["limit"]!, { bound: `${shown((bound * 9) / 5 + 32, 1)} °F` });
  }
  return filled(DOCKET["limit"]!, { bound: shownMeasure(bound, unit!) });
}

function phraseOf(alike: readonly Reason[]): string {
  const first = alike[0]!;
  const places = placesOf(first.facts, first.measured, first.unit, first.bound);
  const values = listed([...new Set(alike.map(valueOf))]);
  const phrase = filled(PHRASES[first.code]!, { ...places, values, limit: limitOf(first) });
  const cartons = alike.filter(({ carton }) => carton !== null).map(({ carton }) => shown(carton!, 0));
  if (cartons.length === 0) return phrase;
  return `${filled(DOCKET[cartons.length === 1 ? "carton" : "cartons"]!, { cartons: cartons.join(", ") })}: ${phrase}`;
}

/** What is serious or costs money, strongest first, like findings together. */
export function phrasesOf(reasons: readonly Reason[]): string[] {
  const groups = new Map<string, Reason[]>();
  for (const reason of reasons) {
    const isWritten = ["critical", "major"].includes(reason.severity) || reason.code === "CARTONS-SHORT";
    const phrase = PHRASES[reason.code];
    if (!isWritten || phrase === undefined) continue;
    const key = phrase + ((reason.facts["found"] as string | undefined) ?? "");
    groups.set(key, [...(groups.get(key) ?? []), reason]);
  }
  return [...groups.values()].map(phraseOf);
}

function lotsOf(line: LineFacts): string[] {
  const ofLabels = line.cartons
    .map((carton) => (carton.label === null ? null : textSeen(carton.label.seen, "lot")) ?? "")
    .filter((lot) => lot !== "");
  const lots = line.lot ? [line.lot] : [...new Set(ofLabels)];
  if (lots.length === 0) return [];
  return [filled(DOCKET[lots.length === 1 ? "lot" : "lots"]!, { lot: lots[0]!, lots: lots.join(", ") })];
}

export function lineWording(verdict: Unworded, line: LineFacts, name: string): string {
  const head = name ? filled(DOCKET["line"]!, { name }) : DOCKET["line_unnamed"]!;
  const start = `${[head, ...lotsOf(line)].join(", ")}: ${outcome(verdict, line)}.`;
  const leftOut = verdict.left_out.map(({ check }) => check);
  const told = verdict.allowances.map(allowanceWords);
  if (leftOut.length > 0) told.push(filled(DOCKET["left_out"]!, { missing: missingWords(leftOut) }));
  // What is short comes first: a docket signed without it is a receipt for what never came.
  const isShort = (reason: Reason) => reason.code === "CARTONS-SHORT";
  const reasons = [...verdict.reasons.filter(isShort), ...verdict.reasons.filter((reason) => !isShort(reason))];
  return [start, ...fitting(phrasesOf(reasons), told).map(sentence)].join(" ");
}

function allowanceWords({ basis, quantity, unit }: Allowance): string {
  const shownQuantity = unit === "cartons" ? counted(quantity, "carton") : shownMeasure(quantity, unit);
  const what = filled((WORDS["docket_allowances"] as Record<string, string>)[basis]!, { quantity: shownQuantity });
  return filled(DOCKET["allowance"]!, { what });
}

function fitting(findings: readonly string[], told: readonly string[]): string[] {
  const kept: string[] = [];
  let left = MOST_WORDS - wordsIn(DOCKET["more"]!);
  const everything = [...findings.slice(0, 1), ...told, ...findings.slice(1)];
  for (const phrase of everything) {
    if (wordsIn(phrase) > left) continue;
    kept.push(phrase);
    left -= wordsIn(phrase);
  }
  return kept.length === everything.length ? kept : [...kept, DOCKET["more"]!];
}

const wordsIn = (phrase: string): number => phrase.split(" ").filter((one) => one !== "").length;
const sentence = (phrase: string): string => `${phrase.replace(/^[a-z]/, (first) => first.toUpperCase())}.`;

export function deliveryWording(docketNumber: string, lines: readonly LineVerdict[], vehicle: readonly Reason[]): string {
  const head = docketNumber ? [filled(DOCKET["head"]!, { docket: docketNumber })] : [];
  const seen = vehicle.filter(({ severity }) => severity !== "note").map(({ code }) => word("docket_vehicle", code));
  const texts = lines.length > 0 ? lines.map((line) => line.wording) : [DOCKET["no_lines"]!];
  return [...head, ...(seen.length > 0 ? [sentence(seen.join(", "))] : []), ...texts].join("\n");
}
