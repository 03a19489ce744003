// Written by fixtures/vectors/write_check_types.py from inspections/trade/data/checks.json.

import type { Reading } from "./types";

export interface VehicleAnswers {
  air?: Reading | null;
  load?: "sound" | "shifted" | "wet" | "mixed" | "dirty" | null;
}

export interface CartonAnswers {
  liner?: "closed" | "open" | "torn" | "missing" | null;
  frost?: "none" | "some" | "heavy" | null;
  refreezing?: ("ice_pool" | "deformed" | "clumped")[] | null;
  odour?: "sound" | "slight" | "off" | "chemical" | null;
  foreign_matter?: "none" | "harmless" | "hazard" | null;
  foreign_note?: string;
  looked_at?: number | null;
  black_spot_score?: number | null;
  pieces?: { black_spot?: number | null; black_spot_meat?: number | null; dehydrated?: number | null; soft?: number | null; heads?: number | null; legs?: number | null; tails?: number | null; black_spot_wide?: number | null; broken?: number | null };
  dehydration?: { dried?: Reading | null; of?: Reading | null; block_surface?: Reading | null };
}

export type Presentation = "HOSO" | "HLSO" | "EZP" | "PTO" | "PDTO" | "PUD" | "PD" | "BTTY" | "PPV";
export type State = "raw" | "part_cooked" | "cooked";
export type Method = "farmed" | "caught" | "caught_freshwater";
