/** What a weighed sample says of the size ordered, said while it is being weighed and again at deciding. */
import type { Carton, Reading, Specification } from "../store/document";
import { shownMeasure } from "../trade";
import { countSample, judgeCount } from "../trade/counts";
import { customaryPer, gradeUnit, nearestGrade, parseGrade, type Grade } from "../trade/grades";
import { toGrams, Unusable } from "../trade/quantities";
import type { Sample } from "../trade/uniformity";

export interface SizeSays {
  tone: "good" | "warn" | "bad";
  words: string;
  /** Too close to an edge of the size to tell from so few pieces. */
  isUnsure: boolean;
}

/** Null where there is no size to meet, or nothing that can be counted yet. */
export function sizeSays(pieces: number, weight: Reading, weightIs: Sample["weight_is"], specification: Specification | null): SizeSays | null {
  if (weightIs === "glazed") return { tone: "warn", words: "Weighed with its glaze: the size cannot be told. Weigh it without.", isUnsure: false };
  try {
    const grade = specification ? parseGrade(specification.grade, customaryPer(specification.presentation)) : null;
    return grade ? saysOf({ pieces, weight_g: toGrams(weight), weight_is: weightIs }, grade) : null;
  } catch (problem) {
    if (problem instanceof Unusable) return null; // half typed: the pad itself says what is wrong
    throw problem;
  }
}

function saysOf(sample: Sample, grade: Grade): SizeSays | null {
  const count = countSample(sample, grade.per);
  if ("kind" in count) return null;
  const found = shownMeasure(count.value, gradeUnit(grade));
  const answer = judgeCount(sample, grade);
  if (answer.kind === "within") return { tone: "good", words: `${found}: size ${grade.text}, as ordered.`, isUnsure: false };
  const nearest = nearestGrade(count.value, grade.per).text;
  if (answer.kind === "beyond") return { tone: "bad", words: `${found}: not ${grade.text}. Nearest size ${nearest}.`, isUnsure: false };
  if (answer.kind !== "cannot_tell" || answer.reasons[0] !== "COUNT-UNSURE") return null;
  return { tone: "warn", words: `${found}: too close to the edge of ${grade.text} to tell from ${sample.pieces} pieces. ${moreWords(answer.facts.weigh_more)}`, isUnsure: true };
}

const moreWords = (more: unknown): string =>
  typeof more === "number" ? `About ${more} more would tell.` : "Only weighing the whole pack would tell.";

/** The same for a carton as it stands in the record. */
export function sizeOfCarton(carton: Carton, specification: Specification | null): SizeSays | null {
  const { sample } = carton;
  return sample?.weight && sample.pieces ? sizeSays(sample.pieces, sample.weight, sample.weight_is, specification) : null;
}
