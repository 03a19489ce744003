// Mirror of inspections/trade/checks.py.

import type { Reader } from "./entries";
import type { Judged } from "./findings";
import { wilson } from "./intervals";
import { isFineFor, type Limits } from "./limits";
import { MAX_PIECES, type Facts } from "./quantities";
import { checksOn, isAskedFor, isOutcome, type Check } from "./registry";

type Answer = string | number | string[] | [number, number] | null;
export type Seen = Record<string, Answer>;

export const numberSeen = (seen: Seen, name: string): number | null => seen[name] as number | null;
export const textSeen = (seen: Seen, name: string): string | null => seen[name] as string | null;

/** A path as the key of what holds the entry ("" for the top) and its own key. */
export function splitPath(path: string): [holder: string, key: string] {
  const dot = path.lastIndexOf(".");
  return [path.slice(0, Math.max(dot, 0)), path.slice(dot + 1)];
}

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
      return reader.words(value, path, Object.keys(check.choices));
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

function part(
  reader: Reader,
  check: Check,
  partG: number | null,
  wholeG: number | null,
  path: string,
): [number, number] | null {
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

export function judgeChecks(judged: Judged, on: string, seen: Seen, limits: Limits, ordered: object | null = null): void {
  for (const check of checksOn(on)) {
    const isOpen = (judged.checks[check.answers] ?? "not_checked") === "not_checked";
    if (check.judged_by === undefined && isOpen) judge(judged, check, seen, limits, isAskedFor(check, ordered));
  }
}

function judge(judged: Judged, check: Check, seen: Seen, limits: Limits, isAsked: boolean): void {
  const value = seen[check.name] ?? null;
  if (check.type === "choice" && value !== null) {
    const choice = check.choices[value as string]!;
    if (isOutcome(choice)) judged.see(check.answers, true, choice.code, limits.get(choice.limit));
    else judged.checks[check.answers] = "within";
  } else if (check.type === "flags" && value !== null) {
    const signs = [...(value as string[])];
    const { code, limit } = check.outcomes[0]!;
    judged.see(check.answers, signs.length > 0, code, limits.get(limit), { signs });
  } else {
    judgeMeasured(judged, check, seen, limits, isAsked);
  }
}

function judgeMeasured(judged: Judged, check: Check, seen: Seen, limits: Limits, isAsked: boolean): void {
  const measured = measuredOf(check, seen);
  const lookedAt = numberSeen(seen, "looked_at");
  const any = check.part_of === undefined ? null : numberSeen(seen, check.part_of);
  if (measured !== null) {
    for (const { code, limit } of check.outcomes) {
      if (judged.measure(check.answers, measured[0], code, limits.get(limit), measured[1])) return;
    }
  } else if (any !== null && lookedAt !== null) {
    const isFine = isFineFor(limits.get(check.outcomes[0]!.limit), any / lookedAt);
    judged.checks[check.answers] = isFine ? "within" : "cannot_tell";
  } else if (isAsked) {
    judged.leave(check.answers);
  }
}
