/** Words and geometry of the comparison. No DOM. */
import { t } from "../../messages/desk";
import type { BesideOthers, Comparison, Luck, Rate, RefusedRun, SupplierRow } from "../../trade/types";
import { counted, day, decimal, percent, times } from "../words";

export interface Interval {
  mid: number;
  low: number;
  high: number;
}

export function intervalOf(row: Rate): Interval | null {
  const { rate: mid, low, high } = row;
  return mid === null || low === null || high === null ? null : { mid, low, high };
}

/** End of the common scale: the widest interval that may be read, rounded up to a whole step. */
export function scaleEnd(told: Comparison): number {
  const spoken = told.rows.filter((row) => !row.too_few);
  const rows = spoken.length ? spoken : told.rows;
  const most = Math.max(0.05, told.common.high ?? 0, ...rows.map((row) => row.high ?? 0));
  const step = most > 0.5 ? 0.2 : most > 0.2 ? 0.1 : most > 0.1 ? 0.05 : 0.02;
  return Math.min(1, Math.ceil(most / step - 1e-9) * step);
}
export function ticksTo(end: number): number[] {
  return [0, end / 4, end / 2, (3 * end) / 4, end];
}

/** What may be said of a supplier, in one sentence; never a place in a league. */
export function standing(row: SupplierRow, threshold: Comparison["threshold"]): string {
  if (!row.cartons_opened) return t("desk-comparison-no-data-said");
  if (row.too_few) {
    return t("desk-comparison-too-few-said", {
      cartons: counted(row.cartons_opened, "carton"),
      deliveries: counted(row.deliveries_opened, "delivery"),
      least: String(threshold.cartons),
      over: String(threshold.deliveries),
    });
  }
  if (row.luck === null) return t("desk-comparison-no-comparison");
  return luckWords(row.luck);
}

/** Luck or more, with the chance that luck alone goes as far. */
export function luckWords(luck: Luck): string {
  if (luck.says === "within") return t("desk-comparison-within");
  const far = luck.one_in === null ? "" : t("desk-comparison-as-far", { chance: oneIn(luck.one_in) });
  return t(`desk-comparison-luck-${luck.says}`, { far });
}
/** "1 chance in 700"; beyond a million the number is no longer worth reading. */
export function oneIn(number: number): string {
  return number > 1_000_000 ? t("desk-comparison-hardly") : t("desk-comparison-one-in", { number: number.toLocaleString("en-GB") });
}

/** The plain difference to all the others together, in points, whatever goods they brought. */
export function differenceWords({ share, low, high }: { share: number; low: number; high: number }): string {
  const points = (value: number) => decimal(100 * value, 1);
  const way = share < 0 ? "below" : "above";
  return t(`desk-comparison-points-${way}`, { points: decimal(Math.abs(100 * share), 1), low: points(low), high: points(high) });
}

/** Found beside what the others' rates would give: the sum behind the comparison, in one sentence. */
export function besideOthers(row: BesideOthers): string {
  if (!row.comparable || row.expected === null) return "";
  const { own, others } = row.comparable;
  const others_of = t("desk-comparison-of", { part: String(others.defective), whole: String(others.cartons_opened) });
  const base = { others: others_of, expected: decimal(row.expected, 1), found: String(own.defective) };
  if (row.ratio === null) return t("desk-comparison-beside", base);
  const low = decimal(row.ratio_low, 2);
  const interval =
    row.ratio_high === null ? t("desk-comparison-or-more", { low }) : t("desk-comparison-to", { low, high: decimal(row.ratio_high, 2) });
  return t("desk-comparison-beside-times", { ...base, times: times(row.ratio), interval });
}

/** Everything refused of late is a fact of its own, however few cartons were opened. */
export function refusedWords(run: RefusedRun | null): string {
  if (!run) return "";
  const told = { cartons: counted(run.cartons, "carton"), since: day(run.since) };
  return t("desk-comparison-run", { deliveries: run.deliveries, ...told });
}

/** When much of the goods had nobody to be compared with, that comes before any conclusion. */
export function aloneWords(share: number | null): string {
  if (share === null || share < 0.2) return "";
  return t("desk-comparison-alone", { share: percent(share) });
}
