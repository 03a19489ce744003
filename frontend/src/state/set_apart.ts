/** Which refused and held cartons are still there: what was decided, less what was fetched, or decided later (records/services/set_apart). */
import type { Line, SetApartBody, SetApartOfLine } from "../trade/types";

export function stillThere(lines: Line[], said: SetApartBody[]): SetApartOfLine[] {
  const gone = said.filter(({ event }) => event !== "stand").flatMap(({ cartons }) => cartons);
  const come = said.filter(({ event }) => event === "refused").flatMap(({ cartons }) => cartons);
  return lines
    .flatMap((line) => (["refused", "held"] as const).map((part) => ({ line_id: line.id, part, count: line.decision?.[part] ?? 0 })))
    .map((one) => {
      const left = one.count - sum(gone.filter(({ line_id, part }) => line_id === one.line_id && part === one.part));
      const more = one.part === "refused" ? sum(come.filter(({ line_id }) => line_id === one.line_id)) : 0;
      return { ...one, count: left + more };
    })
    .filter(({ count }) => count > 0);
}

const sum = (of: SetApartOfLine[]) => of.reduce((total, { count }) => total + count, 0);
