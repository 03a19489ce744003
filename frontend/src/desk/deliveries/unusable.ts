/** The sentence of an entry that the judgement could not use, from the shared file. */
import { WORDS, filled, typeset } from "../../trade/wording";
import type { Unusable } from "../../trade/types";

export function unusableWords({ code, facts }: Pick<Unusable, "code" | "facts">): string {
  const sentence = (WORDS.unusable as Record<string, string>)[code];
  if (!sentence) return `This entry could not be used (${code}). It is kept as it was typed. Ask whoever typed it.`;
  const places = Object.entries(facts).map(([name, fact]) => [name, String(fact)] as const);
  return typeset(filled(sentence, Object.fromEntries(places)));
}
