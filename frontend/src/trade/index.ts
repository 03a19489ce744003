// What the screens and the store use of the judgements.

export type * from "./types";
export { judgeDocument } from "./verdict";
export { explain } from "./reasons";
export { thermometerSnapshot } from "./temperature";
export { shown, shownMeasure, typeset, typesetSum, word } from "./wording";
export { scoreByPrevalence } from "./condition";
export {
  BY_CODE,
  candidates,
  MARKS,
  marksToCheck,
  nextQuestion,
  shownName,
  type KeyAnswers,
  type KeyQuestion,
  type Species,
  type TraitValue,
} from "./species";
