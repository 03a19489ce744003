/** The words of the plain checks, from the sentences that both runtimes read. */
import { t } from "../../messages";
import { isSound, type Answer } from "../../state/plain_checks";
import type { Check, Tone } from "../../trade/registry";
import { answerWord, WORDS, word } from "../../trade/wording";
import type { Choice } from "./choices";

interface CheckWords {
  label: string;
  question?: string;
  hint?: string;
  /** What is said of it in the list of what is sound. */
  sound?: string;
  note?: string;
  choices?: Record<string, string>;
  hints?: Record<string, string>;
}
export const wordsOf = (check: Check): CheckWords => (WORDS["checks"] as Record<string, CheckWords>)[check.name]!;

export function choicesShown(check: Check): Choice<string>[] {
  const { choices = {}, hints = {} } = wordsOf(check);
  const none: [string, { tone?: Tone }][] = check.none === undefined ? [] : [[check.none, { tone: "good" }]];
  return [...none, ...Object.entries(check.choices)].map(([value, { tone = "" }]) => ({
    value,
    label: choices[value]!,
    hint: hints[value],
    tone,
  }));
}

/** An answer in a few words. */
export function answerShown(check: Check, answer: Answer | null): string {
  if (answer === null) return t("dock-checks-not-checked");
  if (typeof answer === "number") return String(answer);
  const told = (Array.isArray(answer) ? answer : [answer]).map((value) => answerWord(check.name, value));
  return told.join(", ") || (check.none === undefined ? t("dock-checks-none") : answerWord(check.name, check.none));
}

/** What is not sound, row by row; pieces are counted together. */
export function faultsShown(checks: readonly Check[], answers: Record<string, Answer | null>): string {
  const faults = checks.filter((check) => answers[check.name] != null && !isSound(check, answers[check.name]!));
  const pieces = faults.filter((check) => check.type === "pieces").reduce((sum, check) => sum + Number(answers[check.name]), 0);
  const rest = faults.filter((check) => check.type !== "pieces");
  const told = rest.map((check) => `${word("not_checked", check.answers)}: ${answerShown(check, answers[check.name]!)}`);
  return [...(pieces > 0 ? [t("dock-checks-found", { pieces })] : []), ...told].join(", ") || t("dock-checks-all-sound");
}

/** The list that is confirmed in one tap: the pieces in one line, every other row in its own. */
export function soundLines(checks: readonly Check[]): { label: string; words: string }[] {
  const line = (check: Check) => ({ label: wordsOf(check).label, words: wordsOf(check).sound ?? "" });
  const pieces = checks.filter((check) => check.type === "pieces").map((check) => wordsOf(check).sound);
  const counted = pieces.filter(Boolean).join(", ");
  return [
    ...(counted === "" ? [] : [{ label: t("dock-checks-label"), words: counted }]),
    ...checks.filter((check) => check.type !== "pieces").map(line),
  ];
}
