/** Words and geometry of the comparison. No DOM. */
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
  if (!row.cartons_opened) return "No data: no carton of this supplier was opened in this period.";
  if (row.too_few) {
    return `Too few to say: ${counted(row.cartons_opened, "carton")} opened over ${counted(row.deliveries_opened, "delivery")}. It takes ${threshold.cartons} over ${threshold.deliveries}.`;
  }
  if (row.luck === null) return "No comparison is possible: the others brought too little of these goods to the same sites.";
  return luckWords(row.luck);
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

/** Found beside what the others' rates would give: the sum behind the comparison, in one sentence. */
export function besideOthers(row: BesideOthers): string {
  if (!row.comparable || row.expected === null) return "";
  const { own, others } = row.comparable;
  const base = `At the others' rates (${others.defective} of ${others.cartons_opened}), the same goods at the same sites would have given ${decimal(row.expected, 1)} defective cartons; ${own.defective} were found`;
  if (row.ratio === null) return `${base}.`;
  const end =
    row.ratio_high === null ? `at least ${decimal(row.ratio_low, 2)}` : `${decimal(row.ratio_low, 2)} to ${decimal(row.ratio_high, 2)}`;
  return `${base}: ${times(row.ratio)} as many (95 % interval ${end}; 1 is like the others).`;
}

/** Everything refused of late is a fact of its own, however few cartons were opened. */
export function refusedWords(run: RefusedRun | null): string {
  if (!run) return "";
  const what = run.deliveries === 1 ? "All of its last delivery was" : `All of its last ${run.deliveries} deliveries were`;
  return `${what} refused: ${counted(run.cartons, "carton")} since ${day(run.since)}.`;
}

/** When much of the goods had nobody to be compared with, that comes before any conclusion. */
export function aloneWords(share: number | null): string {
  if (share === null || share < 0.2) return "";
  return `${percent(share)} of its opened cartons are goods that nobody else brought to that site: they are left out of the comparison.`;
}
