/** Words about a logger file that the server leaves to the screen. */
import { t } from "../../messages/desk";
import { sourceWords as sourceOf } from "../../trade/reasons";
import { WORDS, filled } from "../../trade/wording";
import type { Basis } from "../../trade/types";

/** Where limits or figures come from, each source once. */
export function sourceWords(bases: readonly Basis[]): string {
  const template = (WORDS.why as Record<string, string>).source!;
  const said = bases.map((one) => filled(template, { source: sourceOf(one) }));
  return [...new Set(said)].join(" ");
}

/** Whose clock the times are by, and what else had to be told. */
export function clockWords(answers: Record<string, string>): string {
  const zone = answers.zone ? t("desk-logger-files-times-no-zone", { zone: answers.zone }) : t("desk-logger-files-times-carry-their");
  const unit = answers.unit ? ` ${t("desk-logger-its-unit-told", { unit: answers.unit })}` : "";
  const order =
    answers.day_order === "day_first"
      ? ` ${t("desk-logger-told-day-comes-first")}`
      : answers.day_order
        ? ` ${t("desk-logger-told-month-comes-first")}`
        : "";
  return zone + unit + order;
}
