// What the screens and the store use of the judgements.

export type * from "./types";
export { judgeDocument, JUDGEMENT_VERSION } from "./verdict";
export { explain, sentenceOf, type Why, type WhyValue } from "./reasons";
export { thermometerSnapshot } from "./probing";
export { DEFAULT_LIMITS, limitsFromJson, UnusableLimits } from "./limits";
export { filled, listed, shown, shownMeasure, typeset, typesetSum, word, WORDS } from "./wording";
export { scoreByPrevalence } from "./condition";
export {
  BY_CODE,
  candidates,
  KEY,
  MARKS,
  marksToCheck,
  naturalColour,
  nextQuestion,
  shownName,
  type KeyAnswers,
  type KeyQuestion,
  type Mark,
  type Species,
  type TraitValue,
} from "./species";
export { gs1Date, hasSwallowedDate } from "./gs1";
export { missingParticulars } from "./labels";
