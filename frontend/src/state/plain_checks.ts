/** The plain checks as a step of the walk asks them: where an answer stands, what is sound, what is still open. */
import type { Carton, Vehicle } from "../store/document";
import { CHECKS, isOffered, splitPath, type Check } from "../trade/registry";

export type Answer = string | number | string[];
/** Answers by the name of the check; absent or null is not checked. */
export type Answers = Record<string, Answer | null>;
type Holder = Record<string, unknown>;

/** The rows that a step asks, in their places; those that goods as ordered are not asked about are left out. */
export function checksOfStep(step: string, ordered: object | null = null): Check[] {
  const place = (check: Check) => check.place ?? 0;
  // What a specification leaves open (how the goods are packed) is asked about.
  const isAsked = (check: Check) =>
    Object.entries(check.asked_for ?? {}).every(([key, values]) => {
      const told = (ordered as Holder | null)?.[key] ?? null;
      return told === null || values.includes(told);
    });
  return CHECKS.filter((check) => check.step === step && isAsked(check)).sort((a, b) => place(a) - place(b));
}

/** Checks that may stay without an answer: a smell that was not taken says so at the verdict. */
export const leftOpen = (carton: Carton): string[] => ((carton.odour_taken ?? null) === null ? ["odour"] : []);

/** An answer as it is given now: a word by itself, kept when one sign only could be given, as the signs that it means. */
export function signsOf(check: Check, answer: unknown): Answer | null {
  if (check.none === undefined || typeof answer !== "string") return answer as Answer | null;
  return answer === check.none ? [] : [answer];
}

export function answerAt(held: Vehicle | Carton | null, check: Check): Answer | null {
  const [holder, key] = splitPath(check.at);
  const own = (holder === "" ? held : (held as unknown as Holder | null)?.[holder]) as Holder | null | undefined;
  return signsOf(check, own?.[key] ?? null);
}

export function answersOf(held: Vehicle | Carton | null, checks: readonly Check[]): Answers {
  return Object.fromEntries(checks.map((check) => [check.name, answerAt(held, check)]));
}

/** Writes the answers where they belong; pieces that were not counted leave no entry. */
export function writeAnswers(held: Vehicle | Carton, checks: readonly Check[], answers: Answers): void {
  for (const check of checks) {
    const [holder, key] = splitPath(check.at);
    const entries = held as unknown as Record<string, Holder>;
    const own = holder === "" ? (held as unknown as Holder) : (entries[holder] ??= {});
    const answer = answers[check.name] ?? null;
    if (answer === null && check.type === "pieces") delete own[key];
    else own[key] = answer;
  }
}

export function soundAnswer(check: Check): Answer {
  if (check.type === "pieces") return 0;
  return check.type === "flags" ? [] : Object.keys(check.choices)[0]!;
}
/** What one tap for all of it answers: what could be seen, and nothing more. */
export const soundAnswers = (checks: readonly Check[], ordered: object | null): Answers =>
  Object.fromEntries(checks.filter((check) => !isOffered(check, ordered ?? {})).map((check) => [check.name, soundAnswer(check)]));
export const isSound = (check: Check, answer: Answer | null): boolean => JSON.stringify(answer) === JSON.stringify(soundAnswer(check));

/** The first row without an answer. Of pieces a dash may stay, as not checked, once any was counted. */
export function firstOpen(checks: readonly Check[], answers: Answers): Check | null {
  const isOpen = (check: Check) => (answers[check.name] ?? null) === null;
  const pieces = checks.filter((check) => check.type === "pieces");
  const rest = checks.filter((check) => check.type !== "pieces");
  return (pieces.every(isOpen) ? pieces[0] : undefined) ?? rest.find(isOpen) ?? null;
}

/** Every plain check of a new vehicle or carton, not checked yet; the caller adds the rest of it. */
export function unanswered<T>(on: "vehicle" | "carton"): T {
  const entries: Holder = {};
  for (const check of CHECKS.filter((one) => one.on === on)) {
    const [holder, key] = splitPath(check.at);
    if (holder === "") entries[key] = null;
    else if (check.step !== undefined) entries[holder] ??= {};
    if (check.note !== undefined) entries[check.note] = "";
  }
  return entries as T;
}
