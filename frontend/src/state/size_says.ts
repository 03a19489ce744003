/** What a weighed sample says of the size ordered, said while it is being weighed and again at deciding. */
import { t } from "../messages";
import type { Carton, Reading, Specification } from "../store/document";
import { shownMeasure } from "../trade";
import { countSample, judgeCount } from "../trade/counts";
import { customaryPer, gradeUnit, nearestGrade, parseGrade, type Grade } from "../trade/grades";
import { toGrams, Unusable } from "../trade/quantities";
import type { Sample } from "../trade/uniformity";

export interface SizeSays {
  tone: "good" | "warn" | "bad";
  words: string;
  /** The same in few words, for beside the pad. */
  short: string;
  /** Too close to an edge of the size to tell from so few pieces. */
  isUnsure: boolean;
}

const withGlaze = (): SizeSays => ({
  tone: "warn",
  words: t("dock-size-says-words"),
  short: t("dock-size-says-short"),
  isUnsure: false,
});

/** Null where there is no size to meet, or nothing that can be counted yet. */
export function sizeSays(
  pieces: number,
  weight: Reading,
  weightIs: Sample["weight_is"],
  specification: Specification | null,
): SizeSays | null {
  try {
    const grade = specification ? parseGrade(specification.grade, customaryPer(specification.presentation)) : null;
    if (grade === null || grade.kind === "broken") return null;
    return weightIs === "glazed" ? withGlaze() : saysOf({ pieces, weight_g: toGrams(weight), weight_is: weightIs }, grade);
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
  const said = (tone: SizeSays["tone"], words: string): SizeSays => ({
    tone,
    words: `${found}: ${words}`,
    short: `${found}: ${words}`,
    isUnsure: false,
  });
  if (answer.kind === "within") return said("good", t("dock-size-says-size-as-ordered", { text: grade.text }));
  const nearest = nearestGrade(count.value, grade.per).text;
  if (answer.kind === "beyond") return said("bad", t("dock-size-says-not-nearest-size", { text: grade.text, nearest }));
  if (answer.kind !== "cannot_tell" || answer.reasons[0] !== "COUNT-UNSURE") return null;
  const words = t("dock-size-says-too-close-edge", {
    found,
    text: grade.text,
    pieces: sample.pieces,
    more_words: moreWords(answer.facts.weigh_more),
  });
  return { tone: "warn", words, short: t("dock-size-says-short-too-close-tell", { found, text: grade.text }), isUnsure: true };
}

const moreWords = (more: unknown): string =>
  typeof more === "number" ? t("dock-size-says-about-more-would", { more }) : t("dock-size-says-only-weighing-whole");

/** The same for a carton as it stands in the record. */
export function sizeOfCarton(carton: Carton, specification: Specification | null): SizeSays | null {
  const { sample } = carton;
  return sample?.weight && sample.pieces ? sizeSays(sample.pieces, sample.weight, sample.weight_is, specification) : null;
}
