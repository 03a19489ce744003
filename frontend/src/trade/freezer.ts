// Mirror of inspections/trade/freezer.py.

import { isFineFor, type Limits } from "./limits";
import { filled, shownMeasure, word } from "./wording";

export interface FreezerJudged {
  state: "cold" | "near" | "warm";
  text: string;
}

export function judgeFreezer(airC: number, limits: Limits): FreezerJudged {
  const wanted = limits.get("freezer_air_c.wanted");
  const kept = limits.get("freezer_air_c");
  const state = isFineFor(wanted, airC) ? "cold" : isFineFor(kept, airC) ? "near" : "warm";
  const places = {
    measured: shownMeasure(airC, "C"),
    wanted: shownMeasure(wanted.bound ?? 0, "C"),
    kept: shownMeasure(kept.bound ?? 0, "C"),
  };
  return { state, text: filled(word("freezer", state), places) };
}
