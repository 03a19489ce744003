/** Which lines get no photo advice, since it is switched off for their specification. No DOM. */
import type { Inspection, Line, Specification } from "../store/document";
import type { Advice } from "../trade/types";

const PRAWNS = ["top", "under_liner", "sample", "defect"];

/** Whether the newest version that this phone knows of the specification wants no advice. */
export function isAdviceOff(specifications: Specification[], versionId: string): boolean {
  const named = specifications.find((one) => one.id === versionId);
  const versions = specifications.filter((one) => one.specification_id === named?.specification_id);
  const newest = versions.reduce((best, one) => (one.version > best.version ? one : best), versions[0]!);
  return named !== undefined && newest.advisory === false;
}

/** Not so where one photo's turn came after switching off: others of the line may have their answers, so each says its own. */
const isAboutTheGoods = ({ answer, reasons }: Advice) =>
  answer === "switched_off" && !reasons.some(({ code }) => code === "WAS-SWITCHED-OFF");

/**
 * Lines with photos of their prawns that get no advice. Once the server has answered, its word holds: a signed
 * delivery keeps what was given, whatever is switched afterwards.
 */
export function linesWithoutAdvice(
  body: Inspection,
  answers: Record<string, Advice | null> | null,
  specifications: Specification[],
  isDraft: boolean,
): Line[] {
  return body.lines.filter((line) => {
    const photos = body.photos.filter((photo) => photo.line_id === line.id && PRAWNS.includes(photo.purpose));
    const answered = photos.filter(({ sha256 }) => answers?.[sha256]);
    if (answered.length) return answered.some(({ sha256 }) => isAboutTheGoods(answers![sha256]!));
    return photos.length > 0 && isDraft && isAdviceOff(specifications, line.specification_id);
  });
}
