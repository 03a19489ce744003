/** What may be said of the photo advice, in plain sentences. No DOM. */
import { t } from "../../messages/desk";
import { counted, decimal, tradeWord } from "../words";
import type { AgreementAnswer, Counts, CutOff, LearntAnswer, SaidCounts, Share } from "../../trade/types";

export const SAID: [keyof SaidCounts, string][] = [
  ["darkening_seen", t("desk-darkening-seen")],
  ["none_seen", t("desk-worth-none-seen")],
  ["cannot_tell", t("desk-cannot-tell")],
];

export interface Measure {
  key: "right_flags" | "flagged" | "agreeing" | "untold";
  name: string;
  /** What one carton of `of` is. */
  of: string;
}
export const MEASURES: Measure[] = [
  { key: "right_flags", name: t("desk-worth-flags-right"), of: t("desk-worth-with-darkening-seen") },
  { key: "flagged", name: t("desk-worth-black-spot-flagged"), of: t("desk-worth-with-black-spot") },
  { key: "agreeing", name: t("desk-worth-agreeing"), of: t("desk-worth-where-told-something") },
  { key: "untold", name: t("desk-worth-could-not-tell"), of: "compared" },
];

/** The first thing to read, and it stands without any figure of statistics. */
export function plainly(all: Counts): string[] {
  if (!all.cartons) return [t("desk-worth-no-opened-carton-both")];
  const { right_flags, flagged, untold } = all;
  return [
    right_flags.of
      ? t("desk-worth-where-advice-said-darkening", { of: counted(right_flags.of, "carton"), count: right_flags.count })
      : t("desk-worth-advice-said-darkening-no"),
    flagged.of
      ? t("desk-worth-where-receivers-found-black", { of: counted(flagged.of, "carton"), count: flagged.count })
      : t("desk-worth-receivers-found-black-spot"),
    t("desk-worth-could-not-tell-2", { count: untold.count, of: counted(untold.of, "carton") }),
  ];
}

/** Whether a flag means anything: does it fall more often on cartons with black spot than on others? */
export function worth(group: Counts, threshold: AgreementAnswer["threshold"]): string {
  if (!group.cartons) return t("desk-nothing-compare-yet");
  const { flagged, wrong_flags } = group;
  if (flagged.too_few || wrong_flags.too_few)
    return t("desk-worth-too-few-say-what", {
      of: counted(flagged.of, "carton"),
      of_2: wrong_flags.of,
      deliveries: counted(group.deliveries, "delivery"),
      cartons: threshold.cartons,
      deliveries_2: threshold.deliveries,
    });
  if (flagged.low! > wrong_flags.high!) return t("desk-worth-flags-cartons-with-black");
  if (flagged.high! < wrong_flags.low!) return t("desk-worth-flags-cartons-with-black-2");
  return t("desk-worth-flags-cartons-with-without");
}

/** Advice that may have been read first proves nothing by agreeing. */
export function readFirst(told: Pick<AgreementAnswer, "blind" | "maybe_read">): string {
  const { blind, maybe_read } = told;
  if (!blind.cartons && !maybe_read.cartons) return "";
  if (!maybe_read.cartons) return t("desk-worth-all-advice-came-after");
  const sure = blind.cartons
    ? t("desk-worth-advice-came-after-receiver", { cartons: counted(blind.cartons, "carton"), agreeing: ofThem(blind.agreeing) })
    : t("desk-worth-no-carton-advice-sure");
  // where the advice could not tell there is nothing to agree with
  const agreed = maybe_read.agreeing.of ? ` ${t("desk-worth-agree", { agreeing: ofThem(maybe_read.agreeing) })}` : "";
  return t("desk-worth-other-receiver-may-read", { sure, count: maybe_read.cartons, agreed });
}
function ofThem(share: Share): string {
  return t("desk-worth-of", { count: share.count, of: share.of });
}

export function apart(nothing: number, unanswered: number): string[] {
  const told = [];
  if (nothing) told.push(t("desk-worth-with-advice-not-looked", { count: nothing, cartons: counted(nothing, "carton") }));
  if (unanswered)
    told.push(
      t("desk-worth-no-answer-still-waits", {
        count: unanswered,
        cartons: counted(unanswered, "photographed carton"),
      }),
    );
  return told;
}

export function goodsWords(row: Pick<CutOff, "species" | "presentation" | "state">): string {
  return [row.species, tradeWord("presentation", row.presentation), tradeWord("state", row.state)].join(", ");
}

/** Whether answers are given at all, and what that rests on. */
export function answersWords({ kept_aside, floor }: LearntAnswer): string {
  const told = Object.entries(kept_aside).map(([state, one]) =>
    t("desk-worth-goods-marked-sound-photographs", {
      state,
      auc: decimal(one.auc, 2),
      auc_low: decimal(one.auc_low, 2),
      auc_high: decimal(one.auc_high, 2),
      marked: one.marked,
      none: one.none,
    }),
  );
  if (!told.length) return t("desk-worth-what-method-worth-photographs");
  return t("desk-worth-photographs-kept-aside-chance", { join: told.join("; "), floor: decimal(floor, 2) });
}

/** What receivers' findings made of the cut-off at some goods. */
export function learntWords(row: CutOff, { least, floor, most_moved }: LearntAnswer): string {
  const findings = t("desk-worth-without-with-black-spot", { sound: counted(row.sound, "carton"), spotted: row.spotted });
  if (row.refitted === undefined) return t("desk-worth-too-few-learn-from", { findings, least, shipped: decimal(row.shipped, 2) });
  const where = t("desk-worth-cut-off-shipped-one", {
    findings,
    refitted: decimal(row.refitted, 2),
    low: decimal(row.low!, 2),
    high: decimal(row.high!, 2),
    drift: decimal(Math.abs(row.drift!), 2),
    side: row.drift! < 0 ? t("desk-worth-below") : t("desk-worth-above"),
  });
  const tells = t("desk-worth-chance-carton-with-black", {
    auc: decimal(row.auc!, 2),
    auc_low: decimal(row.auc_low!, 2),
    auc_high: decimal(row.auc_high!, 2),
  });
  if (!row.is_quiet) return t("desk-worth-answers-given", { where, tells });
  const why =
    row.auc_low! <= floor
      ? t("desk-worth-lower-end-not-above", { floor: decimal(floor, 2) })
      : t("desk-worth-moved-more-than", { most_moved: decimal(most_moved, 1) });
  return t("desk-worth-quiet-so-only-frames", { where, tells, why });
}
