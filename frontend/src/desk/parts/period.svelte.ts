/** The months and the site that a screen is asked for; the choice stands in the address. */
import { place } from "../place.svelte";

export interface Month {
  value: string;
  name: string;
}
/** The months up to the present one, newest first. */
export function monthsBack(today: Date, number: number): Month[] {
  return Array.from({ length: number }, (_, back) => {
    const first = new Date(today.getFullYear(), today.getMonth() - back, 1);
    const value = `${first.getFullYear()}-${String(first.getMonth() + 1).padStart(2, "0")}`;
    return { value, name: new Intl.DateTimeFormat("en-GB", { month: "short", year: "numeric" }).format(first) };
  });
}
export function firstDay(month: string): string {
  return `${month}-01`;
}
export function lastDay(month: string): string {
  const [year = 0, number = 1] = month.split("-").map(Number);
  return `${month}-${String(new Date(year, number, 0).getDate()).padStart(2, "0")}`;
}

const SHOWN = 36;
const USUAL = 12;

/** What the address asks for: the last twelve months and all sites, unless it says otherwise. */
export class AskedPeriod {
  readonly months = monthsBack(new Date(), SHOWN);

  // Derived, so that a screen asks the server anew when one of them changes and not at any other change of the address.
  readonly from = $derived(place.query.get("from") ?? this.months[USUAL - 1]!.value);
  readonly to = $derived(place.query.get("to") ?? this.months[0]!.value);
  readonly site = $derived(place.query.get("site") ?? "");

  /** As the server wants it: whole days, both in. */
  get query(): { from: string; to: string; site: string } {
    return { from: firstDay(this.from), to: lastDay(this.to), site: this.site };
  }

  nameOf(value: string): string {
    return this.months.find((month) => month.value === value)?.name ?? value;
  }
}
