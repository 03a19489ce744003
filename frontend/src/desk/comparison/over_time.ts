/** Words and geometry of counts over time, one by one and added up. No DOM. */
import { t } from "../../messages/desk";
import type { OverTime, Shift, TimePoint } from "../../trade/types";
import { counted, percent } from "../words";

/** A drawing of counts as shares: each point, and the step of its limits, in units of the drawing. */
export interface Drawn {
  top: number;
  bottom: number;
  values: { mid: number; low: number | null; high: number | null; is_out: boolean }[];
}

/** Week by week: shares of defective cartons, from 0 to a whole step above everything drawn. */
export function weekly(told: OverTime): Drawn {
  const values = told.points.map(({ opened, defective, low, high, is_out }) => ({
    mid: defective / opened,
    low: low === null ? null : low / opened,
    high: high === null ? null : high / opened,
    is_out,
  }));
  const most = Math.max(0.05, ...values.map((value) => Math.max(value.mid, value.high ?? 0)));
  const step = most > 0.5 ? 0.2 : most > 0.2 ? 0.1 : most > 0.1 ? 0.05 : 0.02;
  return { top: Math.min(1, Math.ceil(most / step - 1e-9) * step), bottom: 0, values };
}

/** All added up: defective cartons found so far, less what the usual rate would have given up to then. */
export function cumulative(told: OverTime): Drawn {
  const values = told.points.flatMap(({ total }) => {
    if (!total || told.centre === null) return [];
    const usual = told.centre * total.opened;
    return [{ mid: total.defective - usual, low: total.low! - usual, high: total.high! - usual, is_out: total.is_out }];
  });
  const ends = values.flatMap((value) => [value.mid, value.low, value.high]);
  return { top: Math.max(1, ...ends), bottom: Math.min(-1, ...ends), values };
}

/** Place of a value in a box so high, measured down from its top. */
export function downTo(value: number, { top, bottom }: Pick<Drawn, "top" | "bottom">, height: number): number {
  return (height * (top - Math.min(top, Math.max(bottom, value)))) / (top - bottom);
}

/** The limits as one outline with a step for each span, or null where there are none. */
export function bandPath(drawn: Drawn, width: number, height: number): string | null {
  if (!drawn.values.length || drawn.values[0]!.high === null) return null;
  const step = width / drawn.values.length;
  const y = (value: number) => downTo(value, drawn, height).toFixed(2);
  const over = drawn.values.map(({ high }, i) => `${(i * step).toFixed(2)},${y(high!)} ${((i + 1) * step).toFixed(2)},${y(high!)}`);
  const under = drawn.values.map(({ low }, i) => `${((i + 1) * step).toFixed(2)},${y(low!)} ${(i * step).toFixed(2)},${y(low!)}`);
  return `M${[...over, ...under.reverse()].join(" L")}Z`;
}

const MONTH = new Intl.DateTimeFormat("en-GB", { month: "short", year: "numeric", timeZone: "UTC" });
const DAY = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", timeZone: "UTC" });
/** "Mar 2026", or "the week of 2 Mar". */
export function spanName(from: string, by: OverTime["by"]): string {
  const day = new Date(`${from}T00:00:00Z`);
  return by === "month" ? MONTH.format(day) : t("desk-comparison-week-of", { day: DAY.format(day) });
}

/** What the charts say, in words: the drawings add nothing that is not here. */
export function saysOverTime(told: OverTime): string {
  const spans = counted(told.points.length, told.by);
  if (!told.points.length) return t("desk-comparison-time-none");
  if (told.centre === null) {
    return told.points.length < told.needed
      ? t("desk-comparison-time-few", { spans, needed: String(told.needed) })
      : t("desk-comparison-time-same");
  }
  const said = [
    ...told.points.filter((point) => point.is_out).map((point) => outWords(point, told.by)),
    ...(told.shift ? [shiftWords(told.shift, told.by)] : []),
  ];
  if (!said.length) said.push(t(`desk-comparison-no-change-${told.by}`, { spans }));
  said.push(t("desk-comparison-overall", { share: percent(told.centre) }));
  if (told.is_widened) said.push(t("desk-comparison-widened"));
  return said.join(" ");
}

const of = ({ defective, opened }: Pick<TimePoint, "defective" | "opened">) =>
  t("desk-comparison-of", { part: String(defective), whole: String(opened) });

function outWords(point: TimePoint, by: OverTime["by"]): string {
  const past =
    point.defective > point.high!
      ? t("desk-comparison-at-most", { limit: String(point.high) })
      : t("desk-comparison-at-least", { limit: String(point.low) });
  return t("desk-comparison-point-out", { span: spanName(point.from, by), count: of(point), past });
}

function shiftWords({ from, before, since, one_in }: Shift, by: OverTime["by"]): string {
  const way = since.defective / since.opened > before.defective / before.opened ? "worse" : "better";
  const odds = one_in === null ? "" : t("desk-comparison-shift-odds", { one_in: one_in.toLocaleString("en-GB") });
  return t(`desk-comparison-shift-${way}`, { span: spanName(from, by), since: of(since), before: of(before), odds });
}
