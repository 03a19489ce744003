/** Which page explains a limit. */
import { hasPage } from "./pages";

export interface Explained {
  address: string;
  title: string;
}

/** Beginnings of limit codes and the page for them; the longest that fits is taken. */
export const EXPLAINED: Record<string, string> = {
  product: "temperature", vehicle_air_c: "temperature", refreezing: "temperature", frost: "temperature",
  load: "condition", liner: "condition", foreign: "condition", odour: "condition", black_spot: "condition",
  dehydrated: "condition", broken: "condition", soft: "condition", heads: "condition", legs: "condition",
  tails: "condition", looked_at: "condition", species: "species", count: "counts", uniformity: "counts",
  net: "glaze", glaze: "glaze", label: "labels", life: "labels", cartons: "verdict", thermometer: "temperature",
  defective_cartons: "sampling",
};

/** The page for a limit, or null when this build brought none: a link never leads nowhere. */
export function docFor(limit: string | null): Explained | null {
  if (!limit) return null;
  const start = Object.keys(EXPLAINED)
    .filter((beginning) => limit.startsWith(beginning))
    .sort((a, b) => b.length - a.length)[0];
  const slug = start ? EXPLAINED[start]! : "";
  return hasPage(slug) ? { address: `/how/${slug}`, title: slug } : null;
}
