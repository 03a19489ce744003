/** Behind each reason: what the judgement itself explains, in the desk's typography. */
import { explain } from "../../trade/reasons";
import { typesetSum } from "../../trade/wording";
import type { Reason } from "../../trade/types";
import { printed } from "../words";

export interface Why {
  /** The sum with its numbers in; "" when the record lacks them. */
  numbers: string;
  limit: string;
  source: string;
  words: string;
}

export function whyOf(reason: Reason): Why {
  if (!reason.basis) return { numbers: "", limit: "", source: "No source is on record.", words: "" };
  const { numbers, limit, source, words } = explain(reason);
  return { numbers: printed(typesetSum(numbers)), limit: printed(limit), source, words: printed(words) };
}
