/** A scanned text turned into the particulars of the label, with a sentence when it cannot be. */
import { t } from "../messages";
import { labelFromScan, particularsFromScan, UnusableScan } from "../camera/scan_text";
import type { Label } from "../store/document";

export interface ScannedLabel {
  label: Partial<Label>;
  sentence: string | null;
}

/** Particulars that the scan states; what it leaves out stays as it was. */
export function scanLabel(text: string, currentYear = new Date().getFullYear()): ScannedLabel {
  try {
    const stated = Object.entries(labelFromScan(text, currentYear)).filter(([, value]) => value !== "" && value !== null);
    const [warning] = particularsFromScan(text, currentYear).warnings;
    return { label: Object.fromEntries(stated) as Partial<Label>, sentence: warning ? t(`dock-scan-${warning}`) : null };
  } catch (error) {
    if (!(error instanceof UnusableScan)) throw error;
    return { label: { scan: text }, sentence: t(`dock-scan-${error.code}`) };
  }
}
