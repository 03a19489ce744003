/** Measures as columns: what each is called, and how it is written. No DOM. */
import { t } from "../../messages/desk";
import type { Measured, MeasuredBy, MeasuredShare } from "../../trade/types";
import { decimal, measure, percent, percentRange } from "../words";

export const BY_WORDS: Record<MeasuredBy, string> = {
  supplier: t("desk-supplier"),
  site: t("desk-site"),
  specification: t("desk-measures-specification"),
  species: t("desk-measures-species"),
  month: t("desk-comparison-by-month"),
};

export interface Column {
  name: string;
  label: string;
  text: (one: Measured) => string;
}

/** "4 of 63: 6.3 % (2.5 to 15.2 %)": what was counted first; no share where nothing was looked at. */
export function shareText({ count, of, share, low, high }: MeasuredShare, nothing = t("desk-measures-not-looked")): string {
  if (!of) return nothing;
  return t("desk-measures-share", {
    part: count.toLocaleString("en-GB"),
    whole: of.toLocaleString("en-GB"),
    share: percent(share),
    interval: percentRange(low, high),
  });
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
  if (!one.cost) return t("desk-measures-no-price");
  const { currency, paid, net_share, sound_share, sound } = one.cost;
  const parts = [
    t("desk-measures-paid", { money: money(paid, currency) }),
    net_share === null ? t("desk-measures-not-weighed") : t("desk-measures-there", { share: percent(net_share) }),
    sound_share === null ? t("desk-measures-none-opened") : t("desk-measures-sound", { share: percent(sound_share) }),
  ];
  return `${money(sound, currency)} (${parts.join(", ")})`;
}

/** What is asked of goods and of whoever brings them. */
export const GOODS: Column[] = [
  { name: "delivered", label: t("desk-measures-received"), text: (one) => one.counts.delivered!.toLocaleString("en-GB") },
  share("refused", t("desk-measures-refused")),
  share("defective", t("desk-measures-defective")),
  share("short", t("desk-measures-short")),
  share("off_count", t("desk-measures-off-count")),
  share("warm", t("desk-measures-warm")),
  {
    name: "mean_product_c",
    label: t("desk-measures-mean"),
    text: (one) => (one.mean_product_c === null ? t("desk-measures-not-read") : measure(Math.round(one.mean_product_c * 10) / 10, "C")),
  },
  share("spot", t("desk-measures-spot")),
  share("burn", t("desk-measures-burn")),
  share("soft", t("desk-measures-soft")),
  share("late", t("desk-measures-late"), t("desk-measures-no-order")),
  {
    name: "claims",
    label: t("desk-measures-claims"),
    text: (one) => {
      if (!one.counts.claims) return t("desk-measures-none");
      const late = one.shares.late_notice!.count;
      const claims = one.counts.claims.toLocaleString("en-GB");
      return late ? t("desk-measures-claims-late", { claims, late: late.toLocaleString("en-GB") }) : claims;
    },
  },
  share("claims_agreed", t("desk-measures-agreed"), t("desk-measures-none-sent")),
  {
    name: "settle_days",
    label: t("desk-measures-settle"),
    text: (one) =>
      one.settle_days === null ? t("desk-measures-none-settled") : t("desk-measures-days", { days: decimal(one.settle_days, 1) }),
  },
  { name: "cost", label: t("desk-measures-cost"), text: cost },
];
/** What is asked of a site: how closely it looks, and how fast goods are in the cold. */
export const LOOKING: Column[] = [
  share("looked_into", t("desk-measures-opened")),
  share("probed", t("desk-measures-probed")),
  share("weighed", t("desk-measures-weighed")),
  {
    name: "out_minutes",
    label: t("desk-measures-out"),
    text: (one) =>
      one.out_minutes === null ? t("desk-measures-not-noted") : t("desk-measures-minutes", { minutes: decimal(one.out_minutes, 0) }),
  },
];

export function columnsFor(by: MeasuredBy, isSite: boolean): Column[] {
  return by === "site" || isSite ? [...LOOKING, ...GOODS] : GOODS;
}
