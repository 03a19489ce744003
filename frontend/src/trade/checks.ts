// Mirror of inspections/trade/checks.py.

import type { Reader } from "./entries";
import { finding, type Judged } from "./findings";
import { wilson } from "./intervals";
import { isFineFor, type Limits } from "./limits";
import { MAX_PIECES, type Facts } from "./quantities";
import { checksOn, fits, isAskedFor, isFor, isOutcome, outcomesFor, splitPath, type Check } from "./registry";
import type { Limit } from "./types";

type Answer = string | number | string[] | [number, number] | null;
export type Seen = Record<string, Answer>;

export const numberSeen = (seen: Seen, name: string): number | null => seen[name] as number | null;
export const textSeen = (seen: Seen, name: string): string | null => seen[name] as string | null;

export function readChecks(reader: Reader, entry: Record<string, unknown>, path: string, on: string): Seen {
  const holders: Record<string, Record<string, unknown>> = { "": entry };
  const seen: Seen = {};
  for (const check of checksOn(on)) {
    const [holder, key] = splitPath(check.at);
    const held = (holders[holder] ??= reader.record(entry[holder], `${path}.${holder}`) ?? {});
    seen[check.name] = readAnswer(reader, check, held[key], `${path}.${check.at}`, seen);
    if (check.of !== undefined) {
      const wholeG = reader.reading(held[splitPath(check.of)[1]], `${path}.${check.of}`, "mass");
      seen[check.name] = part(reader, check, numberSeen(seen, check.name), wholeG, path);
    }
  }
  return seen;
}

function readAnswer(reader: Reader, check: Check, value: unknown, path: string, seen: Seen): Answer {
  switch (check.type) {
    case "choice":
      return reader.word(value, path, Object.keys(check.choices));
    case "flags":
      return readSigns(reader, check, value, path);
    case "pieces":
      return readPieces(reader, value, path, numberSeen(seen, "looked_at"));
    case "whole":
      return reader.whole(value, path, check.low!, check.high!);
    case "score":
      return readScore(reader, value, path, check.scores!);
    case "text":
      return reader.text(value, path) || null;
    default:
      return reader.reading(value, path, check.type === "part" ? "mass_or_zero" : check.quantity!);
  }
}

function readSigns(reader: Reader, check: Check, value: unknown, path: string): string[] | null {
  const known = Object.keys(check.choices);
  if (check.none !== undefined && typeof value === "string") {
    const one = reader.word(value, path, [check.none, ...known]);
    return one === null ? null : one === check.none ? [] : [one];
  }
  const signs = reader.words(value, path, known);
  return signs?.length === 0 && (value as unknown[]).length > 0 ? null : signs;
}

function readPieces(reader: Reader, value: unknown, path: string, lookedAt: number | null): number | null {
  const number = reader.whole(value, path, 0, MAX_PIECES);
  if (number !== null && lookedAt !== null && number > lookedAt) {
    reader.refuse(path, "FACT-04", { counted: number, looked_at: lookedAt });
    return null;
  }
  return number;
}

function readScore(reader: Reader, value: unknown, path: string, scores: readonly number[]): number | null {
  const score = reader.whole(value, path, scores[0]!, scores[scores.length - 1]!);
  if (score !== null && !scores.includes(score)) {
    reader.refuse(path, "FACT-02", { known: [...scores] });
    return null;
  }
  return score;
}

function part(reader: Reader, check: Check, partG: number | null, wholeG: number | null, path: string): [number, number] | null {
  if (partG === null || wholeG === null) return null;
  if (partG > wholeG) {
    reader.refuse(`${path}.${check.at}`, "FACT-07", { [check.numbers![0]]: partG, [check.numbers![1]]: wholeG });
    return null;
  }
  return [partG, wholeG];
}

export function shareFacts(affected: number, lookedAt: number): { low: number; high: number } & Facts {
  const [low, high] = wilson(affected, lookedAt);
  return { affected, looked_at: lookedAt, low, high };
}

