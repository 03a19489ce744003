/** Behind each reason: what was measured, by what formula, against which limit, and where the limit comes from. */
import { WORDS, filled, shown, word } from "../../trade/wording";
import type { Basis, Reason } from "../../trade/types";
import { measure } from "../words";

export interface Why {
  measured: string;
  formula: string;
  limit: string;
  source: string;
  words: string;
}

const LINES = WORDS.why as Record<string, string>;
/** Formulas by the facts that they need; the first whose facts are all there is the one that was used. */
const FORMULAS: readonly [name: string, needs: readonly string[]][] = [
  ["count", ["pieces", "weight_g"]],
  ["share", ["affected", "looked_at"]],
  ["mean", ["units", "mean_g", "declared_g"]],
  ["net", ["declared_g", "net_g"]],
  ["glaze", ["glaze_percent", "declared_percent"]],
  ["life", ["days", "total_days"]],
  ["tally", ["opened"]],
];
const FACT_UNITS: Record<string, string> = {
  low: "share", high: "share", mean_g: "g", declared_g: "g", net_g: "g", weight_g: "g",
  glaze_percent: "percent", declared_percent: "percent", days: "days",
};

export function whyOf(reason: Reason): Why {
  const bound = reason.bound === null ? "" : measure(reason.bound, reason.unit);
  const basis = reason.basis;
  return {
    measured: reason.measured === null ? LINES.finding! : measure(reason.measured, reason.unit),
    formula: formulaOf(reason, bound),
    limit: reason.sense && bound ? filled(word("sense", reason.sense), { bound }) : word("sense", "none"),
    source: basis ? sourced(basis) : "no source is on record",
    words: basis?.words ?? "",
  };
}

/** "Common practice" is said once: many sources are written that way already. */
function sourced(basis: Basis): string {
  return basis.known === "common_practice" && /common practice/.test(basis.source)
    ? basis.source
    : `${basis.source} (${word("known", basis.known)})`;
}

function formulaOf(reason: Reason, bound: string): string {
  const has = (name: string) => reason.facts[name] !== undefined && reason.facts[name] !== null;
  const found = FORMULAS.find(([, needs]) => needs.every(has));
  if (!found || reason.measured === null) return "";
  const places = Object.fromEntries(Object.entries(reason.facts).map(([name, fact]) => [name, told(name, fact)]));
  const text = filled(LINES[found[0]] ?? "", { ...places, measured: measure(reason.measured, reason.unit), bound });
  // A formula with a hole would puzzle more than it explains.
  return /\{[a-z_]+\}/.test(text) ? "" : text;
}

function told(name: string, fact: unknown): string {
  if (typeof fact !== "number") return String(fact);
  return FACT_UNITS[name] ? measure(fact, FACT_UNITS[name]) : Number.isInteger(fact) ? String(fact) : shown(fact, 2);
}
