/** Measures as columns: what each is called, and how it is written. No DOM. */
import type { Measured, MeasuredBy, MeasuredShare } from "../../trade/types";
import { decimal, measure, percent, percentRange } from "../words";

export const BY_WORDS: Record<MeasuredBy, string> = {
  supplier: "Supplier",
  site: "Site",
  specification: "Specification",
  species: "Species",
  month: "Month",
};

export interface Column {
  name: string;
  label: string;
  text: (one: Measured) => string;
}

/** "4 of 63: 6.3 % (2.5 to 15.2 %)": what was counted first; no share where nothing was looked at. */
export function shareText({ count, of, share, low, high }: MeasuredShare, nothing = "not looked at"): string {
  if (!of) return nothing;
  return `${count.toLocaleString("en-GB")} of ${of.toLocaleString("en-GB")}: ${percent(share)} (${percentRange(low, high)})`;
}
const share = (name: string, label: string, nothing?: string): Column => ({
  name,
  label,
  text: (one) => shareText(one.shares[name]!, nothing),
});

/** Money by ISO 4217, to the hundredth. */
export function money(value: number | null | undefined, currency: string): string {
  return value === null || value === undefined ? "–" : `${decimal(value, 2)} ${currency}`;
}
function cost(one: Measured): string {
  if (!one.cost) return "no price, or several currencies";
  const { currency, paid, net_share, sound_share, sound } = one.cost;
  const parts = [
    `${money(paid, currency)} paid`,
    net_share === null ? "not weighed" : `${percent(net_share)} of the weight there`,
    sound_share === null ? "none opened" : `${percent(sound_share)} of cartons sound`,
  ];
  return `${money(sound, currency)} (${parts.join(", ")})`;
}

/** What is asked of goods and of whoever brings them. */
export const GOODS: Column[] = [
  { name: "delivered", label: "Cartons received", text: (one) => one.counts.delivered!.toLocaleString("en-GB") },
  share("refused", "Refused"),
  share("defective", "Opened cartons defective"),
  share("short", "Short weight"),
  share("off_count", "Count against grade"),
  share("warm", "Too warm at receipt"),
  {
    name: "mean_product_c",
    label: "Mean product temperature",
    text: (one) => (one.mean_product_c === null ? "not read" : measure(Math.round(one.mean_product_c * 10) / 10, "C")),
  },
  share("spot", "Black spot beyond the limit"),
  share("burn", "Freezer burn or frost"),
  share("soft", "Soft or broken"),
  share("late", "Came after the day ordered for", "no order named"),
  {
    name: "claims",
    label: "Claims sent",
    text: (one) => {
      if (!one.counts.claims) return "none";
      const late = one.shares.late_notice!.count;
      return `${one.counts.claims.toLocaleString("en-GB")}${late ? `, ${late.toLocaleString("en-GB")} of them late` : ""}`;
    },
  },
  share("claims_agreed", "Claims agreed to", "none sent"),
  {
    name: "settle_days",
    label: "From claim to credit",
    text: (one) => (one.settle_days === null ? "none settled" : `${decimal(one.settle_days, 1)} days on average`),
  },
  { name: "cost", label: "Cost of a sound kilogram", text: cost },
];
/** What is asked of a site: how closely it looks, and how fast goods are in the cold. */
export const LOOKING: Column[] = [
  share("looked_into", "Cartons opened"),
  share("probed", "Of those, probed"),
  share("weighed", "Of those, sample weighed"),
  {
    name: "out_minutes",
    label: "Door to freezer",
    text: (one) => (one.out_minutes === null ? "not noted" : `${decimal(one.out_minutes, 0)} minutes on average`),
  },
];

export function columnsFor(by: MeasuredBy, isSite: boolean): Column[] {
  return by === "site" || isSite ? [...LOOKING, ...GOODS] : GOODS;
}
