/** Words of the list of deliveries. */
import { t } from "../../messages";
import { dayOfPhone } from "../../state/clock.svelte";
import { session } from "../../state/session.svelte";
import { progressOf, type Step } from "../../state/steps";
import type { Line } from "../../store/document";
import { dayShown } from "./readings";

/** How many questions are left, and why it is more than it was. */
export const leftShown = (steps: Step[], lines: Line[]): string => t("dock-progress", { ...progressOf(steps, lines) });

export const supplierShown = (id: string): string => (id ? session.supplierName(id) : t("dock-home-supplier-not-chosen"));

/** "today", "was due 24.11.2026", "26.11.2026", by this phone's own day. */
export function dayWord(iso: string, now: number): string {
  const today = dayOfPhone(now);
  if (iso === today) return t("dock-home-today");
  return iso < today ? t("dock-home-was-due", { day_shown: dayShown(iso) }) : dayShown(iso);
}
