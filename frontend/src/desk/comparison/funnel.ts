/** Geometry and words of the funnel and of the ranks. No DOM. */
import { t } from "../../messages/desk";
import type { Comparison, Funnel, FunnelLimit, SupplierRow } from "../../trade/types";
import { decimal } from "../words";

export interface FunnelPoint {
  name: string;
  expected: number;
  found: number;
  ratio: number;
  /** As the exact test marks it: nothing else decides. */
  says: "more" | "fewer" | "within" | "too_few";
}

export function pointsOf(told: Comparison): FunnelPoint[] {
  return told.rows.flatMap((row) =>
    row.expected && row.ratio !== null && row.comparable
      ? [
          {
            name: row.supplier.name,
            expected: row.expected,
            found: row.comparable.own.defective,
            ratio: row.ratio,
            says: row.luck?.says ?? "too_few",
          },
        ]
      : [],
  );
}

/** Top of the drawing: the farthest point, and room for the limits in the middle of the funnel; the curves may leave it. */
export function topOf(points: FunnelPoint[], limits: FunnelLimit[]): number {
  const middle = limits[Math.floor(limits.length / 2)]?.alarm_high ?? 2;
  return Math.ceil(Math.max(2, middle, ...points.map((point) => point.ratio)) * 1.08 * 2) / 2;
}

/** Across by the root of the expected number, which gives small suppliers room and straightens the curves. */
export function across(expected: number, limits: FunnelLimit[], width: number): number {
  const [low, high] = [Math.sqrt(limits[0]!.expected), Math.sqrt(limits.at(-1)!.expected)];
  return ((Math.sqrt(expected) - low) / (high - low)) * width;
}

/** Up by the root of the ratio, likewise: one far supplier must not press all others to the ground. */
export function upwards(ratio: number, top: number, height: number): number {
  return height * (1 - Math.sqrt(Math.max(0, ratio) / top));
}

export interface Spot {
  x: number;
  y: number;
}
/** Where the number of each point is written: beside it, and up past those that stand there already. */
export function numbersAt(points: Spot[], width: number, height: number): Spot[] {
  const taken: Spot[] = [];
  const found = new Map<Spot, Spot>();
  for (const point of [...points].sort((a, b) => b.y - a.y)) {
    const spot = { x: point.x + (point.x > width / 2 ? -24 : 24), y: Math.min(point.y + 6, height - 8) };
    while (taken.some((other) => Math.abs(other.x - spot.x) < 40 && Math.abs(other.y - spot.y) < 32)) spot.y -= 4;
    taken.push(spot);
    found.set(point, spot);
  }
  return points.map((point) => found.get(point)!);
}

type Side = Exclude<keyof FunnelLimit, "expected">;
export function curve(limits: FunnelLimit[], side: Side, top: number, width: number, height: number): string {
  return limits
    .filter((at) => at[side] <= top)
    .map((at) => `${across(at.expected, limits, width).toFixed(1)},${upwards(at[side], top, height).toFixed(1)}`)
    .join(" ");
}

/** How far all stray together; 1 is luck alone. */
export function spreadWords({ spread, effect }: Funnel): string {
  const alike = effect > 1.05 ? t("desk-comparison-alike", { times: decimal(Math.sqrt(effect), 1) }) : "";
  if (spread === null) return alike;
  const far = spread > 1.5 ? t("desk-comparison-stray", { times: decimal(Math.sqrt(spread), 1) }) : t("desk-comparison-stray-not");
  return `${far} ${alike}`.trim();
}

export interface Ranked {
  name: string;
  rank: NonNullable<SupplierRow["rank"]>;
}
/** In the order of their middle places, those that cannot be told apart in the order of their names. */
export function ranked(rows: SupplierRow[]): Ranked[] {
  return rows
    .flatMap((row) => (row.rank ? [{ name: row.supplier.name, rank: row.rank }] : []))
    .sort((a, b) => a.rank.middle - b.rank.middle || a.name.localeCompare(b.name));
}
export function rankWords({ low, high, of }: Ranked["rank"]): string {
  if (low === 1 && high === of) return t("desk-comparison-any-place");
  return t(low === high ? "desk-comparison-place" : "desk-comparison-places", { low: String(low), high: String(high) });
}
