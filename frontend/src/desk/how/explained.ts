/** Which page explains a limit. */
import { OUTCOMES } from "../../trade/registry";
import { hasPage } from "./pages";

export interface Explained {
  address: string;
  title: string;
}

/** Beginnings of limit codes and the page for them; the longest that fits is taken, and the rest of the plain checks is condition. */
export const EXPLAINED: Record<string, string> = {
  product: "temperature",
  vehicle_air_c: "temperature",
  freezer_air_c: "temperature",
  refreezing: "temperature",
  frost: "temperature",
  looked_at: "condition",
  species: "species",
  count: "counts",
  uniformity: "counts",
  net: "glaze",
  glaze: "glaze",
  label: "labels",
  life: "labels",
  cartons: "verdict",
  thermometer: "temperature",
  defective_cartons: "sampling",
};

/** The page for a limit, or null when this build brought none: a link never leads nowhere. */
export function docFor(limit: string | null): Explained | null {
  if (!limit) return null;
  const start = Object.keys(EXPLAINED)
    .filter((beginning) => limit.startsWith(beginning))
    .sort((a, b) => b.length - a.length)[0];
  const isPlain = OUTCOMES.some((outcome) => outcome.limit === limit);
  const slug = start ? EXPLAINED[start]! : isPlain ? "condition" : "";
  return hasPage(slug) ? { address: `/how/${slug}`, title: slug } : null;
}
