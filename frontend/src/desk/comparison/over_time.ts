/** Words and geometry of a supplier's rate over time. No DOM. */
import type { OverTime, TimePoint } from "../shapes";
import { counted, percent } from "../words";

/** Upper end of the scale, a whole step above everything drawn. */
export function topOf(drawn: OverTime): number {
  const most = Math.max(0.05, ...drawn.points.map((point) => Math.max(point.rate, point.high ?? 0)));
  const step = most > 0.5 ? 0.2 : most > 0.2 ? 0.1 : most > 0.1 ? 0.05 : 0.02;
  return Math.min(1, Math.ceil(most / step - 1e-9) * step);
}

/** Place of a share in a box so high, measured down from its top. */
export function downTo(share: number, top: number, height: number): number {
  return height * (1 - Math.min(1, share / top));
}

/** The limits as one outline with a step for each span, or null where there are none. */
export function bandPath(drawn: OverTime, top: number, width: number, height: number): string | null {
  if (drawn.centre === null || !drawn.points.length) return null;
  const step = width / drawn.points.length;
  const y = (share: number) => downTo(share, top, height).toFixed(2);
  const over = drawn.points.map((point, i) => `${(i * step).toFixed(2)},${y(point.high!)} ${((i + 1) * step).toFixed(2)},${y(point.high!)}`);
  const under = drawn.points.map((point, i) => `${((i + 1) * step).toFixed(2)},${y(point.low!)} ${(i * step).toFixed(2)},${y(point.low!)}`);
  return `M${[...over, ...under.reverse()].join(" L")}Z`;
}

const MONTH = new Intl.DateTimeFormat("en-GB", { month: "short", year: "numeric", timeZone: "UTC" });
const DAY = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", timeZone: "UTC" });
/** "Mar 2026", or "week of 2 Mar". */
export function spanName(point: TimePoint, by: OverTime["by"]): string {
  const day = new Date(`${point.from}T00:00:00Z`);
  return by === "month" ? MONTH.format(day) : `week of ${DAY.format(day)}`;
}

/** What the chart says, in words: the picture adds nothing that is not here. */
export function saysOverTime(drawn: OverTime): string {
  const spans = counted(drawn.points.length, drawn.by);
  if (!drawn.points.length) return "No carton was opened: nothing to show over time.";
  if (drawn.centre === null) {
    return drawn.points.length < drawn.needed
      ? `Too few to say: ${spans} with an opened carton. It takes ${drawn.needed} before limits can be drawn.`
      : "The same in every one: nothing to say over time.";
  }
  const out = drawn.points.filter((point) => point.is_out);
  const usual = `Its own usual rate is ${percent(drawn.centre)}.`;
  const wide = drawn.is_widened ? ` Its deliveries wander more than luck makes them, so the limits are drawn wider.` : "";
  if (!out.length) return `Steady over ${spans}: no ${drawn.by} beyond the limits. ${usual}${wide}`;
  const names = out.map((point) => `${spanName(point, drawn.by)} (${point.defective} of ${point.opened}, ${pastWhich(point)})`);
  return `More than luck explains in ${names.join("; ")}. ${usual}${wide}`;
}
function pastWhich(point: TimePoint): string {
  return point.rate > point.high! ? `over ${percent(point.high)}` : `under ${percent(point.low)}`;
}
