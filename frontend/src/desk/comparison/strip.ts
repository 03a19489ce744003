/** Words and geometry of the comparison. No DOM. */
import type { Allowed, Comparison, Luck, Rate, SupplierRow } from "../shapes";
import { counted, decimal, percent } from "../words";

export interface Interval {
  mid: number;
  low: number;
  high: number;
}
export type View = "crude" | "allowed";

export function intervalOf(row: Rate & Allowed, view: View): Interval | null {
  const [mid, low, high] =
    view === "crude" ? [row.rate, row.low, row.high] : [row.allowed_rate, row.allowed_low, row.allowed_high];
  return mid === null || low === null || high === null ? null : { mid, low, high };
}

/** End of the common scale: the widest interval that may be read, rounded up to a whole step. */
export function scaleEnd(told: Comparison, view: View): number {
  const spoken = told.rows.filter((row) => !row.too_few);
  const rows = spoken.length ? spoken : told.rows;
  const most = Math.max(0.05, told.common.high ?? 0, ...rows.map((row) => intervalOf(row, view)?.high ?? 0));
  const step = most > 0.5 ? 0.2 : most > 0.2 ? 0.1 : most > 0.1 ? 0.05 : 0.02;
  return Math.min(1, Math.ceil(most / step - 1e-9) * step);
}
export function ticksTo(end: number): number[] {
  return [0, end / 4, end / 2, (3 * end) / 4, end];
}

/** What may be said of a supplier, in one sentence; never a place in a league. */
export function standing(row: SupplierRow, threshold: Comparison["threshold"]): string {
  if (!row.cartons_opened) return "No data: no carton of this supplier was opened in this period.";
  if (row.too_few) {
    return `Too few to say: ${counted(row.cartons_opened, "carton")} opened over ${counted(row.deliveries_opened, "delivery", "deliveries")}. It takes ${threshold.cartons} over ${threshold.deliveries}.`;
  }
  if (row.ratio === null) return "No defective carton was found in these goods by anybody: nothing to compare.";
  return row.luck === null ? "Nothing can be said of luck in these goods." : luckWords(row.luck);
}

/** Luck or more, with the chance that luck alone goes as far. */
export function luckWords(luck: Luck): string {
  if (luck.says === "within") return "Within what luck explains, in the same goods at the same sites.";
  const far = luck.one_in === null ? "" : `: ${oneIn(luck.one_in)} that luck alone goes as far`;
  const which = luck.says === "more" ? "More defective cartons than luck explains" : "Fewer defective cartons than luck explains";
  return `${which}${far}, in the same goods at the same sites.`;
}
/** "1 chance in 700"; beyond a million the number is no longer worth reading. */
export function oneIn(number: number): string {
  return number > 1_000_000 ? "less than 1 chance in 1,000,000" : `1 chance in ${number.toLocaleString("en-GB")}`;
}

/** The plain difference to all the others together, in points, whatever goods they brought. */
export function differenceWords({ share, low, high }: { share: number; low: number; high: number }): string {
  const points = (value: number) => decimal(100 * value, 1);
  const way = share < 0 ? "below" : "above";
  return `As counted, ${decimal(Math.abs(100 * share), 1)} points ${way} all the others together (${points(low)} to ${points(high)} points). This does not allow for its goods.`;
}

/** When much of the goods had nobody to be compared with, that comes before any conclusion. */
export function aloneWords(share: number | null): string {
  if (share === null || share < 0.2) return "";
  return `${percent(share)} of its opened cartons are goods that nobody else brought to that site: there it is only compared with itself.`;
}
