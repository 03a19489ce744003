/** Behind each reason: what the judgement itself explains, in the desk's typography. */
import { t } from "../../messages/desk";
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
  if (!reason.basis) return { numbers: "", limit: "", source: t("desk-why-no-source-record"), words: "" };
  const { numbers, limit, source, words } = explain(reason);
  return {
    numbers: printed(typesetSum(numbers)),
    limit: printed(limit),
    source: withWhose(reason.basis, source, reason),
    words: printed(words),
  };
}

/** Whose limit, as the judgement says it; a record from before it did is read by how the limit is known. A house rule cites no standard. */
function withWhose(basis: NonNullable<Reason["basis"]>, source: string, reason: Reason & { whose?: string }): string {
  const isHabit = basis.known === "common_practice";
  const whose = reason.whose ?? (isHabit ? "house" : "published");
  if (whose === "published") return t("desk-why-published-limit", { source });
  const told = whose === "ordered" ? t("desk-why-agreed-specification") : t("desk-why-house-limit-not-published");
  return isHabit && !basis.source.includes("common practice") ? t("desk-why-its-ground-as-kitchen", { told, source: basis.source }) : told;
}
