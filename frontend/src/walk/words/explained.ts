/** What the judgements explain of a result that is no reason: numbers in words, sum, limit, sources. */
import { t } from "../../messages";
import type { LimitSet, Line, Reading, Specification } from "../../store/document";
import { shown, shownMeasure, word } from "../../trade";
import { explainCount } from "../../trade/counts";
import { customaryPer, gradeUnit, parseGrade } from "../../trade/grades";
import { toGrams } from "../../trade/quantities";
import { explainSample, planFor } from "../../trade/sampling";
import type { Basis } from "../../trade/types";
import type { Sample } from "../../trade/uniformity";

export interface Explained {
  formula: string;
  /** The same with this case's numbers in it. */
  sum: string;
  numbers: { words: string; shown: string }[];
  limit: string;
  sources: string[];
}
/** Words and unit of each number; one that is not listed is not shown. */
const NUMBERS: Record<string, [words: string, unit: string]> = {
  pieces: [t("dock-explained-prawns-weighed"), "number"],
  deglazed_g: [t("dock-explained-weight-without-glaze"), "g"],
  count: [t("dock-explained-count"), "count"],
  low: [t("dock-explained-lowest-possible-95"), "count"],
  high: [t("dock-explained-highest-possible-95"), "count"],
  spread: [t("dock-explained-spread-piece-weights"), "share"],
  lot: [t("dock-explained-cartons-delivered"), "number"],
  planned: [t("dock-explained-cartons-that-plan"), "number"],
  bad_if_one_in_five: [t("dock-explained-bad-cartons-if"), "number"],
  miss_chance: [t("dock-explained-chance-open-none"), "share"],
  upper_bad: [t("dock-explained-bad-cartons-that"), "number"],
};

function numbersOf(numbers: Record<string, unknown>, countUnit = ""): Explained["numbers"] {
  return Object.entries(NUMBERS).flatMap(([name, [words, unit]]) => {
    const value = numbers[name];
    if (typeof value !== "number") return [];
    return [{ words, shown: unit === "number" ? shown(value, 0) : shownMeasure(value, unit === "count" ? countUnit : unit) }];
  });
}
const sourceOf = ({ source, known, words }: Basis): string => `${words}. ${source.replace(/^none: /, "")} (${word("known", known)}).`;

type Numbers = Record<string, number | null>;
function explained(facts: Record<string, unknown>, limit: string, sum: (numbers: Numbers) => string, countUnit = ""): Explained {
  return {
    formula: facts.formula as string,
    sum: sum(facts.numbers as Numbers),
    numbers: numbersOf(facts.numbers as Record<string, unknown>, countUnit),
    limit,
    sources: (facts.source as Basis[]).map(sourceOf),
  };
}

/** Why a weighed sample is, or is not, or may be the size ordered. */
export function explainedSize(pieces: number, weight: Reading, weightIs: Sample["weight_is"], specification: Specification): Explained {
  const grade = parseGrade(specification.grade, customaryPer(specification.presentation));
  const facts = explainCount({ pieces, weight_g: toGrams(weight), weight_is: weightIs }, grade);
  const unit = gradeUnit(grade);
  const kind = grade.low === null ? "up_to" : grade.high === null ? "from" : "between";
  return explained(
    facts,
    t("dock-explained-size", {
      kind,
      size: grade.text,
      low: String(grade.low),
      high: String(grade.high),
      unit: shownMeasure(0, unit).replace(/^[0-9.]+/, ""),
    }),
    ({ pieces: prawns, deglazed_g, count }) =>
      `${prawns} × ${grade.per === "lb" ? "453.59237" : "1000"} / ${shownMeasure(deglazed_g!, "g")} = ${shownMeasure(count!, unit)}`,
    unit,
  );
}

/** Why so many cartons are opened, and what a clean sample of them would leave possible. */
export function explainedDraw(lot: number, opened: number, line: Line, limits: LimitSet): Explained {
  const plan = planFor(line.sampling?.plan ?? limits.default_plan, lot);
  return explained(
    explainSample(plan, opened, 0),
    t("dock-explained-plan", { bad: plan.acceptance }),
    ({ bad_if_one_in_five: bad, miss_chance }) =>
      `C(${bad}, 0) C(${lot} − ${bad}, ${opened}) / C(${lot}, ${opened}) = ${shownMeasure(miss_chance!, "share")}`,
  );
}
