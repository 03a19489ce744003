// Mirror of inspections/trade/condition.py.

import type { CartonFacts } from "./carton_facts";
import { judgeChecks, numberSeen, shareFacts } from "./checks";
import { againstItsLimit, Judged, type Finding } from "./findings";
import { isFineFor, SEVERITIES, type Limits } from "./limits";
import { MAX_PIECES, UnusableReading } from "./quantities";
import type { Ordered } from "./specification";

const SAME_FACT = [
  ["BLACK-CODEX", "HEAD-BLACK", "BLACK-HOUSE", "BLACK-SCORE"],
  ["CLUMPS", "CLUMPED"],
];

export function judgeCondition(carton: CartonFacts, ordered: Ordered, limits: Limits): Judged {
  const judged = new Judged();
  judgeChecks(judged, "carton", carton.seen, limits, ordered);
  addBlackShare(judged, carton, limits);
  keepStrongest(judged);
  return judged;
}

/** One fact, one reason: of the findings of one fact the strongest stays. */
function keepStrongest(judged: Judged): void {
  for (const codes of SAME_FACT) {
    const weight = ({ code, limit }: Finding): number => SEVERITIES.indexOf(limit.severity) * 9 + codes.indexOf(code);
    const alike = judged.findings.filter(({ code }) => codes.includes(code)).sort((a, b) => weight(a) - weight(b));
    const kept = judged.findings.filter((found) => !alike.slice(1).includes(found));
    judged.findings.splice(0, judged.findings.length, ...kept);
  }
}

function addBlackShare(judged: Judged, carton: CartonFacts, limits: Limits): void {
  const affected = numberSeen(carton.seen, "black_spot");
  const lookedAt = numberSeen(carton.seen, "looked_at");
  if (affected === null || lookedAt === null) {
    judged.derived["black_share"] = null;
    return;
  }
  const { low, high } = shareFacts(affected, lookedAt);
  judged.derived["black_share"] = affected / lookedAt;
  judged.derived["black_share_low"] = low;
  judged.derived["black_share_high"] = high;
  const limit = limits.get("looked_at");
  const isAsked = judged.findings.some(({ code }) => code === "PIECES-UNSURE");
  if (!isFineFor(limit, lookedAt) && !isAsked) {
    judged.findings.push(againstItsLimit("LOOKED-AT-FEW", limit, lookedAt, { low, high }));
  }
}

export function scoreByPrevalence(smallSpots: number, largeStains: number, wholeBody: number, lookedAt: number): number {
  checkCounts([smallSpots, largeStains, wholeBody], lookedAt);
  if (wholeBody === lookedAt) return 10;
  const stained = largeStains + wholeBody;
  if (stained > 0) return stained / lookedAt <= 0.5 ? 6 : 8;
  if (smallSpots > 0) return smallSpots / lookedAt <= 0.5 ? 2 : 4;
  return 0;
}

function checkCounts(counts: readonly number[], lookedAt: number): void {
  for (const number of [...counts, lookedAt]) {
    if (!Number.isInteger(number) || number < 0 || number > MAX_PIECES) {
      throw new UnusableReading("FACT-03", { low: 0, high: MAX_PIECES });
    }
  }
  if (lookedAt < 1) throw new UnusableReading("FACT-03", { low: 1, high: MAX_PIECES });
  const counted = counts.reduce((sum, number) => sum + number, 0);
  if (counted > lookedAt) throw new UnusableReading("FACT-04", { counted, looked_at: lookedAt });
}
