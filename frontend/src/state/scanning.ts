/** A scanned text turned into the particulars of the label. */
import type { Label } from "../store/document";

export async function scanLabel(text: string): Promise<{ label: Partial<Label>; sentence: string | null }> {
  return { label: { scan: text }, sentence: null };
}
