/** What a recall sheet says on top. A line that two lots of the search stand on is counted once. */
import type { LotRow } from "../../trade/types";

export interface LotSums {
  lines: number;
  sites: number;
  suppliers: number;
  came: number;
  refused: number;
  away: number;
  waiting: number;
}

export function sumsOf(rows: readonly LotRow[]): LotSums {
  const lines = [...new Map(rows.map((row) => [`${row.delivery_id} ${row.line}`, row])).values()];
  const sum = (of: (row: LotRow) => number) => lines.reduce((total, row) => total + of(row), 0);
  return {
    lines: lines.length,
    sites: new Set(lines.map((row) => row.site.id)).size,
    suppliers: new Set(lines.map((row) => row.supplier.id)).size,
    came: sum((row) => row.cartons),
    refused: sum((row) => row.refused),
    away: sum((row) => row.put_away.reduce((total, one) => total + one.count, 0)),
    waiting: sum((row) => Math.max(0, row.not_put_away)),
  };
}
