/** A scanned text turned into the particulars of the label, with a sentence when it cannot be. */
import { labelFromScan, particularsFromScan, UnusableScan } from "../camera/scan_text";
import type { Label } from "../store/document";

export interface ScannedLabel {
  label: Partial<Label>;
  sentence: string | null;
}

const SENTENCES: Record<string, string> = {
  "SCAN-01": "This code does not hold what a carton's label needs. The text is kept. Type lot and date from the printed label.",
  "SCAN-02":
    "A check digit in this code is wrong, so part of it was misread. Nothing was taken over. Scan again, or type from the printed label.",
  "SCAN-03": "This code holds identifiers that may not stand together. Nothing was taken over. Type from the printed label.",
};
const WARNINGS: Record<string, string> = {
  lost_separator: "The scanned lot may hold a date as well: a separator may be lost. Compare with the printed label.",
  no_product_key: "The code names a lot but no product. What it says was taken over. Compare with the printed label.",
};

/** Particulars that the scan states; what it leaves out stays as it was. */
export function scanLabel(text: string, currentYear = new Date().getFullYear()): ScannedLabel {
  try {
    const stated = Object.entries(labelFromScan(text, currentYear)).filter(([, value]) => value !== "" && value !== null);
    const [warning] = particularsFromScan(text, currentYear).warnings;
    return { label: Object.fromEntries(stated) as Partial<Label>, sentence: warning ? (WARNINGS[warning] ?? null) : null };
  } catch (error) {
    if (!(error instanceof UnusableScan)) throw error;
    return { label: { scan: text }, sentence: SENTENCES[error.code] ?? SENTENCES["SCAN-01"]! };
  }
}
