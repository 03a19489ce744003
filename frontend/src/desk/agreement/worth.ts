/** What may be said of the photo advice, in plain sentences. No DOM. */
import { counted, decimal, tradeWord } from "../words";
import type { AgreementAnswer, Counts, Look, LookRow, Said, Share } from "./shapes";

export const SAID: [Said, string][] = [
  ["darkening_seen", "Darkening seen"],
  ["none_seen", "None seen"],
  ["cannot_tell", "Cannot tell"],
];

export interface Measure {
  key: "right_flags" | "flagged" | "agreeing" | "untold";
  name: string;
  /** What one carton of `of` is. */
  of: string;
}
export const MEASURES: Measure[] = [
  { key: "right_flags", name: "Flags that were right", of: "with darkening seen" },
  { key: "flagged", name: "Black spot that was flagged", of: "with black spot" },
  { key: "agreeing", name: "Agreeing", of: "where it told something" },
  { key: "untold", name: "Could not tell", of: "compared" },
];

/** The first thing to read, and it stands without any figure of statistics. */
export function plainly(all: Counts): string[] {
  if (!all.cartons) return ["No opened carton has both photo advice and a receiver's look for black spot in this period. Nothing can be said yet."];
  const { right_flags, flagged, untold } = all;
  return [
    right_flags.of
      ? `Of ${counted(right_flags.of, "carton")} where the advice said darkening, receivers found black spot in ${right_flags.count}.`
      : "The advice said darkening of no carton that was looked at for black spot.",
    flagged.of
      ? `Of ${counted(flagged.of, "carton")} where receivers found black spot, the advice said darkening in ${flagged.count}.`
      : "Receivers found black spot in no carton that has advice.",
    `In ${untold.count} of ${counted(untold.of, "carton")} it could not tell.`,
  ];
}

/** Whether a flag means anything: does it fall more often on cartons with black spot than on others? */
export function worth(group: Counts, threshold: AgreementAnswer["threshold"]): string {
  if (!group.cartons) return "Nothing to compare yet.";
  const { flagged, wrong_flags } = group;
  if (flagged.too_few || wrong_flags.too_few)
    return `Too few to say what it is worth: ${counted(flagged.of, "carton")} with black spot and ${wrong_flags.of} without, of ${counted(group.deliveries, "delivery", "deliveries")}. It takes ${threshold.cartons} of each, of ${threshold.deliveries}.`;
  if (flagged.low! > wrong_flags.high!) return "It flags cartons with black spot clearly more often than cartons without.";
  if (flagged.high! < wrong_flags.low!) return "It flags cartons with black spot less often than cartons without. Consider switching it off.";
  return "It flags cartons with and without black spot about as often: a flag tells little here. Consider switching it off.";
}

/** Advice that may have been read first proves nothing by agreeing. */
export function readFirst(told: Pick<AgreementAnswer, "blind" | "maybe_read">): string {
  const { blind, maybe_read } = told;
  if (!blind.cartons && !maybe_read.cartons) return "";
  if (!maybe_read.cartons) return "All of this advice came after the receivers had signed, so none of them can have been led by it.";
  const sure = blind.cartons
    ? `In ${counted(blind.cartons, "carton")} the advice came after the receiver had signed; there ${ofThem(blind.agreeing)} agree.`
    : "In no carton is the advice sure to have come after the receiver had signed.";
  const others = maybe_read.cartons === 1 ? "one" : maybe_read.cartons;
  // where the advice could not tell there is nothing to agree with
  const agreed = maybe_read.agreeing.of ? ` (${ofThem(maybe_read.agreeing)} agree)` : "";
  return `${sure} In the other ${others} the receiver may have read it before answering${agreed}, so agreement there proves nothing.`;
}
function ofThem(share: Share): string {
  return `${share.count} of ${share.of}`;
}

export function apart(nothing: number, unanswered: number): string[] {
  const told = [];
  if (nothing) told.push(`${counted(nothing, "carton")} with advice ${nothing === 1 ? "was" : "were"} not looked at for black spot: nothing to compare with, so not counted here.`);
  if (unanswered) told.push(`${counted(unanswered, "photographed carton")} ${unanswered === 1 ? "has" : "have"} no answer: it still waits, the photo could not be read, or advice was switched off.`);
  return told;
}

export function goodsWords(row: Pick<LookRow, "species" | "presentation" | "state">): string {
  return [row.species, tradeWord("presentation", row.presentation), tradeWord("state", row.state)].join(", ");
}

/** Drift as an eye would see it; CIEDE2000 of about 2 is just seen side by side. */
export function driftWords(look: Look): string {
  const figure = `(difference ${decimal(look.drift, 1)})`;
  if (!look.site_photos && !look.group_photos) return "as documented: no photos yet";
  if (look.is_too_far) return `too far from the documented look ${figure}: the photos are not used`;
  if (look.drift < 1) return `no difference to the eye ${figure}`;
  if (look.drift < 2) return `hardly to be seen ${figure}`;
  return look.drift < 4 ? `to be seen side by side ${figure}` : `plain to see ${figure}`;
}

export function usedWords(look: Look): string {
  if (look.from === "documented") return "the documented look";
  return look.from === "site" ? "its own look" : "the group's look";
}

/** A look that CSS and SVG can paint; the words beside it say the same. */
export function paint([l, a, b]: [number, number, number]): string {
  return `lab(${l.toFixed(1)}% ${a.toFixed(1)} ${b.toFixed(1)})`;
}
