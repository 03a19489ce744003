/** Which refused and held cartons are still there: what was decided, less what was fetched (records/services/set_apart). */
import type { Line, SetApartBody, SetApartOfLine } from "../trade/types";

export function stillThere(lines: Line[], said: SetApartBody[]): SetApartOfLine[] {
  const gone = said.filter(({ event }) => event === "fetched").flatMap(({ cartons }) => cartons);
  return lines
    .flatMap((line) => (["refused", "held"] as const).map((part) => ({ line_id: line.id, part, count: line.decision?.[part] ?? 0 })))
    .map((one) => ({ ...one, count: one.count - sum(gone.filter(({ line_id, part }) => line_id === one.line_id && part === one.part)) }))
    .filter(({ count }) => count > 0);
}

const sum = (of: SetApartOfLine[]) => of.reduce((total, { count }) => total + count, 0);
