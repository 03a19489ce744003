/** Markdown to HTML. The text is the project's own, taken in at build time: nobody can send text to this place. */
import { Marked } from "marked";
import { typeset } from "../../trade/wording";

/** A worked example as Python runs it (">>> …" and what it prints) is a listing, not a quotation three deep. */
export function listed(text: string): string {
  return text.replace(/^>>> (?:.*\n)(?:(?!\s*$).*\n?)*/gm, (example) => "```\n" + example.trimEnd() + "\n```\n");
}

/** Links between the pages go to their addresses in the app; numbers in prose are set as everywhere, listings as they run. */
export function rendered(text: string): string {
  const marked = new Marked({ gfm: true });
  marked.use({
    walkTokens: (token) => {
      if (token.type === "link") token.href = String(token.href).replace(/^(?:.*\/)?([a-z0-9_-]+)\.md(#.*)?$/i, "/how/$1$2");
      if (token.type === "text" && !token.tokens) token.text = typeset(token.text);
    },
  });
  // A table may be wider than a phone: it scrolls by itself, by keyboard too.
  return marked
    .parse(listed(text), { async: false })
    .replaceAll("<table>", '<div class="wide" role="region" aria-label="Table" tabindex="0"><table>')
    .replaceAll("</table>", "</table></div>");
}
