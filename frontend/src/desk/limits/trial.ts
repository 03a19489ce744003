/** The table of a trial: own limits beside those tried. */
import { t } from "../../messages/desk";
import { word } from "../../trade";
import type { Trial } from "../../trade/types";
import { counted } from "../words";

const KINDS = ["accept", "accept_with_allowance", "hold", "reject", "not_yet"];
type Side = Trial["before"];
interface TrialRow {
  what: string;
  own: string;
  tried: string;
}

export function trialRows({ before, after }: Trial): TrialRow[] {
  const row = (what: string, shown: (side: Side) => string): TrialRow => ({ what, own: shown(before), tried: shown(after) });
  const of = (some: number, all: number): string => t("desk-try-of", { some, all });
  const kinds = KINDS.filter((kind) => before.suggestions[kind] || after.suggestions[kind]);
  return [
    ...kinds.map((kind) =>
      row(t("desk-try-lines", { suggestion: word("suggestion", kind).toLowerCase() }), ({ suggestions }) => String(suggestions[kind] ?? 0)),
    ),
    row(t("desk-try-refused"), ({ refused }) => String(refused)),
    row(t("desk-try-held"), ({ held }) => String(held)),
    row(t("desk-try-bad"), ({ bad, opened }) => of(bad, opened)),
    row(t("desk-try-caught"), ({ known_caught, known_bad }) => of(known_caught, known_bad)),
    row(t("desk-try-missed"), missedWords),
  ];
}

function missedWords({ missed }: Side): string {
  if (missed === null) return t("desk-try-none-unopened");
  const { about, low, high, closed } = missed;
  return t("desk-try-interval", { about: Math.round(about), closed, low: Math.round(low), high: Math.round(high) });
}

export function changeWords(one: Trial["changed"][number]): string {
  const side = (kind: string, refused: number): string =>
    t("desk-try-side", { suggestion: word("suggestion", kind).toLowerCase(), cartons: counted(refused, "carton") });
  return t("desk-try-change", { before: side(one.before, one.refused_before), after: side(one.after, one.refused_after) });
}