function measuredOf(check: Check, seen: Seen): [measured: number, facts: Facts] | null {
  const value = seen[check.name] ?? null;
  const lookedAt = numberSeen(seen, "looked_at");
  const facts: Facts = check.counted_by === undefined ? {} : { counted_by: check.counted_by };
  if (value === null) return null;
  if (check.type === "pieces") {
    return lookedAt === null ? null : [(value as number) / lookedAt, shareFacts(value as number, lookedAt)];
  }
  if (check.type === "part") {
    const [partG, wholeG] = value as [number, number];
    return [partG / wholeG, { ...facts, [check.numbers![0]]: partG, [check.numbers![1]]: wholeG }];
  }
  return [value as number, facts];
}

/** A share against its limit; true when past it. Too few prawns to tell are asked for, not judged. */
function tellShare(judged: Judged, name: string, share: number, code: string, limit: Limit, facts: Facts, few: Limit): boolean {
  const isUnsure = !isFineFor(limit, share) && !isFineFor(few, facts.looked_at as number) && isFineFor(limit, facts.low as number);
  if (!isUnsure) return judged.measure(name, share, code, limit, facts);
  judged.checks[name] = "cannot_tell";
  const asked = { ...facts, of: code, least: few.bound ?? 0, group: "pieces_of" };
  const { bound, sense, unit } = limit;
  judged.findings.push(finding("PIECES-UNSURE", few, { measured: share, unit, bound, sense, facts: asked }));
  return true;
}

export function judgeChecks(judged: Judged, on: string, seen: Seen, limits: Limits, ordered: object | null = null): void {
  for (const check of checksOn(on)) {
    const isOpen = (judged.checks[check.answers] ?? "not_checked") === "not_checked";
    if (check.judged_by === undefined && isOpen) judge(judged, check, seen, limits, ordered);
  }
}

function judge(judged: Judged, check: Check, seen: Seen, limits: Limits, ordered: object | null): void {
  const value = seen[check.name] ?? null;
  if (check.type === "choice" && value !== null) {
    const choice = check.choices[value as string]!;
    if (isOutcome(choice) && isFor(choice, ordered)) judged.see(check.answers, true, choice.code, limits.get(choice.limit));
    else judged.checks[check.answers] = "within";
  } else if (check.type === "flags" && value !== null) {
    judgeSigns(judged, check, seen, limits, ordered);
  } else if (check.type === "choice" || check.type === "flags") {
    if (isAskedFor(check, ordered)) judged.leave(check.answers);
  } else if (isAskedFor(check, ordered)) {
    judgeMeasured(judged, check, seen, limits, ordered);
  }
}

function judgeSigns(judged: Judged, check: Check, seen: Seen, limits: Limits, ordered: object | null): void {
  const signs = [...(seen[check.name] as string[])];
  judged.checks[check.answers] = "within";
  for (const own of signs.map((sign) => check.choices[sign]!)) {
    if (isOutcome(own) && isFor(own, ordered)) judged.see(check.answers, true, own.code, limits.get(own.limit));
  }
  const found = outcomesFor(check, ordered).find((outcome) => fits(outcome, signs, seen));
  if (signs.length > 0 && found !== undefined) judged.see(check.answers, true, found.code, limits.get(found.limit), { signs });
}

function judgeMeasured(judged: Judged, check: Check, seen: Seen, limits: Limits, ordered: object | null): void {
  const outcomes = outcomesFor(check, ordered);
  const measured = measuredOf(check, seen);
  const lookedAt = numberSeen(seen, "looked_at");
  const any = check.part_of === undefined ? null : numberSeen(seen, check.part_of);
  if (measured !== null) {
    const [share, facts] = measured;
    for (const { code, limit: name } of outcomes) {
      const limit = limits.get(name);
      const isPast =
        check.type === "pieces"
          ? tellShare(judged, check.answers, share, code, limit, facts, limits.get("looked_at"))
          : judged.measure(check.answers, share, code, limit, facts);
      if (isPast) return;
    }
  } else if (any !== null && lookedAt !== null) {
    const isFine = isFineFor(limits.get(outcomes[0]!.limit), any / lookedAt);
    judged.checks[check.answers] = isFine ? "within" : "cannot_tell";
  } else {
    judged.leave(check.answers);
  }
}
