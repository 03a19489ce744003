/** Words about a logger file that the server leaves to the screen. */
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
  const zone = answers.zone
    ? `The file’s times have no zone; they were taken to be by the clock of ${answers.zone}, at the offset of the first reading.`
    : "The file’s times carry their zone.";
  const unit = answers.unit ? ` Its unit was told: °${answers.unit}.` : "";
  const order =
    answers.day_order === "day_first" ? " Told: the day comes first." : answers.day_order ? " Told: the month comes first." : "";
  return zone + unit + order;
}
