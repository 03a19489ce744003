/** What may be said of the photo advice, in plain sentences. No DOM. */
import { counted, decimal, tradeWord } from "../words";
import type { AgreementAnswer, Counts, CutOff, LearntAnswer, SaidCounts, Share } from "../../trade/types";

export const SAID: [keyof SaidCounts, string][] = [
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
  if (!all.cartons)
    return ["No opened carton has both photo advice and a receiver's look for black spot in this period. Nothing can be said yet."];
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
  if (flagged.high! < wrong_flags.low!)
    return "It flags cartons with black spot less often than cartons without. Consider switching it off.";
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
  if (nothing)
    told.push(
      `${counted(nothing, "carton")} with advice ${nothing === 1 ? "was" : "were"} not looked at for black spot: nothing to compare with, so not counted here.`,
    );
  if (unanswered)
    told.push(
      `${counted(unanswered, "photographed carton")} ${unanswered === 1 ? "has" : "have"} no answer: it still waits, the photo could not be read, or advice was switched off.`,
    );
  return told;
}

export function goodsWords(row: Pick<CutOff, "species" | "presentation" | "state">): string {
  return [row.species, tradeWord("presentation", row.presentation), tradeWord("state", row.state)].join(", ");
}

/** Whether answers are given at all, and what that rests on. */
export function answersWords({ kept_aside, floor }: LearntAnswer): string {
  const told = Object.entries(kept_aside).map(
    ([state, one]) =>
      `${state} goods: ${decimal(one.auc, 2)} (${decimal(one.auc_low, 2)} to ${decimal(one.auc_high, 2)}) on ${one.marked} marked and ${one.none} sound photographs`,
  );
  if (!told.length)
    return "What the method is worth on photographs kept aside is not known yet. So the darkest places are framed, and no answer is given unless receivers’ findings here have shown that it tells.";
  return `On photographs kept aside the chance that a marked one comes first was, for ${told.join("; ")}. Answers are given where the lower end is above ${decimal(floor, 2)}.`;
}

/** What receivers' findings made of the cut-off at some goods. */
export function learntWords(row: CutOff, { least, floor, most_moved }: LearntAnswer): string {
  const findings = `${counted(row.sound, "carton")} without and ${row.spotted} with black spot`;
  if (row.refitted === undefined)
    return `${findings}: too few to learn from (${least} of each). The shipped cut-off ${decimal(row.shipped, 2)} holds.`;
  const where = `${findings}: cut-off ${decimal(row.refitted, 2)} (${decimal(row.low!, 2)} to ${decimal(row.high!, 2)}), ${decimal(Math.abs(row.drift!), 2)} ${row.drift! < 0 ? "below" : "above"} the shipped one.`;
  const tells = `Chance that a carton with black spot comes first: ${decimal(row.auc!, 2)} (${decimal(row.auc_low!, 2)} to ${decimal(row.auc_high!, 2)}).`;
  if (!row.is_quiet) return `${where} ${tells} Answers are given by it.`;
  const why =
    row.auc_low! <= floor ? `the lower end is not above ${decimal(floor, 2)}` : `it has moved by more than ${decimal(most_moved, 1)}`;
  return `${where} ${tells} Quiet: ${why}, so only frames are shown.`;
}
