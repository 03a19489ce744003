/** The days and the site that a screen is asked for; the choice stands in the address. */
import { t } from "../../messages/desk";
import { route } from "../../state/route.svelte";
import { day } from "../words";

/** Whole months, both days in. */
export interface Months {
  name: string;
  from: string;
  to: string;
}

/** Months to choose with one touch: the usual runs up to the present one, then each by itself, newest first. */
export function monthsBack(today: Date, number: number): Months[] {
  const run = (back: number, long: number): Months => {
    const first = new Date(today.getFullYear(), today.getMonth() - back - long + 1, 1);
    const last = new Date(today.getFullYear(), today.getMonth() - back, 1);
    return { name: monthName(first), from: firstDay(monthOf(first)), to: lastDay(monthOf(last)) };
  };
  const runs = [12, 3].map((long) => ({ ...run(0, long), name: t("desk-period-last-months", { long }) }));
  return [...runs, ...Array.from({ length: number }, (_, back) => run(back, 1))];
}
export function firstDay(month: string): string {
  return `${month}-01`;
}
export function lastDay(month: string): string {
  const [year = 0, number = 1] = month.split("-").map(Number);
  return `${month}-${String(new Date(year, number, 0).getDate()).padStart(2, "0")}`;
}
function monthOf(at: Date): string {
  return `${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, "0")}`;
}
function monthName(at: Date): string {
  return new Intl.DateTimeFormat("en-GB", { month: "short", year: "numeric" }).format(at);
}

const SHOWN = 36;
const MONTH = /^\d{4}-\d{2}$/;

/** What the address asks for, days or whole months: the last twelve months and all sites, unless it says otherwise. */
export class AskedPeriod {
  readonly months = monthsBack(new Date(), SHOWN);

  // Derived, so that a screen asks the server anew when one of them changes and not at any other change of the address.
  readonly from = $derived(whole(route.query.get("from"), firstDay) ?? this.months[0]!.from);
  readonly to = $derived(whole(route.query.get("to"), lastDay) ?? this.months[0]!.to);
  readonly site = $derived(route.query.get("site") ?? "");

  /** As the server wants it: whole days, both in. */
  get query(): { from: string; to: string; site: string } {
    return { from: this.from, to: this.to, site: this.site };
  }

  /** As in "Nothing was delivered from …". */
  get words(): string {
    const [from, to] = [this.from.slice(0, 7), this.to.slice(0, 7)];
    if (this.from !== firstDay(from) || this.to !== lastDay(to)) return t("desk-period-days", { from: day(this.from), to: day(this.to) });
    const [first, last] = [from, to].map((month) => monthName(new Date(`${month}-01T12:00`)));
    return first === last ? t("desk-period-1", { slice: Number(this.to.slice(8)), last }) : t("desk-period-months", { first, last });
  }
}

function whole(asked: string | null, end: (month: string) => string): string | null {
  return asked && MONTH.test(asked) ? end(asked) : asked;
}
