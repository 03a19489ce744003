// Mirror of inspections/trade/docket.py.

import type { LineFacts } from "./facts";
import { sentenceOf } from "./reasons";
import type { LineVerdict, Reason } from "./types";
import { SHORT_VALUE } from "./weighing";
import { counted, filled, listed, word, WORDS } from "./wording";

const DOCKET = WORDS["docket"] as Record<string, string>;
type Unworded = Omit<LineVerdict, "wording">;

function quantities(verdict: Unworded, line: LineFacts): [string, Record<string, number> | null] {
  if (line.decision === null) return [verdict.suggestion, verdict.suggested_split];
  const { kind, accepted, refused, held } = line.decision;
  return [kind, { accepted, refused, held }];
}

function outcome(verdict: Unworded, line: LineFacts): string[] {
  const [kind, split] = quantities(verdict, line);
  if (kind === "not_yet") {
    const missing = listed(verdict.needed.map((name) => word("not_checked", name)));
    return [filled(DOCKET["not_yet"]!, { missing })];
  }
  if (split === null) return [DOCKET["uncounted"]!];
  const parts = ["accepted", "refused", "held"]
    .filter((part) => split[part]! > 0)
    .map((part) => filled(DOCKET[part]!, { cartons: counted(split[part]!, "carton") }));
  return parts.length > 0 ? parts : [DOCKET["nothing"]!];
}

function isWritten(reason: Reason): boolean {
  return reason.severity === "critical" || reason.severity === "major" || SHORT_VALUE.has(reason.code);
}

export function lineWording(verdict: Unworded, line: LineFacts, name: string): string {
  const head = name ? filled(DOCKET["line"]!, { name }) : DOCKET["line_unnamed"]!;
  const lot = line.lot ? [filled(DOCKET["lot"]!, { lot: line.lot })] : [];
  // The sentences of the line itself have no place for a carton.
  const reasons = verdict.reasons.filter(isWritten).map((reason) => sentenceOf(reason, true));
  const allowances = verdict.allowances.map(({ formula }) => filled(DOCKET["allowance"]!, { formula }));
  return [head, ...lot, ...outcome(verdict, line), ...reasons, ...allowances].join(" ");
}

export function deliveryWording(
  docketNumber: string,
  lines: readonly LineVerdict[],
  vehicle: readonly Reason[],
): string {
  const head = docketNumber ? [filled(DOCKET["head"]!, { docket: docketNumber })] : [];
  const seen = vehicle.filter((reason) => reason.severity !== "note").map((reason) => reason.text);
  const texts = lines.length > 0 ? lines.map((line) => line.wording) : [DOCKET["no_lines"]!];
  return [...head, ...(seen.length > 0 ? [seen.join(" ")] : []), ...texts].join("\n");
}
