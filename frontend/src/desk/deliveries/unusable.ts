/** The sentence of an entry that the judgement could not use, from the shared file. */
import { t } from "../../messages/desk";
import { WORDS, filled, typeset } from "../../trade/wording";
import type { Unusable } from "../../trade/types";

export function unusableWords({ code, facts }: Pick<Unusable, "code" | "facts">): string {
  const sentence = (WORDS.unusable as Record<string, string>)[code];
  if (!sentence) return t("desk-unusable-entry-could-not-used", { code });
  const places = Object.entries(facts).map(([name, fact]) => [name, String(fact)] as const);
  return typeset(filled(sentence, Object.fromEntries(places)));
}
